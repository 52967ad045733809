#include <fmt/format.h>
#include <spdlog/logger.h>

#include <algorithm>
#include <ostream>
#include <string>
#include <vector>

#include "export/report/json_report.h"
#include "export/report/report_text.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"
#include "joinery/fit/absorb.h"
#include "joinery/formula/expression.h"

namespace dryfit::exporting {

namespace {

class AbsorbVerb final : public Verb {
 public:
  std::string_view name() const override { return "absorb"; }
  std::string_view summary() const override {
    return "Find one number to change so that parts already made fit again, and change it";
  }
  void declare(const VerbOptions& options) override {
    options.add("number", number_, "NAME",
                "The number to change, from the list shown without it: scribe_width, or "
                "top_left.tenon_length");
    options.flag("--dry-run", dryRun_, "Show the change but leave the model as it is");
  }

  Result<ExitCode> run(const Request& request) const override {
    auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    request.log.info("looking for one number that makes parts already made fit again");
    const auto all =
        joinery::absorptions(work->file.model(), work->basis, request.progress, work->unit);
    if (!all) return tl::unexpected(all.error().within(request.model.string()));
    if (number_.empty()) {
      report(request, *work, *all, nullptr);
      return ExitCode::fine;
    }
    const auto chosen = chosenOf(request, *all);
    if (!chosen) return tl::unexpected(chosen.error());
    if (const auto applied = apply(request, *work, **chosen); !applied) {
      return tl::unexpected(applied.error());
    }
    report(request, *work, *all, *chosen);
    return ExitCode::fine;
  }

 private:
  [[nodiscard]] Result<const joinery::Absorption*> chosenOf(const Request& request,
                                                            const joinery::Absorptions& all) const {
    std::vector<std::string> names;
    for (const joinery::Absorption& one : all.sound) {
      if (one.what.name == number_) return &one;
      names.push_back(one.what.name);
    }
    const std::string where = request.model.string() + ": " + number_;
    for (const joinery::Absorption& one : all.unsound) {
      if (one.what.name != number_) continue;
      return fail(ErrorCode::badUsage,
                  "changing this number would make an error: " + one.resultingFindings.front().text,
                  where, names.empty() ? "" : fmt::format("choose {}", fmt::join(names, " or ")));
    }
    if (names.empty()) {
      return fail(ErrorCode::badUsage, "no single number needs changing or would do", where,
                  "run check to see whether a part already made no longer fits");
    }
    return fail(ErrorCode::unknownName, "changing this number would not do", where,
                fmt::format("choose {}", fmt::join(names, " or ")));
  }

  [[nodiscard]] Result<void> apply(const Request& request, Work& work,
                                   const joinery::Absorption& one) const {
    const auto set =
        one.what.joint.empty()
            ? work.file.setDimension(one.what.name, one.afterText)
            : work.file.setJointParameter(one.what.joint, one.what.parameter, one.afterText);
    if (!set) return tl::unexpected(set.error().within(request.model.string()));
    if (dryRun_) return {};
    // The search took its time: only now is the file kept from others, and it must still be the
    // same.
    const auto lock = joinery::WriterLock::take(request.model);
    if (!lock) return tl::unexpected(lock.error());
    return saveChange(request, work);
  }

  void report(const Request& request, const Work& work, const joinery::Absorptions& all,
              const joinery::Absorption* chosen) const {
    const joinery::Model& model = work.file.model();
    if (request.json) {
      request.out << absorptionsJson(all, model, work.basis, chosen, !dryRun_);
      return;
    }
    request.out << headText("Changes that suit the parts already made", model.name, work.basis,
                            work.unit)
                << '\n'
                << absorptionsText(all, chosen, work.unit);
    if (chosen == nullptr) return;
    request.out << '\n'
                << (dryRun_ ? "Not changed (dry run)." : "Changed in " + request.model.string())
                << '\n';
  }

  std::string number_;
  bool dryRun_ = false;
};

}  // namespace

std::unique_ptr<Verb> makeAbsorbVerb() {
  return std::make_unique<AbsorbVerb>();
}

}  // namespace dryfit::exporting
