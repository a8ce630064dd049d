#include "session/user_data.hpp"

#include <cstdlib>
#include <optional>

namespace huewright {
namespace {

namespace fs = std::filesystem;

std::optional<fs::path> folderIn(const char* variable) {
  const char* told = std::getenv(variable);
  if (told == nullptr || *told == 0 || !fs::path(told).is_absolute()) return {};
  return fs::path(told);
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

}  // namespace huewright
