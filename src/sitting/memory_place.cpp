#include "sitting/memory_place.hpp"

#include <cerrno>
#include <fcntl.h>
#include <string>
#include <sys/file.h>
#include <unistd.h>
#include <utility>

namespace huewright {
namespace {

constexpr int kMostWindows = 99;

enum class LockTry { Held, Taken, Impossible };

/// file: the open lock, when Held.
LockTry tryLock(std::filesystem::path path, int& file) {
  path += ".lock";
  file = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (file < 0) return LockTry::Impossible;
  if (::flock(file, LOCK_EX | LOCK_NB) == 0) return LockTry::Held;
  const bool taken = errno == EWOULDBLOCK;
  ::close(file);
  file = -1;
  return taken ? LockTry::Taken : LockTry::Impossible;
}

}  // namespace

MemoryPlace::MemoryPlace(const std::filesystem::path& wanted) : file_(wanted) {
  if (wanted.empty()) return;
  for (int window = 1; window <= kMostWindows; ++window) {
    file_ = wanted;
    if (window > 1) file_.replace_filename(wanted.stem().string() + "-" + std::to_string(window) + wanted.extension().string());
    const LockTry got = tryLock(file_, lock_);
    if (got == LockTry::Taken) continue;
    if (got == LockTry::Impossible) file_ = wanted;
    beside_ = file_ != wanted;
    return;
  }
  file_.clear();  // nothing is written over
  beside_ = true;
}

MemoryPlace::MemoryPlace(MemoryPlace&& other) noexcept : file_(std::move(other.file_)), beside_(other.beside_), lock_(std::exchange(other.lock_, -1)) {}

MemoryPlace& MemoryPlace::operator=(MemoryPlace&& other) noexcept {
  std::swap(file_, other.file_);
  std::swap(beside_, other.beside_);
  std::swap(lock_, other.lock_);
  return *this;
}

MemoryPlace::~MemoryPlace() {
  if (lock_ >= 0) ::close(lock_);
}

}  // namespace huewright
