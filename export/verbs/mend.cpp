#include <fmt/format.h>

#include <ostream>
#include <string>
#include <vector>

#include "export/report/json_report.h"
#include "export/report/report_text.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"
#include "export/words/json_head.h"
#include "joinery/building/mend.h"
#include "joinery/fit/new_findings.h"

namespace dryfit::exporting {

namespace {

using joinery::Mend;
using nlohmann::ordered_json;

class MendVerb final : public Verb {
 public:
  std::string_view name() const override { return "mend"; }
  std::string_view summary() const override {
    return "List the numbers that would put a finding right, and change one of them";
  }
  void declare(const VerbOptions& options) override {
    options.add("mend", number_, "NUMBER", "The mend to make, from the list shown without it: 1");
    options.flag("--dry-run", dryRun_, "Show what it would do but leave the model as it is");
  }

  Result<ExitCode> run(const Request& request) const override {
    auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    const auto fit = dryFitWork(request, *work);
    if (!fit) return tl::unexpected(fit.error());
    const std::vector<Mend> mends = joinery::mendsOf(*fit);
    if (number_.empty()) {
      list(request, *work, *fit, mends);
      return ExitCode::fine;
    }
    const auto chosen = chosenOf(request, mends);
    if (!chosen) return tl::unexpected(chosen.error());
    return make(request, *work, *fit, **chosen);
  }

 private:
  [[nodiscard]] Result<const Mend*> chosenOf(const Request& request,
                                             const std::vector<Mend>& mends) const {
    for (std::size_t i = 0; i < mends.size(); ++i) {
      if (std::to_string(i + 1) == number_) return &mends[i];
    }
    return fail(ErrorCode::badUsage, fmt::format("there is no mend {}", number_),
                request.model.string(),
                mends.empty() ? "nothing here is put right by one number alone"
                              : fmt::format("choose from 1 to {}", mends.size()));
  }

  static ordered_json jsonOf(const Mend& mend) {
    ordered_json json{{"joint", mend.joint},
                      {"number", mend.change.parameter},
                      {"words", mend.change.words},
                      {"puts_right", mend.putsRight}};
    if (mend.change.value) json["value_mm"] = *mend.change.value;
    return json;
  }

  static void list(const Request& request, const Work& work, const joinery::DryFit& fit,
                   const std::vector<Mend>& mends) {
    if (request.json) {
      ordered_json json = headJson("mends", work.file.model().name, fit.piece.basis);
      json["mends"] = ordered_json::array();
      for (const Mend& mend : mends) json["mends"].push_back(jsonOf(mend));
      request.out << dumped(json);
      return;
    }
    request.out << headText("Mends", work.file.model().name, work.basis, work.unit) << '\n';
    for (std::size_t i = 0; i < mends.size(); ++i) {
      request.out << fmt::format("{}. {}\n", i + 1, mends[i].change.words);
      for (const std::string& text : mends[i].putsRight) {
        request.out << fmt::format("   puts right: {}\n", text);
      }
    }
    if (mends.empty()) request.out << "Nothing here is put right by one number alone.\n";
  }

  [[nodiscard]] Result<ExitCode> make(const Request& request, Work& work,
                                      const joinery::DryFit& before, const Mend& mend) const {
    if (auto done = joinery::applyMend(work.file, mend); !done) {
      return tl::unexpected(done.error().within(request.model.string()));
    }
    const auto after = dryFitWork(request, work);
    if (!after) return tl::unexpected(after.error());
    if (!dryRun_) {
      // Only now is the file kept from others, and it must still be the same.
      const auto lock = joinery::WriterLock::take(request.model);
      if (!lock) return tl::unexpected(lock.error());
      if (auto saved = saveChange(request, work); !saved) return tl::unexpected(saved.error());
    }
    const auto gone = joinery::newFindings(*after, before);
    const auto come = joinery::newFindings(before, *after);
    report(request, work, mend, gone, come);
    return exitCodeOf(*after);
  }

  void report(const Request& request, const Work& work, const Mend& mend,
              const std::vector<joinery::Finding>& gone,
              const std::vector<joinery::Finding>& come) const {
    std::vector<std::string> right, caused;
    for (const joinery::Finding& finding : gone) right.push_back(finding.text);
    for (const joinery::Finding& finding : come) caused.push_back(finding.text);
    if (request.json) {
      ordered_json json = headJson("mends", work.file.model().name, work.basis);
      json["made"] = jsonOf(mend);
      json["saved"] = !dryRun_;
      json["gone"] = right;
      json["new_findings"] = caused;
      request.out << dumped(json);
      return;
    }
    request.out << fmt::format("{}: {}\n", work.file.model().name, mend.change.words);
    for (const std::string& text : right) request.out << "  right now: " << text << "\n";
    for (const std::string& text : caused) request.out << "  new: " << text << "\n";
    request.out << (dryRun_ ? "Not changed (dry run)." : "Changed in " + request.model.string())
                << '\n';
  }

  std::string number_;
  bool dryRun_ = false;
};

}  // namespace

std::unique_ptr<Verb> makeMendVerb() {
  return std::make_unique<MendVerb>();
}

}  // namespace dryfit::exporting
