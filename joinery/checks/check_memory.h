#pragma once

#include <cstddef>
#include <cstdint>
#include <unordered_map>
#include <utility>

#include "kernel/recipe.h"
#include "kernel/solid.h"

namespace dryfit::joinery {

/// Answers to one question of geometry, by all that the question reads. Answers that the last few
/// states did not need are dropped.
template <class Question, class Answer, class Hash>
class Remembered {
 public:
  /// Null where the question was not asked before.
  [[nodiscard]] const Answer* find(const Question& question) {
    const auto found = answers_.find(question);
    if (found == answers_.end()) return nullptr;
    found->second.lastAsked = state_;
    return &found->second.answer;
  }
  const Answer& keep(Question question, Answer answer) {
    ++asked_;
    const auto [at, added] =
        answers_.insert_or_assign(std::move(question), Kept{std::move(answer), state_});
    return at->second.answer;
  }
  void beginState() {
    ++state_;
    asked_ = 0;
    std::erase_if(answers_, [&](const auto& entry) {
      return entry.second.lastAsked + kStatesKept <= state_;
    });
  }
  /// How many answers were new in this state.
  [[nodiscard]] int asked() const { return asked_; }

 private:
  static constexpr int kStatesKept = 8;
  struct Kept {
    Answer answer;
    int lastAsked = 0;
  };
  std::unordered_map<Question, Kept, Hash> answers_;
  int state_ = 0, asked_ = 0;
};

/// Two solids and where the second stands in the frame of the first. Holds both, so that a solid is
/// known by the geometry it shares with its copies.
struct TwoSolids {
  kernel::Solid a, b;
  kernel::Frame bInA;
  friend bool operator==(const TwoSolids& p, const TwoSolids& q) {
    return &p.a.impl() == &q.a.impl() && &p.b.impl() == &q.b.impl() && p.bInA == q.bInA;
  }
};
struct HashTwoSolids {
  [[nodiscard]] std::size_t operator()(const TwoSolids& pair) const;
};

/// A solid where it stands.
struct StandingSolid {
  kernel::Solid solid;
  kernel::Frame frame;
  friend bool operator==(const StandingSolid& p, const StandingSolid& q) {
    return &p.solid.impl() == &q.solid.impl() && p.frame == q.frame;
  }
};
struct HashStandingSolid {
  [[nodiscard]] std::size_t operator()(const StandingSolid& standing) const;
};

/// Two cuts of one part, as a recipe: the part's overall box less the first, less the second.
struct HashRecipe {
  [[nodiscard]] std::size_t operator()(const kernel::Recipe& recipe) const {
    return kernel::contentKey(recipe);
  }
};

/// What the checks remember from state to state: answers of the kernel alone, never findings, so
/// that words, names and rules are always those of the state being checked. Not for use by two
/// threads at once.
struct CheckMemory {
  Remembered<TwoSolids, kernel::Overlap, HashTwoSolids> overlaps;
  Remembered<StandingSolid, kernel::Box3, HashStandingSolid> bounds;
  Remembered<kernel::Recipe, kernel::Overlap, HashRecipe> sharedCuts;
  Remembered<kernel::Recipe, double, HashRecipe> walls;

  void beginState() {
    overlaps.beginState();
    bounds.beginState();
    sharedCuts.beginState();
    walls.beginState();
  }
};

}  // namespace dryfit::joinery
