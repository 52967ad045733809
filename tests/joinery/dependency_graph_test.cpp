#include "joinery/base/dependency_graph.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "joinery/piece/size_graph.h"
#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {
namespace {

using Id = DependencyGraph::Id;

TEST(DependencyGraph, PutsSourcesBeforeReaders) {
  const unsigned seed = 5;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  for (int round = 0; round < 100; ++round) {
    const std::size_t count = 2 + random() % 40;
    DependencyGraph graph;
    for (std::size_t i = 0; i < count; ++i) graph.add("n" + std::to_string(i), "");
    std::vector<Id> rank(count);  // edges run down this order, so that there is no cycle
    for (std::size_t i = 0; i < count; ++i) rank[i] = i;
    std::shuffle(rank.begin(), rank.end(), random);
    for (std::size_t k = 0; k < 2 * count; ++k) {
      const std::size_t a = random() % count, b = random() % count;
      if (a < b) graph.connect(rank[a], rank[b]);
    }
    const auto order = graph.order();
    ASSERT_TRUE(order);
    ASSERT_EQ(order->size(), count);
    std::vector<std::size_t> at(count);
    for (std::size_t i = 0; i < count; ++i) at[(*order)[i]] = i;
    for (Id id = 0; id < count; ++id) {
      for (const Id source : graph.node(id).reads) EXPECT_LT(at[source], at[id]);
    }
    EXPECT_EQ(*order, *graph.order());  // the same every time
  }
}

TEST(DependencyGraph, NamesALoopAndNotWhatHangsOnIt) {
  DependencyGraph graph;
  const Id hanging = graph.add("hanging", "h"), a = graph.add("a", "place of a"),
           b = graph.add("b", "place of b"), free = graph.add("free", "f");
  graph.connect(hanging, a);
  graph.connect(b, a);
  graph.connect(a, b);
  graph.connect(a, free);
  const auto order = graph.order();
  ASSERT_FALSE(order);
  EXPECT_EQ(order.error().code, ErrorCode::cycle);
  EXPECT_NE(order.error().what.find(": a -> b -> a"), std::string::npos) << order.error().what;
  EXPECT_EQ(order.error().where, "place of a");
}

TEST(SizeGraph, TellsWhatFollowsFromAChangedSize) {
  const ModelFile file = fileFrom(doorText());
  const auto sizes = SizeGraph::build(file.model(), Basis::drawn);
  ASSERT_TRUE(sizes);
  const DependencyGraph& graph = sizes->graph();
  std::vector<std::string> names;
  for (const Id id : graph.affectedBy({*graph.find("left_stile.width")})) {
    names.push_back(graph.node(id).name);
  }
  std::sort(names.begin(), names.end());
  EXPECT_EQ(names, (std::vector<std::string>{"bottom_rail.left", "bottom_rail.length",
                                             "left_stile.right", "left_stile.width", "panel.left",
                                             "panel.width", "top_rail.left", "top_rail.length"}));
}

TEST(SizeGraph, WorkingOutOnlyWhatFollowsGivesTheSameNumbers) {
  ModelFile file = fileFrom(doorText());
  const auto before = SizeGraph::build(file.model(), Basis::drawn);
  ASSERT_TRUE(before);
  std::vector<double> values = *before->values();
  ASSERT_TRUE(file.setDimension("stile_width", "61.5"));
  const auto after = SizeGraph::build(file.model(), Basis::drawn);
  ASSERT_TRUE(after);
  const auto affected = after->graph().affectedBy({*after->graph().find("stile_width")});
  EXPECT_LT(affected.size(), values.size());
  for (const Id id : affected) values[id] = *after->value(id, values);
  EXPECT_EQ(values, *after->values());
}

}  // namespace
}  // namespace dryfit::joinery
