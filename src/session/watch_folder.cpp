#include "session/watch_folder.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <sys/stat.h>

#include "capture/sha256.hpp"
#include "photo/file_bytes.hpp"
#include "photo/photo_names.hpp"
#include "photo/write.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;
using std::chrono::nanoseconds;

/// Stands before the photo's SHA-256 in the last line of a verdict's file.
constexpr std::string_view kSumOfPhoto = "SHA-256 of the photo: ";

bool isWatched(std::string_view name) { return !name.starts_with('.') && hasPhotoEnding(name); }

/// Whether such a problem may go away when more of the file arrives.
bool mayGrow(Code code) {
  constexpr std::array kMayGrow{Code::FileEmpty,      Code::FileUnreadable, Code::FormatUnknown,   Code::PhotoTruncated, Code::PhotoCorrupt,
                                Code::PhotoEmpty,     Code::RawUnknown,     Code::ProfileUnusable, Code::FileMissing};
  return std::ranges::find(kMayGrow, code) != kMayGrow.end();
}

nanoseconds sinceEpoch(const timespec& time) { return std::chrono::seconds(time.tv_sec) + nanoseconds(time.tv_nsec); }

/// Whether the file holds the verdict on this content.
bool holdsVerdictOf(const fs::path& beside, const std::string& sum) {
  Limits limits;
  limits.file_bytes = 1U << 20;
  const auto bytes = FileBytes::read(beside, limits);
  return bytes && std::string_view(reinterpret_cast<const char*>(bytes->bytes().data()), bytes->bytes().size()).ends_with(std::string(kSumOfPhoto) + sum + "\n");
}

}  // namespace

bool ofThePhoto(Code code) {
  constexpr std::array kOfOthers{Code::KeptGreyUnusable, Code::ChartDataUnusable, Code::ProfileFileUnusable, Code::SeriesUnusable, Code::TintFileUnusable, Code::FolderUnusable};
  constexpr int kInput = 3;
  return code == Code::OutOfMemory || (exitCode(code) == kInput && std::ranges::find(kOfOthers, code) == kOfOthers.end());
}

WatchFolder::WatchFolder(fs::path folder, JudgePhoto judge, const WatchTimes& times)
    : folder_(std::move(folder)), judge_(std::move(judge)), times_(times), notices_(std::make_unique<FolderNotices>()) {}

Result<WatchFolder> WatchFolder::open(fs::path folder, JudgePhoto judge, const WatchTimes& times) {
  WatchFolder watch(std::move(folder), std::move(judge), times);
  watch.lookThrough();
  if (watch.is_away_) return fail(Code::FolderUnusable, watch.folder_.string());
  return watch;
}

fs::path WatchFolder::besideOf(fs::path photo) { return photo += ".huewright.txt"; }

std::optional<WatchFolder::Mark> WatchFolder::markOf(const std::string& name) const {
  struct stat info {};
  if (::stat((folder_ / name).c_str(), &info) != 0 || !S_ISREG(info.st_mode)) return {};
  return Mark{info.st_dev, info.st_ino, static_cast<std::uintmax_t>(info.st_size), sinceEpoch(info.st_mtim), sinceEpoch(info.st_ctim)};
}

bool WatchFolder::isThere() const {
  struct stat info {};
  return ::stat(folder_.c_str(), &info) == 0 && followed_ == std::pair<std::uintmax_t, std::uintmax_t>(info.st_dev, info.st_ino);
}

void WatchFolder::away() {
  followed_.reset();
  waiting_.clear();
  settled_.clear();
  if (!is_away_) events_.push_back({.kind = WatchEvent::Kind::FolderAway, .caution = Caution{CautionCode::FolderAway, folder_.string()}});
  is_away_ = true;
}

