#include "export/report/report_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "joinery/fit/dry_fit.h"

namespace dryfit::testing {
namespace {

using ::testing::HasSubstr;

std::string reportOf(double measured, double limit, const std::string& unit, joinery::Unit reader) {
  joinery::DryFit fit;
  joinery::Finding finding;
  finding.measured = measured;
  finding.limit = limit;
  finding.unit = unit;
  fit.findings.push_back(finding);
  return exporting::findingsText(fit, reader);
}

TEST(FindingReport, ShowsAFitAsFineAsItsLimit) {
  EXPECT_THAT(reportOf(0.2, 0.15, "mm", joinery::Unit::mm),
              HasSubstr("found 0.2 mm, limit 0.15 mm"));
  EXPECT_THAT(reportOf(0.2, 0.15, "mm", joinery::Unit::cm),
              HasSubstr("found 0.02 cm, limit 0.015 cm"));
  // 0.2 mm and 0.15 mm by the inch of 25.4 mm: 0.00787 in and 0.00591 in.
  EXPECT_THAT(reportOf(0.2, 0.15, "mm", joinery::Unit::inch),
              HasSubstr("found 0.008 in, limit 0.006 in"));
  EXPECT_THAT(reportOf(2.04, 4.5, "mm", joinery::Unit::mm),
              HasSubstr("found 2.04 mm, limit 4.5 mm"));
  EXPECT_THAT(reportOf(20.04, 45, "mm", joinery::Unit::mm), HasSubstr("found 20 mm, limit 45 mm"));
  // A gap of 1.5 mm is 0.05906 in, which is not the 1.5875 mm of 1/16 in.
  EXPECT_THAT(reportOf(1.5, 1.5875, "mm", joinery::Unit::inch),
              HasSubstr("found 0.059 in, limit 1/16 in"));
}

TEST(FindingReport, ShowsVolumesWithoutPowersOfTen) {
  EXPECT_THAT(reportOf(14400, 0.01, "mm³", joinery::Unit::mm),
              HasSubstr("found 14400 mm³, limit 0.01 mm³"));
}

}  // namespace
}  // namespace dryfit::testing
