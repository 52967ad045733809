#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "joinery/base/unit.h"
#include "joinery/formula/length_text.h"
#include "joinery/joints/evaluate.h"
#include "joinery/joints/joint_kind.h"
#include "joinery/joints/joint_kinds.h"
#include "joinery/making/marks.h"
#include "joinery/model/model.h"
#include "joinery/piece/place_parts.h"

namespace dryfit::joinery {

/// One state of a design under random work.
struct DesignState {
  Model model;
  Basis basis = Basis::drawn;
};

/// Does to a design what its maker may do, sensible or not.
class RandomWorker {
 public:
  RandomWorker(DesignState start, unsigned seed) : random_(seed), state_(std::move(start)) {
    past_.push_back(state_);
  }
  [[nodiscard]] const DesignState& state() const { return state_; }

  /// One edit; tells what it was.
  std::string edit() {
    const std::string done = change();
    past_.push_back(state_);
    return done;
  }
  /// Takes up an earlier state again.
  std::string returnTo(const DesignState& earlier) {
    state_ = earlier;
    past_.push_back(state_);
    return "back to a piece without an error";
  }

 private:
  std::size_t upTo(std::size_t count) {
    return std::uniform_int_distribution<std::size_t>(0, count - 1)(random_);
  }
  double between(double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random_);
  }
  template <class List>
  auto& oneOf(List& list) {
    return list[upTo(list.size())];
  }

  std::string change() {
    // Wedges are slow work, which every cold fit does anew: none stays for long.
    if (!state_.model.tapers.empty() && upTo(3) == 0) {
      state_.model.tapers.clear();
      return "no more taper";
    }
    switch (upTo(10)) {
      case 0:
      case 1:
        return changeDimension();
      case 2:
      case 3:
      case 4:
        return measure();
      case 5:
      case 6:
        return changeJoint();
      case 7:
        return upTo(2) == 0 ? switchBasis() : changeWords();
      case 8:
        return upTo(6) == 0 ? taper() : mark();
      default:
        state_ = oneOf(past_);
        return "undo";
    }
  }

  std::string changeDimension() {
    if (state_.model.dimensions.empty()) return measure();
    Dimension& d = oneOf(state_.model.dimensions);
    const std::string before = d.value.text;
    switch (upTo(8)) {
      case 0:
        d.value = {"no_such_size + 1", false};
        break;
      case 1:
        d.value = {d.name + " * 2", false};
        break;
      case 2:
        d.value = {"0", true};
        break;
      default:
        d.value = {fmt::format("({}) * {:.3f}", before, between(0.95, 1.06)), false};
        if (d.value.text.size() > 200) d.value = {"50", true};
    }
    return "dimension " + d.name + " = " + d.value.text;
  }

  std::string measure() {
    auto& all = state_.model.measurements;
    if (!all.empty() && upTo(4) == 0) {
      all.erase(all.begin() + static_cast<std::ptrdiff_t>(upTo(all.size())));
      return "forget a measured size";
    }
    state_.basis = Basis::measured;
    Measurement m;
    const auto piece = placeParts(state_.model, Basis::drawn);
    if (!piece) return switchBasis();
    double drawn = 0;
    if (upTo(5) == 0) {
      m.scope = Measurement::Scope::material;
      m.name = oneOf(state_.model.materials).name;
      drawn = piece->values.at(m.name + ".thickness");
    } else {
      const std::size_t i = upTo(state_.model.parts.size());
      const int axis = static_cast<int>(upTo(3));
      m.scope = Measurement::Scope::part;
      m.name = state_.model.parts[i].name;
      m.size = static_cast<SizeName>(axis);
      drawn = piece->parts[i].size[axis];
    }
    const double real = std::max(drawn + between(-3, 1.5), 1.0) / millimetresIn(state_.model.unit);
    m.value = {fmt::format("{:.2f}", real), true};
    std::erase_if(all, [&](const Measurement& old) {
      return old.scope == m.scope && old.name == m.name && old.size == m.size;
    });
    all.push_back(m);
    return "measure " + m.name + " " + m.value.text;
  }

  /// Parts are made at what they measure now; later edits then run against their marks.
  std::string mark() {
    auto& all = state_.model.marks;
    if (!all.empty() && upTo(5) == 0) {
      all.erase(all.begin() + static_cast<std::ptrdiff_t>(upTo(all.size())));
      return "take a mark back";
    }
    const auto piece = evaluate(state_.model, Basis::measured);
    if (!piece) return switchBasis();
    const PartId part(upTo(piece->parts.size()));
    const Mark made = markFor(*piece, part, static_cast<MarkState>(upTo(4)));
    std::erase_if(all, [&](const Mark& old) { return old.part == made.part; });
    all.push_back(made);
    state_.basis = Basis::measured;
    return fmt::format("mark {} {}", made.part, nameOf(made.state));
  }

  std::string taper() {
    state_.model.tapers.clear();
    const Part& part = oneOf(state_.model.parts);
    Taper taper;
    taper.name = "lean";
    taper.parts = {part.name};
    taper.size = upTo(2) == 0 ? SizeName::width : SizeName::thickness;
    taper.narrowEnd = faceOf(part.length.along, upTo(2) == 0);
    taper.by = {fmt::format("{:.2f}", between(0.2, 3) / millimetresIn(state_.model.unit)), true};
    taper.measured = upTo(2) == 0;
    state_.model.tapers.push_back(taper);
    return "taper " + part.name;
  }

  std::string changeJoint() {
    if (state_.model.joints.empty()) return measure();
    Joint& joint = oneOf(state_.model.joints);
    const auto parameters = jointKindNamed(joint.kind)->parameters();
    if (parameters.empty()) return switchBasis();
    const Parameter& parameter = parameters[upTo(parameters.size())];
    const std::string name(parameter.name);
    std::erase_if(joint.parameters, [&](const auto& given) { return given.first == name; });
    if (upTo(4) == 0) return joint.name + "." + name + " at its default";
    Expression value{fmt::format("{:.2f}", between(0.02, 14)), true};
    if (parameter.type == Parameter::Type::number) value.text = std::to_string(1 + upTo(4));
    if (parameter.type == Parameter::Type::word) {
      value = {std::string(parameter.words[upTo(parameter.words.size())]), false};
    }
    joint.parameters.emplace_back(name, value);
    return joint.name + "." + name + " = " + value.text;
  }

  std::string switchBasis() {
    state_.basis = state_.basis == Basis::drawn ? Basis::measured : Basis::drawn;
    return "other basis";
  }

  /// Findings speak of parts by their labels, and of joints by their places in the list.
  std::string changeWords() {
    if (upTo(2) == 0 && !state_.model.joints.empty()) {
      auto& joints = state_.model.joints;
      std::swap(oneOf(joints), joints.front());
      return "another order of joints";
    }
    Part& part = oneOf(state_.model.parts);
    part.label = fmt::format("board {}", upTo(100));
    return part.name + " called " + part.label;
  }

  std::mt19937_64 random_;
  DesignState state_;
  std::vector<DesignState> past_;
};

}  // namespace dryfit::joinery
