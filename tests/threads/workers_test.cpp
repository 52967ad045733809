// The window's threads: one fits the piece, one draws it, while numbers are dragged.

#include <gtest/gtest.h>

#include <QCoreApplication>
#include <QElapsedTimer>
#include <chrono>
#include <memory>
#include <string>
#include <thread>

#include "export/drawing/assembly_drawing.h"
#include "export/drawing/svg_writer.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/piece/part_list.h"
#include "tests/support/batch_model.h"
#include "viewer/document/draughtsman.h"
#include "viewer/document/rebuilder.h"
#include "viewer/view/part_shapes.h"

namespace dryfit::viewer {
namespace {

using joinery::Basis;
using joinery::Model;
using joinery::Unit;

/// Lets the window's thread take what it is told until `done` says so.
template <class Done>
[[nodiscard]] bool waitFor(const Done& done) {
  QElapsedTimer clock;
  clock.start();
  while (!done() && clock.elapsed() < 300'000) {
    QCoreApplication::processEvents();
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  }
  return done();
}

/// A bookcase whose first shelf stands `by` mm higher.
Model shelves(int by) {
  Model model = test::dowelledShelves(2);
  model.parts[2].thickness.from = joinery::Expression{std::to_string(100 + by), true};
  return model;
}

std::string svgOf(const joinery::DryFit& fit) {
  const auto groups = joinery::groupParts(fit.piece);
  exporting::DrawingOptions options;
  options.unit = Unit::mm;
  options.sheets = static_cast<int>(groups.size()) + 1;
  return exporting::svgText(exporting::sideBySide(
      exporting::drawAssembly(fit.piece, fit.solids, groups, options).value()));
}

TEST(Workers, TheLastOfManyRequestsIsTheOneThatIsTold) {
  Rebuilder rebuilder;
  std::shared_ptr<const Assembled> latest;
  QObject::connect(&rebuilder, &Rebuilder::built, [&](const auto& built) { latest = built; });
  constexpr int kStates = 12;
  for (int i = 0; i < kStates; ++i) {
    rebuilder.request(shelves(i), Basis::drawn, Unit::mm);
    if (i % 4 == 3) QCoreApplication::processEvents();
  }
  ASSERT_TRUE(waitFor([&] { return !rebuilder.isBusy(); }));
  ASSERT_TRUE(latest);
  const auto cold = joinery::dryFit(shelves(kStates - 1), Basis::drawn);
  ASSERT_TRUE(cold) << cold.error().line();
  EXPECT_TRUE(latest->fit->piece.parts == cold->piece.parts);
  EXPECT_TRUE(latest->fit->findings == cold->findings);
  EXPECT_EQ(latest->shapes->parts.size(), cold->solids.size());
}

TEST(Workers, APieceIsDrawnWhileItsNextStateIsFitted) {
  Rebuilder rebuilder;
  Draughtsman draughtsman;
  std::shared_ptr<const Assembled> latest;
  QByteArray picture;
  const auto drawLatest = [&](const std::shared_ptr<const Assembled>& built) {
    latest = built;
    picture.clear();
    draughtsman.draw(built->fit, Unit::mm, std::nullopt);
  };
  QObject::connect(&rebuilder, &Rebuilder::built, drawLatest);
  QObject::connect(&draughtsman, &Draughtsman::drawn,
                   [&](const QByteArray& svg) { picture = svg; });
  for (int i = 0; i < 4; ++i) {
    rebuilder.request(shelves(10 * i), Basis::drawn, Unit::mm);
    const auto before = latest;
    ASSERT_TRUE(waitFor([&] { return latest != before; }));
  }
  ASSERT_TRUE(waitFor([&] { return !rebuilder.isBusy() && !picture.isEmpty(); }));
  EXPECT_EQ(picture.toStdString(), svgOf(*latest->fit));
}

TEST(Workers, ClosingAWindowInTheMiddleOfItsWorkEndsTheWork) {
  const auto fit =
      std::make_shared<const joinery::DryFit>(joinery::dryFit(shelves(0), Basis::drawn).value());
  for (int i = 0; i < 5; ++i) {
    Rebuilder rebuilder;
    Draughtsman draughtsman;
    rebuilder.request(shelves(i), Basis::drawn, Unit::mm);
    draughtsman.draw(fit, Unit::mm, std::nullopt);
  }
  QCoreApplication::processEvents();  // what was still to be told is told to nobody
}

}  // namespace
}  // namespace dryfit::viewer
