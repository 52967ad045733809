#include <algorithm>
#include <utility>

#include "export/drawing/draughting.h"
#include "export/drawing/text_measure.h"
#include "export/layout/stock_row.h"

namespace dryfit::exporting {

namespace {

constexpr double kCalloutPitch = 1.6;  ///< between two callouts
constexpr double kCalloutLift = 3;     ///< from what is there to the callouts

}  // namespace

void StockRow::drawCallouts() {
  std::vector<Callout> up;
  std::vector<Callout> down;
  for (const Callout& callout : callouts_) {
    (callout.anchor.y >= view_.centre().y ? up : down).push_back(callout);
  }
  drawCalloutRow(std::move(up), true);
  drawCalloutRow(std::move(down), false);
}

/// Side by side in the order of their anchors, each as near to its own as the others let it.
void StockRow::drawCalloutRow(std::vector<Callout> callouts, bool above) {
  if (callouts.empty()) return;
  std::ranges::stable_sort(callouts, {}, [](const Callout& c) { return c.anchor.x; });
  const auto width = [](const Callout& c) {
    return textWidth(c.text, kSmallTextHeight, TextStyle::bold);
  };
  double all = 0;
  for (const Callout& callout : callouts) all += width(callout) + kCalloutPitch;
  if (all > std::max(view_.width(), 30.0) && callouts.size() > 1) {
    // Every other one in a second row.
    std::vector<Callout> rows[2];
    for (std::size_t i = 0; i < callouts.size(); ++i) rows[i % 2].push_back(callouts[i]);
    drawCalloutRow(std::move(rows[0]), above);
    drawCalloutRow(std::move(rows[1]), above);
    return;
  }
  std::vector<double> left;
  double free = view_.min.x;
  for (const Callout& callout : callouts) {
    left.push_back(std::max(free, callout.anchor.x - width(callout) / 2));
    free = left.back() + width(callout) + kCalloutPitch;
  }
  double limit = std::max(view_.max.x, view_.min.x + 30);
  for (std::size_t i = callouts.size(); i-- > 0;) {
    left[i] = std::min(left[i], limit - width(callouts[i]));
    limit = left[i] - kCalloutPitch;
  }
  const double away = (above ? above_ : below_) + kCalloutLift;
  const double base = above ? view_.max.y + away : view_.min.y - away - kSmallTextHeight;
  for (std::size_t i = 0; i < callouts.size(); ++i) {
    ink_.add(Text{{left[i], base},
                  callouts[i].text,
                  kSmallTextHeight,
                  TextAnchor::left,
                  0,
                  TextStyle::bold,
                  Layer::text});
    const double from = above ? base - 1 : base + kSmallTextHeight + 0.5;
    addLine(ink_, {left[i] + width(callouts[i]) / 2, from}, callouts[i].anchor);
    addDot(ink_, callouts[i].anchor);
  }
  (above ? above_ : below_) = away + kSmallTextHeight + 1;
}

}  // namespace dryfit::exporting
