#include "frames/source_kind.hpp"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

namespace huewright::frames {
namespace {

namespace fs = std::filesystem;

bool allDigits(const std::string& text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

/// %d, %3d or %03d in a text: where it begins and ends, whether zeros go before the number, and how wide that is at least.
struct PicturePattern {
  std::size_t begin = 0, end = 0, width = 0;
  bool zeros = false;
};

/// Of the file's name, not of the folders before it. Nothing when there is no percent sign, another pattern, or more than one.
std::optional<PicturePattern> patternIn(const std::string& name) {
  PicturePattern found;
  const std::size_t slash = name.rfind('/');
  found.begin = name.find('%', slash == std::string::npos ? 0 : slash);
  if (found.begin == std::string::npos || name.find('%', found.begin + 1) != std::string::npos) return {};
  std::size_t at = found.begin + 1;
  if (at < name.size() && name[at] == '0') found.zeros = true, ++at;
  if (at < name.size() && name[at] >= '1' && name[at] <= '9') found.width = static_cast<std::size_t>(name[at++] - '0');
  if (at >= name.size() || name[at] != 'd') return {};
  found.end = at + 1;
  return found;
}

std::string endingOf(const std::string& path) {
  std::string ending = fs::path(path).extension().string();
  std::ranges::transform(ending, ending.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return ending;
}

std::expected<SourceName, std::string> device(const std::string& path) {
  struct stat facts {};
  if (::stat(path.c_str(), &facts) != 0)
    return std::unexpected("There is no camera \"" + path + "\". Plug it in, or name another: the first is 0, the second often 2");
  if (!S_ISCHR(facts.st_mode)) return std::unexpected("\"" + path + "\" is not a camera. Give a camera's number, such as 0, or its device, such as /dev/video0");
  if (::access(path.c_str(), R_OK | W_OK) != 0)
    return std::unexpected("The camera \"" + path + "\" may not be used by you. Become a member of the group video, log in again, and try again");
  return SourceName{SourceKind::Device, path};
}

std::expected<SourceName, std::string> film(const std::string& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (!fs::exists(status)) return std::unexpected("There is no file \"" + path + "\". Check the name and the folder");
  if (!fs::is_regular_file(status)) return std::unexpected("\"" + path + "\" is not a file. Name a film of Motion JPEG (.avi) or FFV1 (.mkv)");
  if (::access(path.c_str(), R_OK) != 0) return std::unexpected("\"" + path + "\" cannot be opened for reading. Check its permissions");
  return SourceName{SourceKind::Film, fs::absolute(path).string()};
}

std::expected<SourceName, std::string> pictures(const std::string& path) {
  const std::string whole = fs::absolute(path).string();
  if (firstPicture(whole)) return SourceName{SourceKind::Pictures, whole};
  return std::unexpected("There are no pictures \"" + path + "\". Number them from 0 or 1 on, such as \"" + pictureNumbered(path, 0) + "\", without a gap");
}

}  // namespace

std::optional<int> firstPicture(const std::string& pattern) {
  constexpr int kHighestFirst = 9;
  std::error_code error;
  for (int number = 0; number <= kHighestFirst; ++number)
    if (fs::is_regular_file(pictureNumbered(pattern, number), error)) return number;
  return {};
}

std::string pictureNumbered(const std::string& pattern, int number) {
  const auto place = patternIn(pattern);
  if (!place) return pattern;
  std::string digits = std::to_string(number);
  if (digits.size() < place->width) digits.insert(0, place->width - digits.size(), place->zeros ? '0' : ' ');
  return pattern.substr(0, place->begin) + digits + pattern.substr(place->end);
}

std::expected<SourceName, std::string> sourceNamed(const std::string& source) {
  if (allDigits(source) && source.size() <= 3) return device("/dev/video" + std::to_string(std::stoi(source)));
  if (source.starts_with("/dev/")) return device(source);
  const std::string ending = endingOf(source);
  std::error_code error;
  const bool there = fs::exists(source, error);  // a file may have a percent sign in its name
  if (!there && patternIn(source)) return pictures(source);
  if (ending == ".avi" || ending == ".mkv") return film(source);
  return std::unexpected("\"" + source + "\" is neither a camera nor a film that can be read here. Give a camera's number, such as 0, its device, such as /dev/video0, "
                         "pictures such as frames/img_%03d.png, or a film of Motion JPEG (.avi) or FFV1 (.mkv)");
}

}  // namespace huewright::frames
