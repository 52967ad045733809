#include <gmock/gmock.h>

#include <Standard_Failure.hxx>
#include <functional>
#include <ostream>
#include <sstream>
#include <stdexcept>
#include <streambuf>

#include "export/command_line.h"
#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using testing::frameModel;
using ::testing::HasSubstr;
using testing::Scratch;

/// A place for a report that throws as soon as anything is written.
class ThrowingPlace : public std::streambuf {
 public:
  explicit ThrowingPlace(std::function<void()> thrower) : thrower_(std::move(thrower)) {}

 protected:
  int overflow(int) override {
    thrower_();
    return traits_type::eof();
  }

 private:
  std::function<void()> thrower_;
};

/// What is told when this is thrown inside a verb.
std::string toldOf(std::function<void()> thrower) {
  const Scratch scratch;
  ThrowingPlace place(std::move(thrower));
  std::ostream out(&place);
  out.exceptions(std::ios::badbit);  // what the place throws goes on
  std::ostringstream err;
  EXPECT_EQ(exporting::run({"parts", scratch.write("frame.dryfit", frameModel())}, out, err), 2);
  const std::string line = err.str();
  EXPECT_EQ(std::count(line.begin(), line.end(), '\n'), 1) << line;
  return line;
}

TEST(InternalFailure, IsOneLineWhateverIsThrown) {
  EXPECT_THAT(toldOf([] { throw Standard_Failure("no such\ncurve"); }),
              HasSubstr("internal failure: the geometry library failed: no such curve"));
  EXPECT_THAT(toldOf([] { throw Standard_Failure(); }), HasSubstr("Standard_Failure"));
  EXPECT_THAT(toldOf([] { throw std::runtime_error("no room"); }),
              HasSubstr("internal failure: no room"));
  EXPECT_THAT(toldOf([] { throw 7; }), HasSubstr("internal failure"));
}

}  // namespace
}  // namespace dryfit
