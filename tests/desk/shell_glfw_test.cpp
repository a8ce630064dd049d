#include <gtest/gtest.h>

#include <cstdlib>

#include "desk/shell.hpp"

namespace huewright::desk {
namespace {

TEST(Shell, WithoutADisplayItSaysSo) {
  const char* display = std::getenv("DISPLAY");
  const std::string kept = display ? display : "";
  ::unsetenv("DISPLAY");
  ::unsetenv("WAYLAND_DISPLAY");
  const auto shell = Shell::open("Huewright", 640, 480);
  if (display) ::setenv("DISPLAY", kept.c_str(), 1);
  ASSERT_FALSE(shell);
  EXPECT_EQ(shell.error().code, Code::NoWindow);
  EXPECT_EQ(exitCode(shell.error().code), 5);
}

}  // namespace
}  // namespace huewright::desk
