#include "joinery/stock/stock.h"

#include "joinery/stock/outline.h"

namespace dryfit::joinery {

std::vector<FlatPoint> StockItem::shape() const {
  if (!outline.empty()) return outline;
  return {{0, 0}, {length, 0}, {length, farWidth}, {0, nearWidth}};
}

double StockItem::area() const {
  return areaOf(shape());
}

}  // namespace dryfit::joinery
