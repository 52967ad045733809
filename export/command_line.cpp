#include "export/command_line.h"

#include "joinery/base/unit.h"

#include <fmt/format.h>
#include <spdlog/logger.h>
#include <spdlog/sinks/ostream_sink.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <memory>

#include "export/verbs/options.h"
#include "export/verbs/progress_line.h"
#include "export/verbs/verb.h"
#include "export/words/failure_words.h"
#include "joinery/formula/expression.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

namespace {

/// The options that every verb shares, as typed.
struct SharedOptions {
  std::string model;
  std::string unit;
  std::string basis;
  bool json = false;
  bool verbose = false;
};

struct Command {
  CLI::App* app;
  std::unique_ptr<Verb> verb;
};

/// An error on one line, whatever is in it: names in a model may hold line breaks.
std::string oneLine(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; }, ' ');
  return text + "\n";
}

int badInput(const Error& error, std::ostream& err) {
  err << oneLine(error.line()) << std::flush;
  return static_cast<int>(ExitCode::badInput);
}

void declareShared(const VerbOptions& options, bool takesModel, SharedOptions& shared) {
  if (takesModel) {
    options.add("model", shared.model, "MODEL", "The model file, NAME.dryfit").required();
  }
  options
      .add("--units", shared.unit, "UNIT",
           "Unit of the report: mm, cm or in (default: the model's own)")
      .oneOf({"mm", "cm", "in"});
  options
      .add("--as", shared.basis, "BASIS",
           "Sizes to work with: drawn or measured (measured where any are recorded or a part is "
           "marked)")
      .oneOf({"drawn", "measured"});
  options.flag("--json", shared.json, "Report as JSON: lengths in mm, volumes in mm3");
  options.flag("--verbose", shared.verbose, "Say on standard error what is being done");
}

std::vector<Command> declareVerbs(CLI::App& app, SharedOptions& shared) {
  std::vector<Command> commands;
  for (auto& verb : allVerbs()) {
    CLI::App* command = app.add_subcommand(std::string(verb->name()), std::string(verb->summary()));
    command->footer("Exit code: 0 fine, 1 the dry fit found errors, 2 bad input or usage.");
    const VerbOptions options(*command);
    declareShared(options, verb->takesModel(), shared);
    verb->declare(options);
    commands.push_back({command, std::move(verb)});
  }
  return commands;
}

std::vector<std::string> verbNames(const std::vector<Command>& commands) {
  std::vector<std::string> names;
  names.reserve(commands.size());
  for (const Command& command : commands) names.emplace_back(command.verb->name());
  return names;
}

/// The verb that was asked for, or null.
const Command* chosen(const std::vector<Command>& commands) {
  const auto it = std::find_if(commands.begin(), commands.end(),
                               [](const Command& command) { return command.app->parsed(); });
  return it == commands.end() ? nullptr : &*it;
}

/// What is wrong with the verb itself. REQUIRES: no verb was recognised.
Error verbError(const std::vector<std::string>& args, const std::vector<Command>& commands) {
  const std::vector<std::string> names = verbNames(commands);
  const std::string all = fmt::format("{}", fmt::join(names, ", "));
  if (args.empty() || args.front().empty()) {
    return {ErrorCode::badUsage, "no verb is given", "command line",
            "write dryfit VERB MODEL, with one of " + all};
  }
  const std::string near = joinery::nearestName(args.front(), names);
  return {ErrorCode::badUsage, fmt::format("'{}' is not a verb", args.front()), "command line",
          near.empty() ? "write one of " + all : fmt::format("did you mean {}", near)};
}

Error usageError(const CLI::ParseError& error, const Command& command) {
  return {ErrorCode::badUsage, error.what(),
          fmt::format("command line of {}", command.verb->name()),
          fmt::format("see dryfit {} --help", command.verb->name())};
}

std::unique_ptr<spdlog::logger> makeLog(const SharedOptions& shared, std::ostream& err) {
  auto sink = std::make_shared<spdlog::sinks::ostream_sink_mt>(err, true);
  auto log = std::make_unique<spdlog::logger>("dryfit", std::move(sink));
  log->set_pattern("dryfit: %v");
  log->set_level(shared.verbose ? spdlog::level::info : spdlog::level::off);
  return log;
}

int runVerb(const Verb& verb, const SharedOptions& shared, std::ostream& out, std::ostream& err) {
  const auto log = makeLog(shared, err);
  const bool terminal = &err == &std::cerr && isatty(STDERR_FILENO) == 1 && !shared.verbose;
  ProgressLine progress(terminal ? &err : nullptr);
  const Request request{
      shared.model,
      joinery::unitNamed(shared.unit),
      shared.basis.empty()      ? std::nullopt
      : shared.basis == "drawn" ? std::optional(joinery::Basis::drawn)
                                : std::optional(joinery::Basis::measured),
      shared.json,
      std::cin,
      out,
      *log,
      [&progress](int done, int all) { return progress.show(done, all); },
  };
  const auto result = verb.run(request);
  progress.clear();
  if (!result) return badInput(result.error(), err);
  out.flush();
  if (!out) {
    return badInput({ErrorCode::fileNotWritten, "the report could not be written",
                     "standard output", "check where it goes"},
                    err);
  }
  return static_cast<int>(*result);
}

int parseAndRun(std::vector<std::string> args, std::ostream& out, std::ostream& err) {
  CLI::App app{"Dryfit proves that the joints of a piece fit before any wood is cut.", "dryfit"};
  app.set_version_flag("--version", "dryfit " DRYFIT_VERSION);
  app.require_subcommand(1);
  app.get_formatter()->label("SUBCOMMAND", "VERB");
  app.get_formatter()->label("Subcommands", "Verbs");
  app.get_formatter()->column_width(34);
  app.footer(
      "Exit code: 0 fine, 1 the dry fit found errors, 2 bad input or usage, or an internal "
      "failure.\n"
      "Options of a verb: dryfit VERB --help");
  SharedOptions shared;
  const std::vector<Command> commands = declareVerbs(app, shared);
  try {
    std::vector<std::string> reversed(args.rbegin(), args.rend());
    app.parse(reversed);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app.exit(error, out, err);  // help or version
    const Command* command = chosen(commands);
    return badInput(command ? usageError(error, *command) : verbError(args, commands), err);
  }
  return runVerb(*chosen(commands)->verb, shared, out, err);
}

}  // namespace

int run(const std::vector<std::string>& args, std::ostream& out, std::ostream& err) {
  // The libraries below may throw; this is the edge at which that stops.
  try {
    return parseAndRun(args, out, err);
  } catch (...) {
    return badInput({ErrorCode::libraryFailure, "internal failure: " + failureWords(), "dryfit",
                     "please report this with the model file"},
                    err);
  }
}

}  // namespace dryfit::exporting
