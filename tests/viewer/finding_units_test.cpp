#include <gtest/gtest.h>

#include <QTest>
#include <string>

#include "viewer/document/bench_document.h"
#include "viewer/tables/finding_table.h"

namespace dryfit::viewer {
namespace {

constexpr int kPatience = 20'000;  // ms; slow machines and sanitizers

TEST(FindingTableUnits, FollowTheUnitOfTheWindow) {
  auto file = joinery::ModelFile::load(std::string(DRYFIT_MODELS) + "/mistakes.dryfit");
  ASSERT_TRUE(file) << file.error().line();
  BenchDocument document;
  FindingTable table(document);
  document.start(std::move(*file));
  const auto sentences = [&] {
    EXPECT_TRUE(QTest::qWaitFor([&] { return !document.isBuilding(); }, kPatience));
    QString all;
    for (int row = 0; row < table.rowCount(); ++row) {
      all += table.index(row, FindingTable::what).data().toString() + "\n";
    }
    return all;
  };
  const QString mm = sentences();
  EXPECT_TRUE(mm.contains(" mm "));
  document.setUnit(joinery::Unit::inch);
  const QString inches = sentences();
  EXPECT_FALSE(inches.contains(" mm ")) << inches.toStdString();
  EXPECT_TRUE(inches.contains(" in "));
  document.setUnit(joinery::Unit::mm);
  EXPECT_EQ(sentences(), mm);
}

}  // namespace
}  // namespace dryfit::viewer
