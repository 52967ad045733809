// Every mend that names a number does what it says: with it the finding is gone, and no other has
// come in its place. On random joints whose authors chose their numbers badly.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>
#include <set>
#include <tuple>

#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"
#include "tests/support/meetings.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::Finding;
using Json = nlohmann::ordered_json;

/// What a finding is about, however far it is out.
using About = std::tuple<std::string, std::vector<std::size_t>, std::size_t>;

About aboutOf(const Finding& f) {
  std::vector<std::size_t> parts;
  for (const joinery::PartId part : f.parts) parts.push_back(part.index());
  return {std::string(nameOf(f.kind)), parts, f.joint ? f.joint->index() + 1 : 0};
}

std::optional<joinery::DryFit> fitOf(const Json& document, joinery::Unit unit) {
  const auto file = joinery::ModelFile::parse(document.dump(), "the piece");
  if (!file) {
    ADD_FAILURE() << file.error().line();
    return std::nullopt;
  }
  auto fit = joinery::dryFit(file->model(), joinery::Basis::drawn, {}, unit);
  if (!fit) {
    ADD_FAILURE() << fit.error().line();
    return std::nullopt;
  }
  return std::move(*fit);
}

std::set<About> aboutAll(const std::vector<Finding>& findings) {
  std::set<About> all;
  for (const Finding& f : findings) all.insert(aboutOf(f));
  return all;
}

/// A size on a grid of half millimetres.
double size(std::mt19937_64& random, double lo, double hi) {
  return std::round(2 * std::uniform_real_distribution(lo, hi)(random)) / 2;
}

bool chance(std::mt19937_64& random) {
  return std::uniform_int_distribution(0, 1)(random) == 1;
}

/// Numbers as an author might choose them without looking at the rules.
void chooseNumbers(Json& joint, const MeetingSizes& s, std::mt19937_64& random) {
  const std::string kind = joint["kind"];
  const auto maybe = [&](const char* name, double lo, double hi) {
    if (chance(random)) joint[name] = size(random, lo, std::max(lo + 1, hi));
  };
  if (kind.ends_with("mortise-tenon")) {
    maybe("tenon_thickness", 3, s.stock * 0.7);
    maybe("tenon_width", 10, s.width * 0.8);
    if (kind != "through-mortise-tenon") maybe("tenon_length", 5, s.otherWidth);
  } else if (kind == "stub-tenon-groove") {
    maybe("tenon_thickness", 3, s.stock * 0.7);
    maybe("tenon_length", 4, s.otherWidth * 0.8);
  } else if (kind == "tongue-groove") {
    maybe("tongue_thickness", 3, s.stock * 0.7);
    maybe("tongue_length", 3, s.otherStock);
  } else if (kind == "dowels") {
    maybe("diameter", 5, s.stock * 0.6);
    maybe("depth", 6, s.otherStock);
    return;
  } else if (kind.ends_with("housing")) {
    maybe("depth", 2, s.otherStock * 0.9);
  } else {
    return;
  }
  if (chance(random)) {
    joint["fit"] = std::round(100 * std::uniform_real_distribution(0.0, 0.4)(random)) / 100;
  }
}

/// A leg that two aprons meet at right angles, each with a tenon of its own length.
Json twoAprons(std::mt19937_64& random) {
  const double leg = size(random, 32, 70), stock = size(random, 16, 30);
  const double width = size(random, 60, 110);
  ModelText text;
  text.part("leg", {"z", 0, 700}, {"x", 0, leg}, {"y", 0, leg})
      .part("front", {"x", "leg.right", 600}, {"z", 690 - width, width},
            {"y", (leg - stock) / 2, stock})
      .part("side", {"y", "leg.back", 500}, {"z", 690 - width, width},
            {"x", (leg - stock) / 2, stock});
  const auto joint = [&](const char* rail) {
    return Json{{"kind", "blind-mortise-tenon"},
                {"tenon", rail},
                {"mortise", "leg"},
                {"tenon_length", size(random, 12, leg)}};
  };
  text.joint("made", joint("front")).joint("other", joint("side"));
  return text.json();
}

Json oneJoint(std::mt19937_64& random) {
  const auto& ways = meetingWays();
  const MeetingWay& way =
      ways[std::uniform_int_distribution<std::size_t>(0, ways.size() - 1)(random)];
  const std::string& kind =
      way.kinds[std::uniform_int_distribution<std::size_t>(0, way.kinds.size() - 1)(random)];
  const double stock = size(random, 12, 45);
  const MeetingSizes sizes{stock, size(random, 30, 160), size(random, stock, 60),
                           size(random, 40, 120)};
  Json document = meeting(way, kind, sizes).json();
  chooseNumbers(document["joints"]["made"], sizes, random);
  return document;
}

Json mended(Json document, const std::string& joint, const joinery::MendingNumber& change) {
  Json& written = document["joints"][joint];
  if (change.value) {
    written[change.parameter] = *change.value;
  } else {
    written.erase(change.parameter);
  }
  return document;
}

TEST(Mends, OfRandomPiecesMendAndMakeNoOtherError) {
  std::mt19937_64 random(seed());
  int pieces = 0, findings = 0, applied = 0;
  std::map<std::string, int> kinds;
  for (int i = 0; i < repetitions(1000); ++i) {
    const Json document = i % 5 == 0 ? twoAprons(random) : oneJoint(random);
    const joinery::Unit unit = i % 3 == 0 ? joinery::Unit::inch : joinery::Unit::mm;
    const auto fit = fitOf(document, unit);
    if (!fit) return;
    ++pieces;
    const std::set<About> before = aboutAll(fit->findings);
    findings += static_cast<int>(fit->findings.size());
    for (const Finding& finding : fit->findings) {
      EXPECT_FALSE(finding.mend.empty()) << finding.text;
      for (const joinery::MendingNumber& change : finding.changes) {
        const std::string joint = fit->piece.joint(change.joint).name;
        const auto then = fitOf(mended(document, joint, change), unit);
        if (!then) return;
        ++applied;
        ++kinds[std::string(nameOf(finding.kind))];
        const std::set<About> after = aboutAll(then->findings);
        EXPECT_FALSE(after.contains(aboutOf(finding)))
            << "seed " << seed() << ", round " << i << ": " << finding.text << " " << finding.mend
            << "\n"
            << document["joints"].dump();
        for (const Finding& f : then->findings) {
          EXPECT_TRUE(before.contains(aboutOf(f)))
              << "seed " << seed() << ", round " << i << ": " << finding.text << " " << finding.mend
              << "\n  makes: " << f.text << "\n"
              << document["joints"].dump();
        }
      }
    }
  }
  std::printf("%d pieces, %d findings, %d mends applied:", pieces, findings, applied);
  for (const auto& [kind, count] : kinds) std::printf(" %s %d", kind.c_str(), count);
  std::printf("\n");
  EXPECT_GT(applied, pieces / 10);
}

}  // namespace
}  // namespace dryfit::test
