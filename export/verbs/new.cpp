#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <istream>
#include <ostream>

#include "export/report/question_text.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"
#include "export/words/json_head.h"
#include "export/words/text_table.h"
#include "joinery/base/plain_text.h"
#include "joinery/file/questions.h"
#include "joinery/file/starters.h"
#include "joinery/formula/expression.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

namespace {

using joinery::Answers;
using joinery::AskedQuestion;
using joinery::ModelFile;
using joinery::Starter;
using nlohmann::ordered_json;

/// "--width 1600" and "--with-back=no" as answers; the rest of a command line.
Result<Answers> answersIn(const std::vector<std::string>& words) {
  Answers answers;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    if (!word.starts_with("--") || word.size() == 2) {
      return fail(ErrorCode::badUsage, fmt::format("{} stands alone", joinery::inQuotes(word)),
                  "command line of new", "write answers as --width 1600");
    }
    const std::size_t equals = word.find('=');
    std::string name = word.substr(2, equals == std::string::npos ? equals : equals - 2);
    std::ranges::replace(name, '-', '_');
    if (equals != std::string::npos) {
      answers.emplace_back(name, word.substr(equals + 1));
    } else if (i + 1 < words.size()) {
      answers.emplace_back(name, words[++i]);
    } else {
      return fail(ErrorCode::badUsage, fmt::format("{} has no answer", joinery::inQuotes(word)),
                  "command line of new", "write it behind, as in --width 1600");
    }
  }
  return answers;
}

class NewVerb final : public Verb {
 public:
  std::string_view name() const override { return "new"; }
  std::string_view summary() const override {
    return "Begin a piece from a few questions; without a name, list what can be begun";
  }
  bool takesModel() const override { return false; }
  void declare(const VerbOptions& options) override {
    options.add("starter", starter_, "STARTER", "What to begin: a name of the list");
    options.add("-o,--output", output_, "FILE", "Where to write the new model");
    options.add("--title", title_, "TEXT", "What to call the piece");
    options.flag("--ask", ask_, "Put the questions one by one");
    options.flag("--replace", replace_, "Write over a file that is there");
    options.takeRest(rest_);
    options.footnote(
        "Answers: --NAME VALUE for each question, as in --width 1600 or --wood \"white oak\";\n"
        "dryfit new STARTER lists the questions. Lengths without a unit are in --units.\n"
        "Your own starters: any model with questions in " +
        (joinery::starterFolders().size() > 1 ? joinery::starterFolders().front().string()
                                              : std::string("your data folder")));
  }

  Result<ExitCode> run(const Request& request) const override {
    const auto starters = joinery::startersIn(joinery::starterFolders());
    if (starter_.empty()) return list(request, starters);
    const auto file = open(starters);
    if (!file) return tl::unexpected(file.error());
    if (output_.empty() && !ask_ && rest_.empty()) return tellQuestions(request, *file);
    if (output_.empty()) {
      return fail(ErrorCode::badUsage, "where to write the piece is not said",
                  "command line of new", "add -o my-piece.dryfit");
    }
    std::error_code none;
    if (!replace_ && std::filesystem::exists(output_, none)) {
      return fail(ErrorCode::fileNotWritten, "there is a file of this name", output_,
                  "choose another name, or add --replace");
    }
    return begin(request, *file);
  }

 private:
  [[nodiscard]] Result<ModelFile> open(const std::vector<Starter>& starters) const {
    const auto found = std::ranges::find(starters, starter_, &Starter::name);
    if (found != starters.end()) return ModelFile::load(found->file);
    std::vector<std::string> names;
    names.reserve(starters.size());
    for (const Starter& starter : starters) names.push_back(starter.name);
    const std::string nearest = joinery::nearestName(starter_, names);
    return fail(ErrorCode::unknownName,
                fmt::format("there is no starter {}", joinery::inQuotes(starter_)),
                "command line of new",
                nearest.empty() ? "dryfit new lists them"
                                : fmt::format("did you mean {}?", joinery::inQuotes(nearest)));
  }

