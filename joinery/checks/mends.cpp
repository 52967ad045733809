#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <string>
#include <tuple>
#include <utility>

#include "joinery/checks/all.h"
#include "joinery/checks/trial.h"
#include "joinery/checks/words.h"

namespace dryfit::joinery::checking {
namespace {

using Found = std::vector<Finding>;

bool isAlike(const Finding& a, const Finding& b) {
  return a.kind == b.kind && a.parts == b.parts && a.joint == b.joint;
}

/// True where all that is in `after` was there before, and the finding to be mended is not.
bool isBetter(const Finding& mended, const Found& before, const Found& after) {
  return std::ranges::all_of(after, [&](const Finding& f) {
    const bool known = std::ranges::any_of(before, [&](const Finding& g) { return isAlike(f, g); });
    return known && !isAlike(f, mended);
  });
}

JointRecord changed(JointRecord record, const MendingNumber& change) {
  auto& numbers = record.context.numbers;
  std::erase_if(numbers, [&](const JointValue& v) { return v.name == change.parameter; });
  if (change.value) numbers.push_back({change.parameter, *change.value, true, true, {}});
  return record;
}

/// Holds the changes that findings propose against what they would bring about.
class Proof {
 public:
  explicit Proof(const CheckInput& input) : piece_(input.piece), trials_(input) {}

  Result<void> prove(Finding& finding) {
    const std::string tail = tailOf(finding);
    std::vector<MendingNumber> good;
    for (const MendingNumber& change : finding.changes) {
      const auto mends = serves(finding, change);
      if (!mends) return tl::unexpected(mends.error());
      if (*mends) good.push_back(change);
    }
    if (good.size() == finding.changes.size()) return {};
    if (good.empty()) return otherwise(finding, tail);
    finding.changes = std::move(good);
    finding.mend = sentence(wordsOf(finding.changes) + tail);
    return {};
  }

 private:
  static std::string wordsOf(const std::vector<MendingNumber>& changes) {
    std::string words;
    for (const MendingNumber& change : changes)
      words += (words.empty() ? "" : ", or ") + change.words;
    return words;
  }
  /// What the mend says after its changes.
  static std::string tailOf(const Finding& finding) {
    const std::string begin = wordsOf(finding.changes);
    std::string tail = finding.mend.substr(std::min(begin.size(), finding.mend.size()));
    if (tail == ".") tail.clear();
    return tail;
  }

  Result<bool> serves(const Finding& finding, const MendingNumber& change) {
    const auto record = jointRecord(piece_, change.joint);
    if (!record) return false;
    const auto before = trials_.inPiece(*record);
    if (!before) return tl::unexpected(before.error());
    const auto after = trials_.inPiece(changed(*record, change));
    if (!after) return tl::unexpected(after.error());
    return *before && *after && isBetter(finding, **before, **after);
  }

  /// No change of a number serves: what does, of the rules, of the words behind, of other kinds.
  Result<void> otherwise(Finding& finding, const std::string& tail) {
    const MendingNumber first = finding.changes.front();
    const std::string joint = nameOf(piece_, first.joint);
    finding.changes.clear();
    std::string named = first.parameter;
    std::ranges::replace(named, '_', ' ');
    const MendingNumber byRule{first.joint, first.parameter, std::nullopt,
                               fmt::format("leave the {} of {} to the rules", named, joint)};
    const auto left = serves(finding, byRule);
    if (!left) return tl::unexpected(left.error());
    if (*left) {
      finding.changes = {byRule};
      finding.mend = sentence(byRule.words + tail);
      return {};
    }
    const auto record = jointRecord(piece_, first.joint);
    if (!record) return {};
    const auto before = trials_.inPiece(*record);
    if (!before) return tl::unexpected(before.error());
    auto bare = *record;
    bare.context.numbers.clear();
    const auto all = trials_.inPiece(bare);
    if (!all) return tl::unexpected(all.error());
    if (*before && *all && isBetter(finding, **before, **all)) {
      finding.mend = sentence(fmt::format("leave all numbers of {} to the rules{}", joint, tail));
      return {};
    }
    const auto instead = trials_.kindFor(*record);
    if (!instead) return tl::unexpected(instead.error());
    std::string words =
        tail.empty() ? std::string() : tail.substr(std::min<std::size_t>(tail.size(), 5));
    if (instead->kind != nullptr) {
      words = fmt::format("make {} {}{}", joint, nameOf(*instead),
                          words.empty() ? "" : ", or " + words);
    } else if (words.empty()) {
      words = fmt::format("use stock of another size at {}", joint);
    }
    finding.mend = sentence(std::move(words));
    return {};
  }

  const Piece& piece_;
  Trials trials_;
};

}  // namespace

Result<void> mends(const CheckInput& input, std::vector<Finding>& findings) {
  const auto proposes = [](const Finding& f) { return !f.changes.empty(); };
  if (std::ranges::none_of(findings, proposes)) return {};
  Proof proof(input);
  for (Finding& finding : findings) {
    if (!proposes(finding)) continue;
    if (auto stop = input.stopIfAsked(); !stop) return stop;
    if (auto done = proof.prove(finding); !done) return done;
  }
  return {};
}

}  // namespace dryfit::joinery::checking
