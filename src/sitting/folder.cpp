#include "sitting/folder.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <ctime>

namespace huewright {
namespace {

namespace fs = std::filesystem;

std::string whenWords(fs::file_time_type time) {
  const std::time_t seconds = std::chrono::system_clock::to_time_t(std::chrono::file_clock::to_sys(time));
  std::tm local{};
  localtime_r(&seconds, &local);
  std::array<char, 32> text{};
  return {text.data(), std::strftime(text.data(), text.size(), "%Y-%m-%d %H:%M", &local)};
}

}  // namespace

FolderShown readFolder(const fs::path& folder) {
  FolderShown out;
  std::error_code error;
  out.folder = fs::weakly_canonical(folder, error);
  if (error) out.folder = folder;
  fs::directory_iterator it(out.folder, error);
  if (error) {
    out.trouble = "The folder \"" + out.folder.string() + "\" cannot be read. Choose another one.";
    return out;
  }
  for (; it != fs::directory_iterator(); it.increment(error)) {
    if (error) break;
    FolderEntry entry;
    entry.name = it->path().filename().string();
    if (entry.name.starts_with('.')) continue;
    std::error_code ignored;
    entry.folder = it->is_directory(ignored);
    if (!entry.folder && !it->is_regular_file(ignored)) continue;
    if (!entry.folder) entry.bytes = it->file_size(ignored);
    if (const auto time = it->last_write_time(ignored); !ignored) entry.when = whenWords(time);
    out.entries.push_back(std::move(entry));
  }
  std::ranges::sort(out.entries, [](const FolderEntry& a, const FolderEntry& b) { return a.folder != b.folder ? a.folder : a.name < b.name; });
  return out;
}

}  // namespace huewright
