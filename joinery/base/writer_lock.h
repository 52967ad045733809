#pragma once

#include <chrono>
#include <filesystem>

#include "kernel/result.h"

namespace dryfit::joinery {

/// Keeps other programs of ours from writing to the files of one folder while a file in it is read,
/// changed and written again, so that no change is lost. Readers are not kept out. The lock is on
/// the folder itself, leaves nothing behind and goes with the process, however that ends. Where the
/// file system knows no locks there is none, and the file's bytes alone tell of other writers.
class WriterLock {
 public:
  /// For the folder of the file behind `path`. Waits for another writer to finish. Errors:
  /// fileNotWritten where one is still at it after `most`, or where there is no such folder.
  [[nodiscard]] static Result<WriterLock> take(
      const std::filesystem::path& path, std::chrono::milliseconds most = std::chrono::seconds(30));

  WriterLock(WriterLock&& other) noexcept;
  WriterLock& operator=(WriterLock&& other) noexcept;
  WriterLock(const WriterLock&) = delete;
  WriterLock& operator=(const WriterLock&) = delete;
  ~WriterLock();

 private:
  explicit WriterLock(int descriptor) : descriptor_(descriptor) {}
  int descriptor_ = -1;
};

}  // namespace dryfit::joinery
