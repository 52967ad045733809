#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace dryfit::exporting {

/// Runs the command line `dryfit` with `args` (without the program's name): reports go to `out`,
/// everything else to `err`. Returns the exit code: 0 fine, 1 findings at error level, 2 bad input
/// or usage. With 2, `err` got exactly one line (file, place, what, mend) unless --verbose was
/// given, and no file was written or changed. Throws nothing.
[[nodiscard]] int run(const std::vector<std::string>& args, std::ostream& out, std::ostream& err);

}  // namespace dryfit::exporting
