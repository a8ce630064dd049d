#include "session/user_data.hpp"

#include <cstdlib>
#include <gtest/gtest.h>
#include <optional>
#include <string>

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
  Saved saved_[2]{{"XDG_DATA_HOME", {}}, {"HOME", {}}};
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

}  // namespace
}  // namespace huewright
