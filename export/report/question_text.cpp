#include "export/report/question_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "export/words/json_head.h"
#include "export/words/text_table.h"
#include "joinery/formula/length_text.h"
#include "joinery/piece/part_list.h"

namespace dryfit::exporting {
namespace {

using joinery::AskedQuestion;
using joinery::Severity;
using joinery::Unit;
using Kind = AskedQuestion::Kind;
using nlohmann::ordered_json;

std::string numberWords(const AskedQuestion& question, double value, Unit unit) {
  if (question.kind == Kind::length) return joinery::lengthText(Length::mm(value), unit);
  return fmt::format("{:.10g}", value);
}

/// A bound, rounded so that what is told is within it.
std::string leastWords(const AskedQuestion& question, Unit unit) {
  const double least = *question.least;
  return numberWords(
      question,
      question.kind == Kind::length ? joinery::toldAtLeast(Length::mm(least), unit).mm() : least,
      unit);
}
std::string greatestWords(const AskedQuestion& question, Unit unit) {
  const double most = *question.greatest;
  return numberWords(
      question,
      question.kind == Kind::length ? joinery::toldAtMost(Length::mm(most), unit).mm() : most,
      unit);
}

std::string unitWords(const AskedQuestion& question, Unit unit) {
  if (question.kind == Kind::length) return " " + std::string(joinery::nameOf(unit));
  return question.kind == Kind::angle ? "°" : "";
}

long countOf(const joinery::DryFit& fit, Severity severity) {
  return std::ranges::count(fit.findings, severity, &joinery::Finding::severity);
}

/// Width, depth and height over all, with what opens closed.
kernel::Box3 around(const joinery::Piece& piece) {
  kernel::Box3 box;
  bool first = true;
  for (const joinery::PlacedPart& part : piece.parts) {
    const kernel::Box3 own = part.overall();
    for (int i = 0; i < 8; ++i) {
      const kernel::Point3 corner = part.closed.place({(i & 1) != 0 ? own.max.x : own.min.x,
                                                       (i & 2) != 0 ? own.max.y : own.min.y,
                                                       (i & 4) != 0 ? own.max.z : own.min.z});
      if (first) box = {corner, corner};
      first = false;
      for (int axis = 0; axis < 3; ++axis) {
        box.min.set(axis, std::min(box.min[axis], corner[axis]));
        box.max.set(axis, std::max(box.max[axis], corner[axis]));
      }
    }
  }
  return box;
}

}  // namespace

std::string answerWords(const AskedQuestion& question, Unit unit) {
  if (question.kind == Kind::choice || !question.number) return question.value;
  return numberWords(question, *question.number, unit) + unitWords(question, unit);
}

std::string boundWords(const AskedQuestion& question, Unit unit) {
  if (question.kind == Kind::choice) return fmt::format("{}", fmt::join(question.options, ", "));
  const std::string behind = unitWords(question, unit);
  if (question.least && question.greatest) {
    return leastWords(question, unit) + " to " + greatestWords(question, unit) + behind;
  }
  if (question.least) return leastWords(question, unit) + behind + " or more";
  if (question.greatest) return greatestWords(question, unit) + behind + " or less";
  return {};
}

std::string questionTable(const std::vector<AskedQuestion>& questions, Unit unit) {
  TextTable table({{"Answer"}, {"Question"}, {"As it stands"}, {"Bounds"}});
  for (const AskedQuestion& question : questions) {
    std::string option = "--" + question.name;
    std::ranges::replace(option, '_', '-');
    table.add({option, question.ask, answerWords(question, unit), boundWords(question, unit)});
  }
  return table.text();
}

std::string questionLine(const AskedQuestion& question, Unit unit) {
  const std::string bounds = boundWords(question, unit);
  return fmt::format("{} [{}{}{}] ", question.ask, answerWords(question, unit),
                     bounds.empty() ? "" : "; ", bounds);
}

ordered_json starterJson(const joinery::Starter& starter, const joinery::Model& model,
                         const std::vector<AskedQuestion>& questions) {
  ordered_json list = ordered_json::array();
  for (const AskedQuestion& question : questions) {
    ordered_json own{{"name", question.name},
                     {"ask", question.ask},
                     {"kind", std::string(joinery::nameOf(question.kind))}};
    if (question.kind == Kind::choice) {
      own["value"] = question.value;
      own["options"] = question.options;
    } else {
      own["value"] = *question.number;
    }
    if (question.least) own["least"] = *question.least;
    if (question.greatest) own["greatest"] = *question.greatest;
    const std::string why = reasonWords(question, model.unit);
    if (!why.empty()) own["why"] = why;
    list.push_back(std::move(own));
  }
  return {{"name", starter.name},
          {"title", model.name},
          {"note", model.note},
          {"own", starter.own},
          {"questions", std::move(list)}};
}

std::string begunText(const joinery::DryFit& fit, Unit unit, const std::string& file) {
  const kernel::Box3 box = around(fit.piece);
  const auto size = [&](int axis) {
    return fmt::format("{} {}",
                       joinery::lengthText(Length::mm(box.max[axis] - box.min[axis]), unit),
                       joinery::nameOf(unit));
  };
  const long errors = countOf(fit, Severity::error), warnings = countOf(fit, Severity::warning);
  return fmt::format(
      "{}: {} wide, {} high, {} deep\n{} parts in {} rows, {} joints; {} errors, {} "
      "warnings\nWritten to {}\nNext: dryfit check {}\n",
      fit.piece.model.name, size(0), size(2), size(1), fit.piece.parts.size(),
      joinery::groupParts(fit.piece).size(), fit.piece.joints.size(), errors, warnings, file, file);
}

std::string begunJson(const joinery::Model& model, const joinery::DryFit& fit,
                      const std::string& starter, const std::string& file) {
  ordered_json json = headJson("new", model.name, fit.piece.basis);
  json["starter"] = starter;
  json["file"] = file;
  json["parts"] = fit.piece.parts.size();
  json["joints"] = fit.piece.joints.size();
  json["errors"] = countOf(fit, Severity::error);
  json["warnings"] = countOf(fit, Severity::warning);
  return dumped(json);
}

}  // namespace dryfit::exporting