void WatchFolder::readList() {
  Limits limits;
  limits.file_bytes = 64U << 20;
  const auto bytes = FileBytes::read(folder_ / JudgedList::kFileName, limits);
  if (!bytes && bytes.error().code == Code::FileMissing) return;
  const auto list = bytes ? JudgedList::parse({reinterpret_cast<const char*>(bytes->bytes().data()), bytes->bytes().size()})
                          : std::unexpected(std::string(bytes.error().code == Code::FileEmpty ? "it is empty" : "it cannot be opened"));
  if (list) return list_.add(*list);
  list_changed_ = true;
  events_.push_back({.kind = WatchEvent::Kind::ListDamaged, .caution = Caution{CautionCode::WatchListDamaged, list.error()}});
}

void WatchFolder::lookThrough() {
  next_look_ = Clock::now() + times_.look;
  struct stat info {};
  if (::stat(folder_.c_str(), &info) != 0 || !S_ISDIR(info.st_mode)) return away();
  const std::pair<std::uintmax_t, std::uintmax_t> id(info.st_dev, info.st_ino);
  const bool anew = followed_ != id;  // at the start, when it is back, or when a card was mounted in its place
  if (anew) notices_->follow(folder_);  // before its names are read, so that nothing falls in between
  std::set<std::string> names;
  std::error_code error;
  for (fs::directory_iterator at(folder_, error); !error && at != fs::directory_iterator(); at.increment(error))
    if (const std::string name = at->path().filename().string(); isWatched(name)) names.insert(name);
  if (error) return away();
  if (anew) {
    waiting_.clear();
    settled_.clear();
    followed_ = id;
    if (is_away_) events_.push_back({.kind = WatchEvent::Kind::FolderBack});
    is_away_ = false;
    readList();
  }
  std::erase_if(settled_, [&](const auto& one) { return !names.contains(one.first); });
  for (const std::string& name : names) sighted(name, false);
}

void WatchFolder::sighted(const std::string& name, bool complete) {
  const auto mark = markOf(name);
  const auto settled = settled_.find(name);
  if (!mark || (settled != settled_.end() && settled->second == *mark)) {
    waiting_.erase(name);
    return;
  }
  const auto now = Clock::now();
  const auto [at, fresh] = waiting_.try_emplace(name);
  Waiting& waiting = at->second;
  if (fresh || waiting.mark != *mark) {
    const nanoseconds age = std::chrono::system_clock::now().time_since_epoch() - std::max(mark->written, mark->changed);
    waiting.mark = *mark;
    waiting.same_since = now - std::chrono::duration_cast<Clock::duration>(std::clamp<nanoseconds>(age, nanoseconds(0), std::max(times_.settle, times_.patience)));
    waiting.ready = waiting.same_since + times_.settle;
  }
  if (complete) waiting.ready = std::min(waiting.ready, now);
}

void WatchFolder::hear(const FolderNews& news) {
  for (const FolderNotice& notice : news.names)
    if (isWatched(notice.name)) sighted(notice.name, notice.complete);
  if (news.gone) followed_.reset();
  if (news.gone || news.missed) next_look_ = Clock::now();
}

void WatchFolder::settle(const std::string& name) {
  const auto at = waiting_.find(name);
  if (at == waiting_.end()) return;
  settled_.insert_or_assign(name, at->second.mark);
  waiting_.erase(at);
}

Result<bool> WatchFolder::write(const fs::path& path, const std::string& text) const {
  if (!isThere()) return false;  // what lies there now may be another card, with a list of its own
  const auto written = writeWhole(path, text);
  if (written) return true;
  if (!isThere()) return false;
  return std::unexpected(written.error());
}

Result<void> WatchFolder::keepList() {
  if (!list_changed_ || is_away_) return {};
  const auto written = write(folder_ / JudgedList::kFileName, list_.text());
  if (!written) return std::unexpected(written.error());
  list_changed_ = !*written;
  return {};
}

