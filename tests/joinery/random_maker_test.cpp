// A maker without any plan: whatever is done to a piece, in whatever order, it stays what its file
// says, and the dry fit that follows it stays what a cold one finds.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <random>

#include "joinery/building/joint_proposals.h"
#include "joinery/building/mend.h"
#include "joinery/file/assembly_edits.h"
#include "joinery/file/part_edits.h"
#include "joinery/making/measure.h"
#include "tests/support/random_answers.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::Basis;
using joinery::DryFit;
using joinery::LiveFit;
using joinery::ModelFile;
using joinery::Part;
using joinery::PartId;

class Maker {
 public:
  Maker(ModelFile file, std::mt19937_64& random) : file_(std::move(file)), random_(random) {}

  /// Does something; what was done, for the trace. What is refused must change nothing.
  std::string act() {
    const std::string before = file_.text();
    std::string did;
    Result<void> done;
    switch (random_() % 10) {
      case 0:
        done = changeNumber(did);
        break;
      case 1:
        done = moveFace(did);
        break;
      case 2:
        done = rename(did);
        break;
      case 3:
        done = putBetween(did);
        break;
      case 4:
        done = join(did);
        break;
      case 5:
        done = takeOut(did);
        break;
      case 6:
        done = mend(did);
        break;
      case 7:
        done = makeOne(did);
        break;
      case 8:
        done = dissolveOne(did);
        break;
      default:
        done = label(did);
    }
    if (!done) {
      EXPECT_EQ(file_.text(), before) << did << ": " << done.error().line();
      did += " (refused)";
    }
    changes += file_.text() == before ? 0 : 1;
    return did;
  }

  int changes = 0;  ///< that were taken and are seen in the file

  /// The piece equals its own file read anew, and the dry fit that followed it a cold one.
  void expectSame(const std::string& trace) {
    const auto again = ModelFile::parse(file_.text(), "again");
    ASSERT_TRUE(again) << trace << again.error().line();
    EXPECT_EQ(again->text(), file_.text()) << trace;
    EXPECT_TRUE(again->saysTheSame(file_)) << trace;
    EXPECT_EQ(saidBefore_.saysTheSame(file_), saidBefore_.text() == file_.text()) << trace;
    saidBefore_ = file_;
    const auto live = live_.update(file_.model(), Basis::drawn);
    const auto cold = joinery::dryFit(again->model(), Basis::drawn);
    ASSERT_EQ(live.has_value(), cold.has_value()) << trace;
    if (!cold) {
      EXPECT_EQ(live.error().line(), cold.error().line()) << trace;
      return;
    }
    EXPECT_EQ((*live)->findings, cold->findings) << trace;
    EXPECT_EQ((*live)->piece.values, cold->piece.values) << trace;
    fit_ = *live;
  }

 private:
  template <class List>
  const auto& anyOf(const List& list) {
    return list[random_() % list.size()];
  }
  const Part& anyPart() { return anyOf(file_.model().parts); }
  PartId anyId() { return PartId(random_() % file_.model().parts.size()); }

  Result<void> changeNumber(std::string& did) {
    if (file_.model().dimensions.empty()) return {};
    const auto& dimension = anyOf(file_.model().dimensions);
    const double by = std::uniform_real_distribution<double>(0.9, 1.1)(random_);
    const auto now =
        fit_ ? fit_->piece.values.find(dimension.name) : decltype(fit_->piece.values.end()){};
    const double value = fit_ && now != fit_->piece.values.end() ? now->second : 50;
    const std::string text =
        fmt::format("{:.2f}", dimension.whole ? std::round(value) : value * by);
    did = dimension.name + " = " + text;
    ModelFile next = file_;
    if (auto done = next.setDimension(dimension.name, text); !done) return done;
    return takeIfItFits(std::move(next));
  }

  Result<void> moveFace(std::string& did) {
    static const std::vector<std::string> spans{"length", "width"};
    static const std::vector<std::string> ends{"from", "to", "size"};
    const std::string part = anyPart().name, span = anyOf(spans), end = anyOf(ends);
    const std::string old = joinery::spanText(file_, part, span, end);
    if (old.empty()) return {};
    const std::string text =
        fmt::format("{} + {:.1f}", old, std::uniform_real_distribution<double>(-3, 3)(random_));
    did = part + "." + span + "." + end + " = " + text;
    ModelFile next = file_;
    if (auto done = joinery::setPartSpan(next, part, span, end, text); !done) return done;
    return takeIfItFits(std::move(next));
  }

