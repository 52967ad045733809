#include "export/drawing/stop_banner.h"

#include <fmt/format.h>

#include <algorithm>

#include "export/drawing/draughting.h"
#include "export/drawing/text_measure.h"

namespace dryfit::exporting {
namespace {

constexpr std::size_t kErrorsTold = 3;
constexpr double kInside = 3;       ///< from the band's frame
constexpr double kHeading = 5;      ///< height of its capitals
constexpr double kLinePitch = 4.2;  ///< of the sentences

template <class Wanted>
std::vector<std::string> errorsWhere(const std::vector<joinery::Finding>& findings,
                                     const Wanted& wanted) {
  std::vector<std::string> errors;
  for (const joinery::Finding& f : findings) {
    if (f.severity == joinery::Severity::error && wanted(f)) errors.push_back(f.text);
  }
  return errors;
}

std::vector<std::string> linesOf(const std::vector<std::string>& errors, double width) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < errors.size() && i < kErrorsTold; ++i) {
    for (std::string& line : wrapText(errors[i], width, kSmallTextHeight)) {
      lines.push_back(std::move(line));
    }
  }
  if (errors.size() > kErrorsTold) {
    lines.push_back(fmt::format("And {} more: see the findings.", errors.size() - kErrorsTold));
  }
  return lines;
}

}  // namespace

std::vector<std::string> errorsOf(const std::vector<joinery::Finding>& findings,
                                  const std::vector<joinery::PartId>& parts) {
  return errorsWhere(findings, [&](const joinery::Finding& f) {
    return std::ranges::find_first_of(f.parts, parts) != f.parts.end();
  });
}

std::vector<std::string> errorsOf(const std::vector<joinery::Finding>& findings) {
  return errorsWhere(findings, [](const joinery::Finding&) { return true; });
}

double bannerWidth(const Sheet& sheet) {
  constexpr double kFromFrame = 4;
  return sheet.drawingSpace().width() - 2 * kFromFrame;
}

Ink stopBanner(const std::vector<std::string>& errors, double width) {
  Ink ink;
  if (errors.empty()) return ink;
  double y = -kInside - kHeading;
  ink.add(Text{{width / 2, y},
               "DO NOT CUT FROM THIS SHEET",
               kHeading,
               TextAnchor::middle,
               0,
               TextStyle::bold,
               Layer::text});
  for (const std::string& line : linesOf(errors, width - 2 * kInside)) {
    y -= kLinePitch;
    ink.add(Text{{width / 2, y},
                 line,
                 kSmallTextHeight,
                 TextAnchor::middle,
                 0,
                 TextStyle::regular,
                 Layer::text});
  }
  const double foot = y - kInside;
  ink.add(
      Stroke{{{0, 0}, {width, 0}, {width, foot}, {0, foot}}, true, LineClass::frame, Layer::text});
  return ink;
}

}  // namespace dryfit::exporting
