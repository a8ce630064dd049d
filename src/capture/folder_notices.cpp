#include "capture/folder_notices.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <poll.h>
#include <sys/eventfd.h>
#include <sys/inotify.h>
#include <unistd.h>

namespace huewright {

FolderNotices::FolderNotices() : notices_(::inotify_init1(IN_NONBLOCK | IN_CLOEXEC)), wake_(::eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC)) {}

FolderNotices::~FolderNotices() {
  for (const int file : {notices_, wake_})
    if (file >= 0) ::close(file);
}

bool FolderNotices::follow(const std::filesystem::path& folder) {
  if (notices_ < 0) return false;
  if (folder_ >= 0) ::inotify_rm_watch(notices_, folder_);
  folder_ = ::inotify_add_watch(notices_, folder.c_str(), IN_CREATE | IN_CLOSE_WRITE | IN_MOVED_TO | IN_DELETE_SELF | IN_MOVE_SELF | IN_ONLYDIR);
  return folder_ >= 0;
}

FolderNews FolderNotices::wait(std::chrono::milliseconds most, const std::stop_token& stop) {
  const std::stop_callback wake(stop, [this] {
    const std::uint64_t one = 1;
    (void)!::write(wake_, &one, sizeof one);
  });
  std::array<pollfd, 2> files{{{notices_, POLLIN, 0}, {wake_, POLLIN, 0}}};
  constexpr std::chrono::milliseconds kLongest{60'000};
  ::poll(files.data(), files.size(), static_cast<int>(std::clamp(most, std::chrono::milliseconds(0), kLongest).count()));
  std::uint64_t woken = 0;
  (void)!::read(wake_, &woken, sizeof woken);
  FolderNews news;
  if (notices_ >= 0) read(news);
  return news;
}

void FolderNotices::read(FolderNews& news) {
  alignas(inotify_event) std::array<char, 16384> block;
  for (ssize_t got = 0; (got = ::read(notices_, block.data(), block.size())) > 0;)
    for (std::size_t at = 0; at < static_cast<std::size_t>(got);) {
      inotify_event event{};
      std::memcpy(&event, block.data() + at, sizeof event);
      const char* name = block.data() + at + sizeof event;  // padded with zeros
      at += sizeof event + event.len;
      if ((event.mask & IN_Q_OVERFLOW) != 0) news.missed = true;
      if (event.wd != folder_) continue;  // a folder that was followed before
      if ((event.mask & (IN_DELETE_SELF | IN_MOVE_SELF | IN_UNMOUNT | IN_IGNORED)) != 0) news.gone = true;
      else if (event.len > 0 && (event.mask & IN_ISDIR) == 0) news.names.push_back({name, (event.mask & (IN_CLOSE_WRITE | IN_MOVED_TO)) != 0});
    }
  if (!news.gone) return;
  ::inotify_rm_watch(notices_, folder_);  // a folder that was moved would still be told of
  folder_ = -1;
}

}  // namespace huewright
