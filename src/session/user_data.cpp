#include "session/user_data.hpp"

#include <cstdlib>
#include <fstream>
#include <optional>
#include <string>

namespace huewright {
namespace {

namespace fs = std::filesystem;

std::optional<fs::path> folderIn(const char* variable) {
  const char* told = std::getenv(variable);
  if (told == nullptr || *told == 0 || !fs::path(told).is_absolute()) return {};
  return fs::path(told);
}

/// The folder for pictures as a line XDG_PICTURES_DIR="$HOME/Pictures" of user-dirs.dirs names it.
std::optional<fs::path> toldPictures(const fs::path& file, const fs::path& home) {
  const std::string begins = "XDG_PICTURES_DIR=\"", of_home = "$HOME";
  std::ifstream lines(file);
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with(begins) || !line.ends_with('"') || line.size() <= begins.size()) continue;
    std::string told = line.substr(begins.size(), line.size() - begins.size() - 1);
    if (told.starts_with(of_home)) told = home.string() + told.substr(of_home.size());
    if (fs::path(told).is_absolute()) return fs::path(told);
  }
  return {};
}

}  // namespace

Result<fs::path> userDataFolder() {
  if (const auto data = folderIn("XDG_DATA_HOME")) return *data / "huewright";
  if (const auto home = folderIn("HOME")) return *home / ".local/share/huewright";
  return fail(Code::NoUserFolder);
}

Result<fs::path> keptGreyPath() {
  auto folder = userDataFolder();
  if (folder) *folder /= "grey.json";
  return folder;
}

Result<fs::path> sittingPath() {
  if (const auto state = folderIn("XDG_STATE_HOME")) return *state / "huewright/sitting.json";
  if (const auto home = folderIn("HOME")) return *home / ".local/state/huewright/sitting.json";
  return fail(Code::NoUserFolder);
}

Result<fs::path> stillsPath() {
  constexpr const char* kStills = "huewright-stills";
  if (const auto pictures = folderIn("XDG_PICTURES_DIR")) return *pictures / kStills;
  const auto home = folderIn("HOME");
  if (!home) return fail(Code::NoUserFolder);
  if (const auto told = toldPictures(folderIn("XDG_CONFIG_HOME").value_or(*home / ".config") / "user-dirs.dirs", *home)) return *told / kStills;
  std::error_code ignored;
  return (fs::is_directory(*home / "Pictures", ignored) ? *home / "Pictures" : *home) / kStills;
}

}  // namespace huewright
