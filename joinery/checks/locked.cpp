#include <fmt/format.h>

#include <cmath>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/making/fit_changes.h"
#include "joinery/making/marks.h"
#include "joinery/trade/rules.h"

namespace dryfit::joinery::checking {
namespace {

using What = MarkDifference::What;

/// Enough to choose from; the rest is for the list of all.
constexpr std::size_t kChangesNamed = 3;

std::string sizeName(const MarkDifference& d) {
  const std::string_view name = joinery::nameOf(d.axis);
  if (d.what == What::size) return std::string(name);
  return d.axis == PartAxis::length ? "shoulder length" : fmt::format("{} at the shoulder", name);
}

std::string featureName(const MarkDifference& d) {
  return fmt::format("the {} of joint {}", d.purpose, d.joint);
}

/// What is wrong, and what hands could do about it: empty where nothing.
struct Words {
  std::string text, work;
};

Words wordsOf(const std::string& part, MarkState state, const MarkDifference& d, Unit unit) {
  const std::string made = fmt::format("{} is {}", part, joinery::nameOf(state));
  const double off = std::fabs(d.asked - d.made);
  switch (d.what) {
    case What::size:
    case What::blank: {
      const std::string text =
          fmt::format("{}, its {} {}; the design now asks for {}, {} {}", made, sizeName(d),
                      typedWords(d.made, unit), typedWords(d.asked, unit), typedWords(off, unit),
                      d.workable ? "less" : "more: that wood is gone");
      if (!d.workable) return {text, ""};
      return {text, d.what == What::blank ? fmt::format("set the shoulder of {} back by {}", part,
                                                        typedWords(off, unit))
                                          : fmt::format("trim the {} of {} by {}", sizeName(d),
                                                        part, typedWords(off, unit))};
    }
    case What::feature: {
      if (d.moved != 0) {
        return {fmt::format("{}; {} should now be {} from where it was cut, along the part's {}",
                            made, featureName(d), typedWords(std::fabs(d.moved), unit),
                            joinery::nameOf(d.axis)),
                ""};
      }
      const std::string text =
          fmt::format("{}; {} is {} off what the design now asks for, along its {}", made,
                      featureName(d), typedWords(d.asked, unit), joinery::nameOf(d.axis));
      if (!d.workable) return {text, ""};
      return {text, fmt::format("work {} to size: {} to take off", featureName(d),
                                typedWords(d.asked, unit))};
    }
    case What::missing:
      return {fmt::format("{} without {}", made, featureName(d)),
              d.workable ? "cut " + featureName(d) : ""};
    case What::extra:
      return {fmt::format("{} with {}, which the design no longer has", made, featureName(d)), ""};
  }
  return {};
}

/// "make case_width 960 mm (10 mm more), or scribe 15 mm (5 mm less)": empty where nothing helps.
std::string changesText(const std::vector<NumberChange>& changes, Unit unit) {
  std::string text;
  for (std::size_t i = 0; i < changes.size() && i < kChangesNamed; ++i) {
    const NumberChange& c = changes[i];
    text += fmt::format("{}{} {} ({} {})", i == 0 ? "make " : ", or ", c.what.name,
                        typedWords(c.after, unit), typedWords(std::fabs(c.by()), unit),
                        c.by() > 0 ? "more" : "less");
  }
  return text;
}

}  // namespace

Result<void> locked(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const std::vector<MarkDifference> differences = differencesFromMarks(piece);
  if (differences.empty()) return {};
  const auto fitting = changesThatFit(piece, [&](int, int) { return !input.goOn || input.goOn(); });
  if (!fitting) return tl::unexpected(fitting.error());
  const std::string changes = changesText(*fitting, input.unit);
  for (const MarkDifference& d : differences) {
    const PlacedPart& part = piece.parts[d.part.index()];
    const Words words = wordsOf(piece.label(d.part),
                                markOf(piece.model, piece.part(d.part).name)->state, d, input.unit);
    Finding f;
    f.kind = FindingKind::locked;
    f.severity = severityOf(f.kind, d.workable ? Case::special : Case::usual);
    f.parts = {d.part};
    f.joint = d.jointId;
    setPlace(f, part.frame, d.box);
    const bool place = d.what == What::feature;
    f.measured = place ? d.asked : d.made;
    f.limit = place ? lengthBy(RuleId::markTolerance).mm() : d.asked;
    f.unit = "mm";
    f.source =
        "the part's mark, within " + typedWords(lengthBy(RuleId::markTolerance).mm(), input.unit);
    f.text = sentence(words.text);
    std::string mend = words.work;
    if (!changes.empty()) mend += (mend.empty() ? "" : ", or ") + changes;
    f.mend = sentence(mend.empty() ? "undo the change, or remake the part" : mend);
    findings.push_back(std::move(f));
  }
  return {};
}

}  // namespace dryfit::joinery::checking
