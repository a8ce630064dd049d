#include "session/user_data.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <optional>
#include <string>

#include "support/temp_dir.hpp"

namespace huewright {
namespace {

/// Puts the two variables back as they were.
class UserData : public testing::Test {
 protected:
  struct Saved {
    const char* name;
    std::optional<std::string> value;
  };
  void SetUp() override {
    for (Saved& saved : saved_)
      if (const char* value = std::getenv(saved.name)) saved.value = value;
  }
  void TearDown() override {
    for (const Saved& saved : saved_) put(saved.name, saved.value ? saved.value->c_str() : nullptr);
  }
  static void put(const char* name, const char* value) {
    if (value) ::setenv(name, value, 1);
    else ::unsetenv(name);
  }
  Saved saved_[4]{{"XDG_DATA_HOME", {}}, {"HOME", {}}, {"XDG_PICTURES_DIR", {}}, {"XDG_CONFIG_HOME", {}}};
};

TEST_F(UserData, IsWhereXdgSaysElseInTheHomeFolder) {
  put("XDG_DATA_HOME", "/data");
  put("HOME", "/home/one");
  EXPECT_EQ(userDataFolder().value(), "/data/huewright");
  EXPECT_EQ(keptGreyPath().value(), "/data/huewright/grey.json");
  for (const char* no : {"", "relative/path"}) {  // XDG Base Directory Specification 0.8: empty counts as unset, relative ones are ignored
    put("XDG_DATA_HOME", no);
    EXPECT_EQ(userDataFolder().value(), "/home/one/.local/share/huewright");
  }
  put("XDG_DATA_HOME", nullptr);
  EXPECT_EQ(keptGreyPath().value(), "/home/one/.local/share/huewright/grey.json");
}

TEST_F(UserData, WithoutEitherThereIsNoPlace) {
  put("XDG_DATA_HOME", nullptr);
  for (const char* no : {static_cast<const char*>(nullptr), "", "here"}) {
    put("HOME", no);
    ASSERT_FALSE(userDataFolder());
    EXPECT_EQ(keptGreyPath().error().code, Code::NoUserFolder);
  }
}

TEST_F(UserData, StillsLieAmongThePictures) {
  const fixtures::TempDir home;
  put("HOME", home.path().c_str());
  put("XDG_CONFIG_HOME", nullptr);
  put("XDG_PICTURES_DIR", "/pictures");
  EXPECT_EQ(stillsPath().value(), "/pictures/huewright-stills");
  put("XDG_PICTURES_DIR", nullptr);
  EXPECT_EQ(stillsPath().value(), home.path() / "huewright-stills");
  std::filesystem::create_directory(home.path() / "Pictures");
  EXPECT_EQ(stillsPath().value(), home.path() / "Pictures/huewright-stills");
  std::filesystem::create_directory(home.path() / ".config");
  std::ofstream(home.path() / ".config/user-dirs.dirs") << "# places\nXDG_MUSIC_DIR=\"$HOME/Music\"\nXDG_PICTURES_DIR=\"$HOME/Photos\"\n";
  EXPECT_EQ(stillsPath().value(), home.path() / "Photos/huewright-stills");
  std::ofstream(home.path() / ".config/user-dirs.dirs") << "XDG_PICTURES_DIR=\"\"\n";
  EXPECT_EQ(stillsPath().value(), home.path() / "Pictures/huewright-stills");
  put("HOME", nullptr);
  EXPECT_EQ(stillsPath().error().code, Code::NoUserFolder);
}

}  // namespace
}  // namespace huewright
