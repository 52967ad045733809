#pragma once

#include <string>
#include <tl/expected.hpp>
#include <utility>

namespace dryfit {

/// What kind of failure an `Error` is. The numbers are stable; each layer has its own range.
enum class ErrorCode {
  // 1xx: kernel
  badDimension = 101,    ///< a size that is zero, negative, not finite or beyond the workshop
  emptyResult = 102,     ///< an operation left no wood
  invalidSolid = 103,    ///< the geometry library gave a solid that fails its own check
  libraryFailure = 104,  ///< the geometry library threw or reported an error
  cancelled = 105,       ///< the user asked to stop
  // 2xx: joinery
  badModel = 201,  ///< the model file says something that cannot be
  badExpression = 202,
  unknownName = 203,
  cycle = 204,
  badJoint = 205,  ///< a joint's entry in the model has a word that may not stand there
  badMeasurement = 206,
  badStock = 207,       ///< a stock list says something that cannot be
  badMark = 208,        ///< a cut mark that does not fit the piece
  spansUnfit = 209,     ///< a part's spans leave a size open, fix it twice or share an axis
  faceNotAcross = 210,  ///< a face is named that does not lie across the size it is named for
  tooManyBlanks = 211,  ///< the rough sizes ask for more blanks than any piece takes
  // 23x: joinery, a joint that cannot be cut; see isJointError
  roleUnfit = 231,           ///< a role is left empty, filled twice or by too many parts
  joinedToItself = 232,      ///< one part fills two roles
  matesApart = 233,          ///< no two faces of the mates look at each other; no wood is shared
  matesAskew = 234,          ///< the mates meet, but not squarely enough for this joint
  faceUnfit = 235,           ///< a face is named that this joint cannot use
  numberTooSmall = 236,      ///< a number is not above 0, or not 0 or more
  countUnfit = 237,          ///< a count is no whole number within its limits
  numbersDisagree = 238,     ///< more numbers are given than can hold together
  jointOutgrowsPart = 239,   ///< what would be cut does not fit on the part
  jointLeavesNothing = 240,  ///< one number takes all of what another one needs
  // 3xx: export and files
  fileNotRead = 301,
  fileNotWritten = 302,
  badUsage = 303,
};

/// True for a failure of one joint, which a change of its parts or numbers may put right.
[[nodiscard]] constexpr bool isJointError(ErrorCode code) {
  return code == ErrorCode::badJoint ||
         (code >= ErrorCode::roleUnfit && code <= ErrorCode::jointLeavesNothing);
}

/// A recoverable failure: what is wrong, where, and how to mend it.
struct Error {
  ErrorCode code = ErrorCode::badModel;
  std::string what;   ///< one sentence without a full stop
  std::string where;  ///< path to the place, outermost first: "cupboard.dryfit: parts.rail.width"
  std::string mend;   ///< what would be right; may be empty
  friend bool operator==(const Error&, const Error&) = default;

  /// The same error with `context` put before its place.
  [[nodiscard]] Error within(const std::string& context) const {
    Error e = *this;
    e.where = where.empty() ? context : context + ": " + where;
    return e;
  }
  /// One line for the user: "place: what; mend".
  [[nodiscard]] std::string line() const {
    std::string text = where.empty() ? what : where + ": " + what;
    return mend.empty() ? text : text + "; " + mend;
  }
};

/// Either a value or an `Error`. Failures that a caller can meet are values, never exceptions.
template <class T>
using Result = tl::expected<T, Error>;

[[nodiscard]] inline tl::unexpected<Error> fail(ErrorCode code, std::string what,
                                                std::string where = {}, std::string mend = {}) {
  return tl::unexpected<Error>(Error{code, std::move(what), std::move(where), std::move(mend)});
}

}  // namespace dryfit
