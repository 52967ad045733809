#include "joinery/base/dependency_graph.h"

#include <algorithm>
#include <functional>
#include <queue>

namespace dryfit::joinery {

DependencyGraph::Id DependencyGraph::add(std::string name, std::string place) {
  const Id id = nodes_.size();
  ids_.emplace(name, id);
  nodes_.push_back({std::move(name), std::move(place), {}, {}});
  return id;
}

void DependencyGraph::connect(Id reader, Id source) {
  std::vector<Id>& reads = nodes_[reader].reads;
  if (std::find(reads.begin(), reads.end(), source) != reads.end()) return;
  reads.push_back(source);
  nodes_[source].readBy.push_back(reader);
}

std::optional<DependencyGraph::Id> DependencyGraph::find(const std::string& name) const {
  const auto it = ids_.find(name);
  if (it == ids_.end()) return std::nullopt;
  return it->second;
}

std::vector<std::string> DependencyGraph::names() const {
  std::vector<std::string> names;
  names.reserve(nodes_.size());
  for (const Node& node : nodes_) names.push_back(node.name);
  return names;
}

Result<std::vector<DependencyGraph::Id>> DependencyGraph::order() const {
  std::vector<std::size_t> waiting(nodes_.size());  // how many of its sources are not yet in order
  std::queue<Id> ready;
  for (Id id = 0; id < nodes_.size(); ++id) {
    waiting[id] = nodes_[id].reads.size();
    if (waiting[id] == 0) ready.push(id);
  }
  std::vector<Id> order;
  order.reserve(nodes_.size());
  for (; !ready.empty(); ready.pop()) {
    order.push_back(ready.front());
    for (const Id reader : nodes_[ready.front()].readBy) {
      if (--waiting[reader] == 0) ready.push(reader);
    }
  }
  if (order.size() < nodes_.size()) return tl::unexpected(cycleAmong(waiting));
  return order;
}

/// Numbers that still wait lie on a loop or behind one: walking from source to source among them
/// must come back to a number already seen.
Error DependencyGraph::cycleAmong(const std::vector<std::size_t>& waiting) const {
  const auto waits = [&](Id id) { return waiting[id] > 0; };
  Id at = 0;
  while (!waits(at)) ++at;
  std::vector<Id> walk;
  std::vector<bool> seen(nodes_.size());
  while (!seen[at]) {
    seen[at] = true;
    walk.push_back(at);
    const std::vector<Id>& reads = nodes_[at].reads;
    at = *std::find_if(reads.begin(), reads.end(), waits);
  }
  std::vector<Id> loop(std::find(walk.begin(), walk.end(), at), walk.end());
  std::rotate(loop.begin(), std::min_element(loop.begin(), loop.end()), loop.end());
  std::string text;
  for (const Id id : loop) text += nodes_[id].name + " -> ";
  const Node& first = nodes_[loop.front()];
  return {ErrorCode::cycle, "these sizes depend on each other: " + text + first.name, first.place,
          "give one of them a value of its own"};
}

std::vector<DependencyGraph::Id> DependencyGraph::affectedBy(const std::vector<Id>& changed) const {
  std::vector<bool> affected(nodes_.size());
  std::vector<Id> open = changed;
  for (const Id id : changed) affected[id] = true;
  while (!open.empty()) {
    const Id id = open.back();
    open.pop_back();
    for (const Id reader : nodes_[id].readBy) {
      if (affected[reader]) continue;
      affected[reader] = true;
      open.push_back(reader);
    }
  }
  std::vector<Id> result;
  if (const Result<std::vector<Id>> all = order()) {
    std::copy_if(all->begin(), all->end(), std::back_inserter(result),
                 [&](Id id) { return affected[id]; });
  }
  return result;
}

}  // namespace dryfit::joinery
