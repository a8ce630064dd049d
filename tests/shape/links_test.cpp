// What the built program pulls in when it starts.
#include <algorithm>
#include <array>
#include <gtest/gtest.h>
#include <iostream>
#include <set>
#include <sstream>

#include "shape/command.hpp"

namespace huewright::shape {
namespace {

// Reading pictures through OpenCV or opening windows would pull in over a hundred libraries and double the start time.
constexpr std::array kUnwanted{"libopencv_imgcodecs", "libopencv_videoio", "libopencv_highgui", "libGL.", "libEGL", "libglfw"};  // OpenCV's core itself brings libGLX and libOpenGL

/// Names at the start of each line that ldd prints, such as "libjpeg.so.62".
std::set<std::string> librariesIn(const std::string& ldd) {
  std::set<std::string> names;
  std::istringstream lines(ldd);
  for (std::string line; std::getline(lines, line);) {
    std::istringstream words(line);
    if (std::string name; words >> name) names.insert(name.substr(name.rfind('/') + 1));
  }
  return names;
}

std::set<std::string> unwantedIn(const std::set<std::string>& libraries) {
  std::set<std::string> found;
  for (const std::string& library : libraries)
    if (std::ranges::any_of(kUnwanted, [&](const char* name) { return library.starts_with(name); })) found.insert(library);
  return found;
}

TEST(Links, UnwantedLibrariesAreSeen) {
  const auto libraries = librariesIn("\tlinux-vdso.so.1 (0x1)\n\tlibjpeg.so.62 => /lib/libjpeg.so.62 (0x2)\n\tlibGL.so.1 => /lib/libGL.so.1 (0x3)\n"
                                     "\tlibopencv_imgcodecs.so.406 => not found\n\t/lib64/ld-linux-x86-64.so.2 (0x4)\n");
  EXPECT_EQ(libraries.size(), 5U);
  EXPECT_TRUE(libraries.contains("ld-linux-x86-64.so.2"));
  EXPECT_EQ(unwantedIn(libraries), (std::set<std::string>{"libGL.so.1", "libopencv_imgcodecs.so.406"}));
}

TEST(Links, ProgramPullsInNothingUnwanted) {
  const Ran ran = runShell("LC_ALL=C ldd '" HUEWRIGHT_PROGRAM "'");
  ASSERT_EQ(ran.exit, 0) << ran.err;
  EXPECT_EQ(ran.out.find("not found"), std::string::npos) << ran.out;
  const auto libraries = librariesIn(ran.out);
  std::cout << "huewright is linked with " << libraries.size() << " libraries, directly and through others.\n";
  EXPECT_GT(libraries.size(), 3U) << ran.out;
  for (const std::string& library : unwantedIn(libraries)) ADD_FAILURE() << "huewright pulls in " << library;
}

}  // namespace
}  // namespace huewright::shape
