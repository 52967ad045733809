#include "export/verbs/progress_line.h"

#include <ostream>

namespace dryfit::exporting {

ProgressLine::ProgressLine(std::ostream* terminal) : terminal_(terminal) {}

ProgressLine::~ProgressLine() {
  clear();
}

bool ProgressLine::show(int done, int all) {
  const std::scoped_lock lock(mutex_);
  const int percent = all > 0 ? static_cast<int>(100LL * done / all) : 0;
  if (terminal_ != nullptr && percent != percent_) {
    percent_ = percent;
    *terminal_ << "\r" << percent << " %" << std::flush;
  }
  return true;
}

void ProgressLine::clear() {
  const std::scoped_lock lock(mutex_);
  if (percent_ >= 0) *terminal_ << "\r      \r" << std::flush;
  percent_ = -1;
}

}  // namespace dryfit::exporting
