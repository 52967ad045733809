#include "export/packet/packet.h"

#include <string>

#include "export/verbs/interrupt.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"

namespace dryfit::exporting {

namespace {

class PacketVerb final : public Verb {
 public:
  std::string_view name() const override { return "packet"; }
  std::string_view summary() const override {
    return "Write everything for the bench to one folder: check, cut list, purchase list, "
           "drawings, STEP";
  }
  void declare(const VerbOptions& options) override {
    options
        .add("-o,--output", output_, "DIR",
             "Folder to write to; files of an older packet in it are replaced")
        .required();
  }

  Result<ExitCode> run(const Request& asked) const override {
    const InterruptWatch watch;  // so that no half-written folder stays behind
    Request request = asked;
    request.progress = untilInterrupted(asked.progress);
    const auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    const auto folder = OutputFolder::prepare(output_);
    if (!folder) return tl::unexpected(folder.error());
    const auto fit = dryFitWork(request, *work);
    if (!fit) return tl::unexpected(fit.error());
    const auto made = makePacket(*fit, work->unit, *folder, request.progress);
    if (!made) return tl::unexpected(made.error().within(request.model.string()));
    const auto files = folder->commit();
    if (!files) return tl::unexpected(files.error());
    reportFiles(request, *files);
    return exitCodeOf(*fit);
  }

 private:
  std::string output_;
};

}  // namespace

std::unique_ptr<Verb> makePacketVerb() {
  return std::make_unique<PacketVerb>();
}

}  // namespace dryfit::exporting
