#include "capture/camera_module.hpp"

#include <cstdlib>
#include <dlfcn.h>
#include <map>
#include <mutex>

namespace huewright {
namespace {

namespace fs = std::filesystem;

fs::path moduleFolder() {
  if (const char* told = std::getenv("HUEWRIGHT_MODULES"); told != nullptr && *told != '\0') return told;
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  return program.parent_path().parent_path() / "lib/huewright";
}

/// Debian's name for the package of one of OpenCV's libraries: libopencv-videoio406 for libopencv_videoio.so.406. Debian's policy manual, 8.1 (from memory).
std::string packageOf(const std::string& library) {
  const auto at = library.find(".so.");
  if (!library.starts_with("libopencv_") || at == std::string::npos) return {};
  return "libopencv-" + library.substr(10, at - 10) + library.substr(at + 4);
}

}  // namespace

std::string whyNotLoaded(const std::string& file, const std::string& said) {
  // Source: glibc's words, such as "libopencv_videoio.so.406: cannot open shared object file: No such file or directory".
  const auto colon = said.find(": cannot open shared object file");
  if (colon == std::string::npos) return "What Huewright needs for cameras and films, \"" + file + "\", cannot be loaded (" + said + "). Install Huewright again";
  const std::string library = said.substr(0, colon);
  const std::string package = packageOf(library);
  return "Cameras and films need the library " + library + ", which is not installed. Install it" +
         (package.empty() ? std::string() : ", on Debian by: apt install " + package);
}

Result<const HuewrightCameraDoor*> loadCameraModule(const fs::path& file) {
  std::error_code error;
  if (!fs::is_regular_file(file, error))
    return fail(Code::ModuleMissing, "This Huewright was built without cameras and films: there is no \"" + file.string() +
                                         "\". Install OpenCV's videoio (on Debian libopencv-videoio-dev) and build it again, or install the package");
  void* module = ::dlopen(fs::absolute(file).c_str(), RTLD_NOW | RTLD_LOCAL);
  if (module == nullptr) {
    const char* said = ::dlerror();
    return fail(Code::ModuleMissing, whyNotLoaded(file.string(), said != nullptr ? said : "no reason told"));
  }
  const auto open = reinterpret_cast<HuewrightOpenDoor>(::dlsym(module, HuewrightDoorName));
  const HuewrightCameraDoor* door = open != nullptr ? open() : nullptr;
  if (door == nullptr || door->version != HuewrightDoorVersion) {
    ::dlclose(module);
    return fail(Code::ModuleMissing, "\"" + file.string() + "\" belongs to another version of Huewright. Install Huewright again");
  }
  return door;
}

Result<const HuewrightCameraDoor*> cameraModule() {
  static std::mutex mutex;
  static std::map<fs::path, const HuewrightCameraDoor*> loaded;
  const std::scoped_lock lock(mutex);
  const fs::path file = moduleFolder() / HuewrightModuleFile;
  if (const auto at = loaded.find(file); at != loaded.end()) return at->second;
  const auto door = loadCameraModule(file);
  if (door) loaded[file] = *door;
  return door;
}

}  // namespace huewright
