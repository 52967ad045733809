// What square work saves: one rail with a tenon and six cuts, by general Boolean operations, by
// counting cells with and without the geometry library's shape, and two such parts held against
// each other. Run: build/release/tests/benchmarks/square_work_benchmark

#include <benchmark/benchmark.h>

#include <BRepAlgoAPI_Cut.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS_Shape.hxx>
#include <vector>

#include "kernel/occt_bridge.h"
#include "kernel/recipe.h"
#include "kernel/square_work.h"

namespace dryfit::kernel {
namespace {

Tool block(Point3 low, Point3 high) {
  return Block{{low, high}, {}};
}

/// A leg of 45 × 45 × 720 mm with four mortises, a groove and a notch at the foot.
Recipe leg() {
  return {block({0, 0, 0}, {720, 45, 45}),
          {{Step::Kind::remove,
            {block({20, 17.5, 20}, {100, 27.5, 46}), block({20, 20, 17.5}, {100, 46, 27.5}),
             block({560, 17.5, 20}, {610, 27.5, 46}), block({560, 20, 17.5}, {610, 46, 27.5}),
             block({100, 19, 37}, {560, 26, 46}), block({690, -1, -1}, {721, 10, 46})}}}};
}

/// A part with `count` mortises in two rows and as many different depths as may be.
Recipe rack(int count) {
  Recipe recipe{block({0, 0, 0}, {40.0 * count + 20, 60, 30}), {{Step::Kind::remove, {}}}};
  for (int i = 0; i < count; ++i) {
    const double y = i % 2 == 0 ? 10 : 35;
    recipe.steps[0].tools.push_back(
        block({40.0 * i + 10, y, 5 + 0.01 * i}, {40.0 * i + 35, y + 15, 31}));
  }
  return recipe;
}

/// The least the geometry library can do: one cut with all tools, nothing merged, checked or
/// measured afterwards.
void oneLibraryCut(benchmark::State& state) {
  const Recipe recipe = leg();
  const TopoDS_Shape blank = shapeOf(makeTool(recipe.blank).value());
  std::vector<TopoDS_Shape> boxes;
  for (const Tool& tool : recipe.steps[0].tools) boxes.push_back(shapeOf(makeTool(tool).value()));
  for (auto run : state) {
    TopTools_ListOfShape arguments;
    arguments.Append(blank);
    TopTools_ListOfShape tools;
    for (const TopoDS_Shape& box : boxes) tools.Append(box);
    BRepAlgoAPI_Cut cut;
    cut.SetArguments(arguments);
    cut.SetTools(tools);
    cut.SetNonDestructive(true);
    cut.Build();
    benchmark::DoNotOptimize(cut.Shape().IsNull());
  }
}
BENCHMARK(oneLibraryCut)->Unit(benchmark::kMicrosecond);

/// The whole general way: cut, merge coplanar faces, check, measure.
void generalCut(benchmark::State& state) {
  const Recipe recipe = leg();
  for (auto run : state) benchmark::DoNotOptimize(buildGeneral(recipe));
}
BENCHMARK(generalCut)->Unit(benchmark::kMicrosecond);

void squareWorkAlone(benchmark::State& state) {
  const Recipe recipe = leg();
  for (auto run : state) benchmark::DoNotOptimize(build(recipe));
}
BENCHMARK(squareWorkAlone)->Unit(benchmark::kMicrosecond);

void squareWorkWithShape(benchmark::State& state) {
  const Recipe recipe = leg();
  for (auto run : state) {
    const auto solid = build(recipe);
    benchmark::DoNotOptimize(shapeOf(*solid).IsNull());
  }
}
BENCHMARK(squareWorkWithShape)->Unit(benchmark::kMicrosecond);

void squareWorkByCuts(benchmark::State& state) {
  const Recipe recipe = rack(int(state.range(0)));
  for (auto run : state) benchmark::DoNotOptimize(build(recipe));
  state.SetComplexityN(state.range(0));
}
BENCHMARK(squareWorkByCuts)->RangeMultiplier(2)->Range(1, 128)->Unit(benchmark::kMicrosecond);

/// Legs that share a corner's worth of wood.
Frame shifted() {
  Frame frame;
  frame.origin = {300, 30, 12};
  return frame;
}

void generalOverlap(benchmark::State& state) {
  const Solid a = solidFrom(shapeOf(build(leg()).value())).value();
  const Solid b = a.placed(shifted());
  for (auto run : state) benchmark::DoNotOptimize(overlap(a, b));
}
BENCHMARK(generalOverlap)->Unit(benchmark::kMicrosecond);

void squareOverlap(benchmark::State& state) {
  const Solid a = build(leg()).value();
  const Solid b = a.placed(shifted());
  for (auto run : state) benchmark::DoNotOptimize(overlap(a, b));
}
BENCHMARK(squareOverlap)->Unit(benchmark::kMicrosecond);

void generalDistance(benchmark::State& state) {
  const Solid a = solidFrom(shapeOf(build(leg()).value())).value();
  const Solid b = a.placed(Frame{{0, 100, 0}});
  for (auto run : state) benchmark::DoNotOptimize(distance(a, b));
}
BENCHMARK(generalDistance)->Unit(benchmark::kMicrosecond);

void squareDistance(benchmark::State& state) {
  const Solid a = build(leg()).value();
  const Solid b = a.placed(Frame{{0, 100, 0}});
  for (auto run : state) benchmark::DoNotOptimize(distance(a, b));
}
BENCHMARK(squareDistance)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace dryfit::kernel

BENCHMARK_MAIN();