Result<void> WatchFolder::trouble(const std::string& name, const Problem& problem, const std::string& sum) {
  if (!ofThePhoto(problem.code)) return std::unexpected(problem);
  Waiting& waiting = waiting_.at(name);
  if (markOf(name) != waiting.mark) {
    sighted(name, false);
    return {};
  }
  const auto given_up = waiting.same_since + times_.patience;
  if (mayGrow(problem.code) && Clock::now() < given_up) {
    waiting.ready = given_up;
    return {};
  }
  const auto written = write(besideOf(folder_ / name), sentence(problem) + "\n");
  if (!written) return std::unexpected(written.error());
  if (!*written) {
    next_look_ = Clock::now();
    return {};
  }
  if (!sum.empty()) refused_.insert(sum);
  settle(name);
  events_.push_back({.kind = WatchEvent::Kind::Unusable, .name = name, .problem = problem});
  return {};
}

Result<void> WatchFolder::judgeIt(const std::string& name, const std::string& sum, const std::stop_token& stop) {
  const fs::path path = folder_ / name;
  auto known = unwritten_.find(sum);
  if (known == unwritten_.end()) {
    auto verdict = judge_(path, stop);
    if (!verdict && verdict.error().code == Code::Stopped && stop.stop_requested()) return {};
    if (!verdict) return trouble(name, verdict.error(), sum);
    if (isThere() && markOf(name) != waiting_.at(name).mark) {  // another content now, or another name: it waits again
      sighted(name, false);
      return {};
    }
    WatchEvent event{.kind = WatchEvent::Kind::Judged, .name = name};
    if (verdict->keep) {
      const auto kept = verdict->keep();
      if (!kept) return std::unexpected(kept.error());
      event.caution = *kept;
    }
    event.verdict = std::move(*verdict);
    known = unwritten_.emplace(sum, std::move(event)).first;
  }
  const auto written = write(besideOf(path), known->second.verdict->beside + "\n" + std::string(kSumOfPhoto) + sum + "\n");
  if (!written) return std::unexpected(written.error());
  if (!*written) {
    next_look_ = Clock::now();
    return {};
  }
  known->second.name = name;
  events_.push_back(std::move(known->second));
  unwritten_.erase(known);
  list_.add(sum, name);
  list_changed_ = true;
  settle(name);
  return {};
}

Result<void> WatchFolder::take(const std::string& name, const std::stop_token& stop) {
  if (markOf(name) != waiting_.at(name).mark) {
    sighted(name, false);
    return {};
  }
  const auto sum = sha256OfFile(folder_ / name);
  if (!sum) return trouble(name, sum.error(), {});
  const auto* names = list_.namesOf(*sum);
  const bool by_verdict = names == nullptr && holdsVerdictOf(besideOf(folder_ / name), *sum);
  if (names == nullptr && !by_verdict && !refused_.contains(*sum)) return judgeIt(name, *sum, stop);
  settle(name);
  if (names == nullptr && !by_verdict) return {};
  const std::string same_as = names == nullptr ? name : names->front();
  if (!list_.add(*sum, name)) return {};
  list_changed_ = true;
  if (!by_verdict) events_.push_back({.kind = WatchEvent::Kind::SamePhoto, .name = name, .same_as = same_as});
  return {};
}

Result<std::optional<WatchEvent>> WatchFolder::next(const std::stop_token& stop) {
  while (true) {
    if (!events_.empty()) {
      WatchEvent event = std::move(events_.front());
      events_.pop_front();
      return event;
    }
    if (stop.stop_requested()) return std::nullopt;
    hear(notices_->wait(std::chrono::milliseconds(0), stop));
    if (Clock::now() >= next_look_) lookThrough();
    if (!events_.empty()) continue;
    const auto now = Clock::now();
    const auto ready = std::ranges::find_if(waiting_, [&](const auto& one) { return one.second.ready <= now; });
    if (ready != waiting_.end()) {
      const std::string name = ready->first;
      if (const auto taken = take(name, stop); !taken) return std::unexpected(taken.error());
      continue;
    }
    if (const auto kept = keepList(); !kept) return std::unexpected(kept.error());
    auto until = next_look_;
    for (const auto& [name, waiting] : waiting_) until = std::min(until, waiting.ready);
    hear(notices_->wait(std::chrono::ceil<std::chrono::milliseconds>(std::max(until - Clock::now(), Clock::duration(0))), stop));
  }
}

}  // namespace huewright
