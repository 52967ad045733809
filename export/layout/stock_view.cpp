#include "export/layout/stock_view.h"

#include <algorithm>
#include <cmath>

#include "export/layout/stock_row.h"

namespace dryfit::exporting {
namespace {

constexpr double kRowsApart = 4;

/// Where a board is broken into rows: near equal lengths, at a cross cut through all of it where
/// there is one nearby.
std::vector<double> breaksOf(const RowContext& c, int rows) {
  std::vector<double> breaks{c.whole.x};
  const double each = c.whole.length / rows;
  for (int i = 1; i < rows; ++i) {
    const double wanted = c.whole.x + each * i;
    double best = wanted;
    double bestAway = each * 0.12;
    for (const CutStep& step : c.steps) {
      if (!step.across || step.piece.width < c.whole.width * 0.9) continue;
      const double at = step.at + c.job.kerfIn(c.one) / 2;
      if (std::fabs(at - wanted) >= bestAway) continue;
      bestAway = std::fabs(at - wanted);
      best = at;
    }
    breaks.push_back(best);
  }
  breaks.push_back(c.whole.farX());
  return breaks;
}

}  // namespace

StockView drawStock(const LayoutJob& job, const joinery::StockLayout& one,
                    const std::vector<CutStep>& steps, double scale, int rows) {
  const RowContext context{job, one, steps, boundsOfStock(job.itemOf(one)), scale};
  StockView view;
  const std::vector<double> breaks = breaksOf(context, rows);
  double top = 0;
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    Ink row = StockRow(context, breaks[i], breaks[i + 1]).draw(view);
    row.move(0, top - row.bounds().max.y);
    top = row.bounds().min.y - kRowsApart;
    view.ink.add(row);
  }
  const Box2 bounds = view.ink.bounds();
  view.ink.move(-bounds.min.x, -bounds.min.y);
  return view;
}

}  // namespace dryfit::exporting
