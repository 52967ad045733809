#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

#include "joinery/file/json_document.h"
#include "joinery/model/model.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Remembers the first thing found wrong while a document is read; later ones are dropped, so that
/// a reader may go on to its end with empty values.
class FirstError {
 public:
  void report(Error error);
  [[nodiscard]] const std::optional<Error>& error() const { return error_; }

 private:
  std::optional<Error> error_;
};

/// One value of a document together with its place in it. Lives as long as one reading.
class JsonPlace {
 public:
  JsonPlace(const JsonNode& node, std::string path, FirstError& errors)
      : node_(&node), path_(std::move(path)), errors_(&errors) {}

  [[nodiscard]] const JsonNode& node() const { return *node_; }
  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] bool failed() const { return errors_->error().has_value(); }

  /// Reports an error at this place.
  void wrong(std::string what, std::string mend = {}, ErrorCode code = ErrorCode::badModel) const;
  /// Reports `what` with "did you mean" the nearest of `known`, or the list where none is near.
  void unknown(const std::string& what, const std::string& name,
               const std::vector<std::string>& known, ErrorCode code = ErrorCode::badModel) const;

  /// True when this is an object; reports otherwise. With `keys`, other keys are errors.
  [[nodiscard]] bool isObject() const;
  [[nodiscard]] bool isObject(const std::vector<std::string>& keys) const;
  /// The members of an object or list, with their places.
  [[nodiscard]] std::vector<std::pair<std::string, JsonPlace>> members() const;
  /// The member with this key, if it is there.
  [[nodiscard]] std::optional<JsonPlace> find(const std::string& key) const;
  /// The member with this key; reports and returns none where it is missing.
  [[nodiscard]] std::optional<JsonPlace> need(const std::string& key) const;

  /// Text; reports other types and returns empty text.
  [[nodiscard]] std::string text() const;
  /// Text that stands in tables, drawings and file names: as text, and control characters are
  /// reported.
  [[nodiscard]] std::string line() const;
  /// One of `words`, by its index; reports otherwise and returns 0.
  [[nodiscard]] std::size_t wordOf(const std::vector<std::string>& words) const;
  /// A number or an expression that can be read; reports otherwise.
  [[nodiscard]] Expression expression() const;

 private:
  const JsonNode* node_;
  std::string path_;
  FirstError* errors_;
};

}  // namespace dryfit::joinery
