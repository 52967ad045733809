#pragma once

#include <iosfwd>
#include <mutex>

namespace dryfit::exporting {

/// How far the work is, on one line of a terminal that is written over and wiped at the end.
/// May be called from several threads.
class ProgressLine {
 public:
  /// Shows nothing where `terminal` is null.
  explicit ProgressLine(std::ostream* terminal);
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ~ProgressLine();

  /// Writes only when the whole percentage changes. Always true: go on.
  bool show(int done, int all);
  /// Wipes the line.
  void clear();

 private:
  std::ostream* terminal_;
  std::mutex mutex_;
  int percent_ = -1;
};

}  // namespace dryfit::exporting
