#include "joinery/making/readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>
#include <string>
#include <vector>

#include "export/report/json_report.h"
#include "export/report/report_text.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"
#include "joinery/formula/expression.h"
#include "joinery/formula/length_text.h"
#include "joinery/making/frame_advice.h"

namespace dryfit::exporting {

namespace {

constexpr std::array<std::string_view, 4> kCorners{"top_left", "top_right", "bottom_right",
                                                   "bottom_left"};

std::vector<std::string> splitAtCommas(const std::string& text) {
  std::vector<std::string> parts;
  std::size_t from = 0;
  for (std::size_t at = text.find(','); at != std::string::npos; at = text.find(',', from)) {
    parts.push_back(text.substr(from, at - from));
    from = at + 1;
  }
  parts.push_back(text.substr(from));
  return parts;
}

class ReadingsVerb final : public Verb {
 public:
  std::string_view name() const override { return "readings"; }
  std::string_view summary() const override {
    return "Take the sizes read off a dry-fitted frame, and say what to correct";
  }
  void declare(const VerbOptions& options) override {
    options
        .add("--frame", frame_, "GROUP|PARTS",
             "The frame: a group of the model, or its parts, a,b,c")
        .required();
    options
        .add("--diagonals", diagonals_, "FIRST,SECOND",
             "From top left to bottom right, and from top right to bottom left")
        .required();
    options.add("--widths", widths_, "TOP,BOTTOM", "Overall, at the top and at the bottom")
        .required();
    options.add("--heights", heights_, "LEFT,RIGHT", "Overall, at the left and at the right")
        .required();
    options.addRepeated(
        "--corner", corners_, "CORNER=DEGREES",
        "The inside angle of a corner in degrees, top_left=90.3; repeat for each corner read");
  }

  Result<ExitCode> run(const Request& request) const override {
    const auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    const auto readings = readAll(work->file.model().unit);
    if (!readings) return tl::unexpected(readings.error());
    const auto parts = partsOf(work->file.model());
    if (!parts) return tl::unexpected(parts.error().within(request.model.string()));
    const auto piece = evaluateWork(request, *work);
    if (!piece) return tl::unexpected(piece.error());
    const auto look = joinery::frameOf(*piece, *parts);
    if (!look) return tl::unexpected(look.error().within("command line: --frame"));
    const auto shape = joinery::frameFrom(*readings);
    if (!shape) return tl::unexpected(shape.error().within("command line"));
    const auto advice = joinery::adviceFor(*piece, *look, *shape, work->unit);
    if (request.json) {
      request.out << readingsJson(*piece, frame_, *shape, advice);
      return ExitCode::fine;
    }
    request.out << headText("Dry-fit readings", piece->model.name, piece->basis, work->unit) << '\n'
                << readingsText(frame_, *look, *shape, advice, work->unit);
    return ExitCode::fine;
  }

 private:
  [[nodiscard]] static Result<std::array<double, 2>> pair(const std::string& text,
                                                          const std::string& option,
                                                          joinery::Unit unit) {
    const std::string where = fmt::format("command line: {} {}", option, text);
    const std::vector<std::string> two = splitAtCommas(text);
    if (two.size() != 2) {
      return fail(ErrorCode::badUsage, "two lengths are needed", where,
                  "write them as 1020.5,1018");
    }
    std::array<double, 2> lengths{};
    for (std::size_t i = 0; i < 2; ++i) {
      const auto length = joinery::parseLength(two[i], unit);
      if (!length) return tl::unexpected(length.error().within(where));
      lengths[i] = length->mm();
    }
    return lengths;
  }

  [[nodiscard]] Result<joinery::FrameReadings> readAll(joinery::Unit unit) const {
    const auto diagonals = pair(diagonals_, "--diagonals", unit);
    if (!diagonals) return tl::unexpected(diagonals.error());
    const auto widths = pair(widths_, "--widths", unit);
    if (!widths) return tl::unexpected(widths.error());
    const auto heights = pair(heights_, "--heights", unit);
    if (!heights) return tl::unexpected(heights.error());
    joinery::FrameReadings readings{(*diagonals)[0],
                                    (*diagonals)[1],
                                    (*widths)[0],
                                    (*widths)[1],
                                    (*heights)[0],
                                    (*heights)[1],
                                    {}};
    for (const std::string& text : corners_) {
      if (const auto read = corner(text, readings); !read) return tl::unexpected(read.error());
    }
    return readings;
  }

  [[nodiscard]] static Result<void> corner(const std::string& text,
                                           joinery::FrameReadings& readings) {
    const std::string where = fmt::format("command line: --corner {}", text);
    const auto equals = text.find('=');
    const auto found = std::ranges::find(kCorners, std::string_view(text).substr(0, equals));
    if (equals == std::string::npos || found == kCorners.end()) {
      return fail(ErrorCode::badUsage, "is not the angle of a corner", where,
                  "write CORNER=DEGREES, with top_left, top_right, bottom_right or bottom_left");
    }
    const auto noNames = [](const std::string&) { return std::optional<double>(); };
    const auto degrees =
        joinery::evaluateNumber({text.substr(equals + 1), false}, joinery::Unit::mm, noNames);
    if (!degrees) return tl::unexpected(degrees.error().within(where));
    readings.corners[static_cast<std::size_t>(found - kCorners.begin())] = *degrees;
    return {};
  }

  [[nodiscard]] Result<std::vector<joinery::PartId>> partsOf(const joinery::Model& model) const {
    std::vector<joinery::PartId> ids;
    for (std::size_t i = 0; i < model.parts.size(); ++i) {
      if (model.parts[i].group == frame_) ids.emplace_back(i);
    }
    if (!ids.empty()) return ids;
    std::vector<std::string> known;
    for (const joinery::Group& group : model.groups) known.push_back(group.name);
    for (const joinery::Part& part : model.parts) known.push_back(part.name);
    for (const std::string& name : splitAtCommas(frame_)) {
      const auto part = std::ranges::find(model.parts, name, &joinery::Part::name);
      if (part == model.parts.end()) {
        const std::string near = joinery::nearestName(name, known);
        return fail(ErrorCode::unknownName,
                    fmt::format("there is no group of parts and no part '{}'", name), "--frame",
                    near.empty() ? "name a group, or parts with commas between"
                                 : fmt::format("did you mean {}", near));
      }
      ids.emplace_back(static_cast<std::size_t>(part - model.parts.begin()));
    }
    return ids;
  }

  std::string frame_, diagonals_, widths_, heights_;
  std::vector<std::string> corners_;
};

}  // namespace

std::unique_ptr<Verb> makeReadingsVerb() {
  return std::make_unique<ReadingsVerb>();
}

}  // namespace dryfit::exporting
