#include "tests/support/killed.h"

#include <dlfcn.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <stdexcept>

// The calls by which names and files change pass through here, in this program and in the libraries
// below it, and go on to the real ones.
namespace {

int callsLeft = 0;  // NOLINT(*-avoid-non-const-global-variables): 0 lets every call pass

void count() {
  if (callsLeft > 0 && --callsLeft == 0) ::kill(::getpid(), SIGKILL);
}

template <class Function>
Function* real(const char* name) {
  return reinterpret_cast<Function*>(::dlsym(RTLD_NEXT, name));
}

}  // namespace

extern "C" {

int rename(const char* from, const char* to) noexcept {
  count();
  static auto* const go = real<int(const char*, const char*)>("rename");
  return go(from, to);
}
int link(const char* from, const char* to) noexcept {
  count();
  static auto* const go = real<int(const char*, const char*)>("link");
  return go(from, to);
}
int mkdir(const char* path, mode_t mode) noexcept {
  count();
  static auto* const go = real<int(const char*, mode_t)>("mkdir");
  return go(path, mode);
}
int chmod(const char* path, mode_t mode) noexcept {
  count();
  static auto* const go = real<int(const char*, mode_t)>("chmod");
  return go(path, mode);
}
int remove(const char* path) noexcept {
  count();
  static auto* const go = real<int(const char*)>("remove");
  return go(path);
}
int unlink(const char* path) noexcept {
  count();
  static auto* const go = real<int(const char*)>("unlink");
  return go(path);
}
int unlinkat(int folder, const char* path, int flags) noexcept {
  count();
  static auto* const go = real<int(int, const char*, int)>("unlinkat");
  return go(folder, path, flags);
}
int fsync(int descriptor) {
  count();
  static auto* const go = real<int(int)>("fsync");
  return go(descriptor);
}

}  // extern "C"

namespace dryfit::testing {

bool killedBefore(int n, const std::function<void()>& work) {
  const pid_t child = ::fork();
  if (child < 0) throw std::runtime_error("no process can be started");
  if (child == 0) {
    callsLeft = n;
    work();
    ::_exit(0);
  }
  int status = 0;
  if (::waitpid(child, &status, 0) != child) throw std::runtime_error("the process is lost");
  if (WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL) return true;
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) throw std::runtime_error("the work failed");
  return false;
}

}  // namespace dryfit::testing
