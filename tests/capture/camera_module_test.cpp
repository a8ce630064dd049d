#include "capture/camera_module.hpp"

#include <cstdlib>
#include <gtest/gtest.h>

#include "capture/camera.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

TEST(CameraModule, OneThatIsMissingIsSaidWithWhatToDo) {
  const fixtures::TempDir folder;
  const auto door = loadCameraModule(folder.path() / HuewrightModuleFile);
  ASSERT_FALSE(door);
  EXPECT_EQ(door.error().code, Code::ModuleMissing);
  EXPECT_EQ(exitCode(door.error().code), 5);
  const std::string said = sentence(door.error());
  EXPECT_NE(said.find("libopencv-videoio-dev"), std::string::npos) << said;
  EXPECT_TRUE(said.starts_with("This Huewright was built without cameras")) << said;
}

TEST(CameraModule, OneThatIsNoneIsSaid) {
  const fixtures::TempDir folder;
  const auto door = loadCameraModule(folder.put(HuewrightModuleFile, std::vector<unsigned char>(100, 'x')));
  ASSERT_FALSE(door);
  EXPECT_EQ(door.error().code, Code::ModuleMissing);
  EXPECT_NE(sentence(door.error()).find("cannot be loaded"), std::string::npos) << sentence(door.error());
}

TEST(CameraModule, AnotherLibraryIsNoModule) {
  std::filesystem::path other;
  for (const char* folder : {"/lib/x86_64-linux-gnu", "/lib/aarch64-linux-gnu", "/lib64", "/usr/lib"})
    if (other.empty() && std::filesystem::exists(std::filesystem::path(folder) / "libpng16.so.16")) other = std::filesystem::path(folder) / "libpng16.so.16";
  if (other.empty()) GTEST_SKIP() << "libpng lies elsewhere on this machine";
  const auto door = loadCameraModule(other);
  ASSERT_FALSE(door);
  EXPECT_NE(sentence(door.error()).find("another version"), std::string::npos) << sentence(door.error());
}

TEST(CameraModule, AMissingLibraryIsNamedWithItsPackage) {
  EXPECT_EQ(whyNotLoaded("m.so", "libopencv_videoio.so.406: cannot open shared object file: No such file or directory"),
            "Cameras and films need the library libopencv_videoio.so.406, which is not installed. Install it, on Debian by: apt install libopencv-videoio406");
  EXPECT_EQ(whyNotLoaded("m.so", "libother.so.1: cannot open shared object file: No such file or directory"),
            "Cameras and films need the library libother.so.1, which is not installed. Install it");
  EXPECT_NE(whyNotLoaded("m.so", "m.so: undefined symbol: x").find("undefined symbol: x"), std::string::npos);
}

TEST(CameraModule, TheFolderCanBeTold) {
  const fixtures::TempDir folder;
  const char* before = std::getenv("HUEWRIGHT_MODULES");
  const std::string kept = before != nullptr ? before : "";
  ::setenv("HUEWRIGHT_MODULES", folder.path().c_str(), 1);
  const auto camera = openCamera("0");
  if (before != nullptr) ::setenv("HUEWRIGHT_MODULES", kept.c_str(), 1);
  else ::unsetenv("HUEWRIGHT_MODULES");
  ASSERT_FALSE(camera);
  EXPECT_EQ(camera.error().code, Code::ModuleMissing);
  EXPECT_NE(camera.error().detail.find(folder.path().string()), std::string::npos) << camera.error().detail;
}

}  // namespace
}  // namespace huewright