  Result<void> rename(std::string& did) {
    const std::string part = anyPart().name;
    const std::string name = joinery::freeName(file_, "piece_of_wood");
    did = part + " is now " + name;
    return joinery::renamePart(file_, part, name);
  }

  Result<void> putBetween(std::string& did) {
    const Part &near = anyPart(), &far = anyPart();
    joinery::NewPart part;
    part.name = joinery::freeName(file_, "rail");
    part.material = near.material;
    part.length = {"x", near.name + ".right", far.name + ".left", "", ""};
    part.width = {"z", "", near.name + ".top", "40", ""};
    part.thickness = {"y", near.name + ".front", "", "", ""};
    did = part.name + " between " + near.name + " and " + far.name;
    ModelFile next = file_;
    if (auto done = joinery::addPart(next, part); !done) return done;
    return takeIfItFits(std::move(next));
  }

  Result<void> join(std::string& did) {
    const PartId a = anyId(), b = anyId();
    if (a == b) return {};
    LiveFit trial;
    const auto proposals = joinery::proposeJoints(file_, a, b, trial);
    if (!proposals) return tl::unexpected(proposals.error());
    if (proposals->empty()) return {};
    did = proposals->front().joint.kind + " " + proposals->front().joint.name;
    return joinery::addJoint(file_, proposals->front().joint);
  }

  Result<void> takeOut(std::string& did) {
    if (!fit_ || file_.model().parts.size() < 4) return {};
    const std::string part = anyPart().name;
    did = part + " goes";
    const auto& values = fit_->piece.values;
    ModelFile next = file_;
    if (auto done = joinery::erasePart(next, part, {values.begin(), values.end()}); !done) {
      return done;
    }
    return takeIfItFits(std::move(next));
  }

  Result<void> mend(std::string& did) {
    if (!fit_) return {};
    const auto mends = joinery::mendsOf(*fit_);
    if (mends.empty()) return {};
    const joinery::Mend& one = anyOf(mends);
    did = one.change.words;
    return joinery::applyMend(file_, one);
  }

  Result<void> label(std::string& did) {
    const std::string part = anyPart().name;
    did = part + " has a label";
    return joinery::setPartText(file_, part, "label", fmt::format("wood {}", random_() % 100));
  }

  Result<void> makeOne(std::string& did) {
    constexpr std::size_t kMost = 3;  // each within the next, or the names grow without end
    if (!fit_ || joinery::useNames(file_).size() >= kMost) return {};
    const std::string name = joinery::freeName(file_, "unit");
    std::vector<std::string> parts{anyPart().name, anyPart().name};
    did = name + " made of " + parts[0] + " and " + parts[1];
    const auto& values = fit_->piece.values;
    ModelFile next = file_;
    auto done = joinery::makeAssembly(next, parts, name, {values.begin(), values.end()});
    return done ? takeIfItFits(std::move(next)) : done;
  }

  Result<void> dissolveOne(std::string& did) {
    const std::vector<std::string> uses = joinery::useNames(file_);
    if (uses.empty()) return {};
    const std::string use = anyOf(uses);
    did = use + " dissolved";
    ModelFile next = file_;
    if (auto done = joinery::dissolve(next, use); !done) return done;
    return takeIfItFits(std::move(next));
  }

  /// As the window does: what cannot be worked out is not taken.
  Result<void> takeIfItFits(ModelFile next) {
    const auto fit = live_.update(next.model(), Basis::drawn);
    if (!fit) return tl::unexpected(fit.error());
    file_ = std::move(next);
    return {};
  }

  ModelFile file_;
  ModelFile saidBefore_ = file_;
  std::mt19937_64& random_;
  LiveFit live_;
  std::shared_ptr<const DryFit> fit_;
};

TEST(RandomMaker, KeepsEveryPieceWhatItsFileSays) {
  const auto seeded = seed();
  std::mt19937_64 random(seeded);
  int actions = 0, changes = 0;
  for (const joinery::Starter& starter : builtInStarters()) {
    Maker maker(starterFile(starter), random);
    std::string trace = fmt::format("{} (seed {}): ", starter.name, seeded);
    maker.expectSame(trace);
    for (int i = 0; i < repetitions(30); ++i) {
      trace += maker.act() + "; ";
      maker.expectSame(trace);
      if (::testing::Test::HasFailure()) return;
    }
    actions += repetitions(30);
    changes += maker.changes;
  }
  EXPECT_GT(changes, actions / 4) << "most of what a maker tries must come to something";
}

}  // namespace
}  // namespace dryfit::test
