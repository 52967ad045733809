// What is taken over from an earlier piece, and what must not be.

#include <gtest/gtest.h>

#include <AIS_ListOfInteractive.hxx>
#include <QSignalSpy>
#include <QTest>
#include <QThread>
#include <algorithm>
#include <string>

#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"
#include "tests/viewer/frame_model.h"
#include "viewer/document/bench_document.h"
#include "viewer/look/look.h"
#include "viewer/view/part_shapes.h"
#include "viewer/view/scene.h"

namespace dryfit::viewer {
namespace {

constexpr int kPatience = 20'000;  // ms; slow machines and sanitizers

TEST(ShownPiece, TakesUpAnotherWoodThoughTheShapesStayAsTheyWere) {
  const auto file = joinery::ModelFile::parse(test::kFrameModel, "door").value();
  const auto oak = std::make_shared<const joinery::DryFit>(
      joinery::dryFit(file.model(), joinery::Basis::drawn).value());
  auto walnut = std::make_shared<joinery::DryFit>(*oak);
  for (joinery::Material& material : walnut->piece.model.materials) {
    if (material.kind == joinery::MaterialKind::solid) material.species = "black walnut";
  }
  const auto before = makePartShapes(*oak, nullptr, nullptr);
  const auto after = makePartShapes(*walnut, oak.get(), before.get());
  ASSERT_TRUE(after->parts[0].shape.IsSame(before->parts[0].shape));

  Scene scene;
  const auto partsOfColour = [&](const joinery::DryFit& fit) {
    const QColor wood = woodColour(fit.piece.model.materials[0], 0);
    AIS_ListOfInteractive objects;
    scene.context()->DisplayedObjects(objects);
    return std::count_if(objects.begin(), objects.end(), [&](const auto& object) {
      Quantity_Color is;
      object->Color(is);
      return is.IsEqual({wood.redF(), wood.greenF(), wood.blueF(), Quantity_TOC_sRGB});
    });
  };
  scene.show(std::make_shared<const Assembled>(Assembled{oak, before}));
  EXPECT_EQ(partsOfColour(*oak), 4);
  scene.show(std::make_shared<const Assembled>(Assembled{walnut, after}));
  EXPECT_EQ(partsOfColour(*oak), 0);
  EXPECT_EQ(partsOfColour(*walnut), 4);
  scene.clear();
}

TEST(ShownPiece, IsNeverTheOneThatWasOpenBefore) {
  std::string text = test::kFrameModel;
  BenchDocument document;
  document.start(joinery::ModelFile::parse(text, "first").value());
  QThread::msleep(1000);  // the answer is ready, and waits to be taken
  text.replace(text.find("Cabinet door"), 12, "Another door");
  document.start(joinery::ModelFile::parse(text, "second").value());
  QObject::connect(&document, &BenchDocument::assembledChanged, [&] {
    EXPECT_EQ(document.assembled()->fit->piece.model.name, document.model().name);
  });
  QSignalSpy shown(&document, &BenchDocument::assembledChanged);
  ASSERT_TRUE(QTest::qWaitFor([&] { return !document.isBuilding(); }, kPatience));
  EXPECT_EQ(shown.count(), 1);
}

}  // namespace
}  // namespace dryfit::viewer