  static Result<ExitCode> list(const Request& request, const std::vector<Starter>& starters) {
    ordered_json all = ordered_json::array();
    std::vector<std::string> unreadable;
    TextTable table({{"Starter"}, {"What it is"}});
    for (const Starter& starter : starters) {
      const auto file = ModelFile::load(starter.file);
      if (!file) {
        if (!starter.own) return tl::unexpected(file.error());
        unreadable.push_back(file.error().line());  // it hides no others
        continue;
      }
      if (request.json) {
        const auto questions = joinery::questionsOf(*file);
        if (!questions) return tl::unexpected(questions.error().within(starter.file.string()));
        all.push_back(starterJson(starter, file->model(), *questions));
      } else {
        const joinery::Model& model = file->model();
        table.add({starter.name, model.note.empty() ? model.name : model.note});
      }
    }
    if (request.json) {
      request.out << dumped(ordered_json{{"report", "starters"},
                                         {"version", 1},
                                         {"starters", std::move(all)},
                                         {"unreadable", unreadable}});
    } else {
      request.out << table.text();
      for (const std::string& line : unreadable) request.out << "Left out: " << line << "\n";
      request.out << "\nBegin one:  dryfit new STARTER --ask -o my-piece.dryfit\n"
                     "Questions:  dryfit new STARTER\n";
    }
    return ExitCode::fine;
  }

  [[nodiscard]] Result<ExitCode> tellQuestions(const Request& request,
                                               const ModelFile& file) const {
    const auto questions = joinery::questionsOf(file);
    if (!questions) return tl::unexpected(questions.error());
    const joinery::Model& model = file.model();
    if (request.json) {
      request.out << dumped(ordered_json{
          {"report", "starters"},
          {"version", 1},
          {"starters",
           ordered_json::array({starterJson({starter_, {}, false}, model, *questions)})}});
      return ExitCode::fine;
    }
    request.out << model.name << (model.note.empty() ? "" : ": " + model.note) << "\n\n"
                << questionTable(*questions, request.unit.value_or(model.unit)) << "\n"
                << "Begin it:  dryfit new " << starter_ << " --ask -o my-piece.dryfit\n";
    return ExitCode::fine;
  }

  [[nodiscard]] Result<ExitCode> begin(const Request& request, const ModelFile& starter) const {
    const joinery::Unit unit = request.unit.value_or(starter.model().unit);
    const auto answers = answersIn(rest_);
    if (!answers) return tl::unexpected(answers.error());
    auto piece = joinery::answered(starter, *answers, unit);
    if (!piece) return tl::unexpected(piece.error().within("dryfit new " + starter_));
    if (ask_) {
      auto asked = askAll(request, std::move(*piece), *answers, unit);
      if (!asked) return tl::unexpected(asked.error());
      piece = std::move(*asked);
    }
    if (!title_.empty()) {
      if (auto set = piece->setTitle(title_); !set) return tl::unexpected(set.error());
    }
    Work work{std::move(*piece), unit};
    const auto fit = dryFitWork(request, work);
    if (!fit) return tl::unexpected(fit.error());
    if (auto saved = work.file.save(output_); !saved) return tl::unexpected(saved.error());
    if (request.json) {
      request.out << begunJson(work.file.model(), *fit, starter_, output_);
    } else {
      request.out << begunText(*fit, unit, output_);
    }
    return exitCodeOf(*fit);
  }

  /// Puts those questions that the command line did not answer.
  [[nodiscard]] static Result<ModelFile> askAll(const Request& request, ModelFile piece,
                                                const Answers& given, joinery::Unit unit) {
    const auto questions = joinery::questionsOf(piece);
    if (!questions) return tl::unexpected(questions.error());
    for (const AskedQuestion& first : *questions) {
      const auto answered = [&](const auto& answer) { return answer.first == first.name; };
      if (std::ranges::any_of(given, answered)) continue;
      while (true) {
        const auto now = joinery::questionsOf(piece);
        if (!now) return tl::unexpected(now.error());
        const auto question = std::ranges::find(*now, first.name, &AskedQuestion::name);
        request.out << questionLine(*question, unit) << std::flush;
        std::string answer;
        if (!std::getline(request.in, answer)) {
          return fail(ErrorCode::badUsage, "the answers ended before the questions", question->name,
                      "an empty line takes what stands in brackets");
        }
        if (joinery::trimmed(answer).empty()) break;
        auto next = joinery::answered(piece, {{question->name, answer}}, unit);
        if (next) {
          piece = std::move(*next);
          break;
        }
        request.out << "  " << next.error().line() << "\n";
      }
    }
    return piece;
  }

  std::string starter_, output_, title_;
  bool ask_ = false, replace_ = false;
  std::vector<std::string> rest_;
};

}  // namespace

std::unique_ptr<Verb> makeNewVerb() {
  return std::make_unique<NewVerb>();
}

}  // namespace dryfit::exporting
