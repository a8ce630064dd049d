// Made-up files that break each rule, and some that only look as if they did.
#include "shape/rules.hpp"

#include <gtest/gtest.h>

namespace huewright::shape {
namespace {

TEST(Rules, TableIsClosedAndHasNoCircle) {
  for (const auto& [room, uses] : allowedArrows())
    for (const std::string& use : uses) {
      ASSERT_TRUE(allowedArrows().contains(use)) << use;
      EXPECT_FALSE(reach(allowedArrows(), use).contains(room)) << room << " and " << use << " use each other";
    }
  EXPECT_EQ(reach(allowedArrows(), "base"), std::set<std::string>{"base"});
  EXPECT_TRUE(reach(allowedArrows(), "cli").contains("colour"));
}

TEST(Rules, SeesUpwardIncludes) {
  const auto look = [](const std::string& path, const std::string& text) { return upwardIncludes({path, text}, allowedArrows()).size(); };
  EXPECT_EQ(look("src/colour/lab.hpp", "#include \"judge/verdict.hpp\"\n"), 1U);
  EXPECT_EQ(look("src/colour/lab.hpp", "#include <judge/verdict.hpp>\n"), 1U);
  EXPECT_EQ(look("src/colour/lab.hpp", "  #  include\t\"photo/photo.hpp\"  // so\n"), 1U);
  EXPECT_EQ(look("src/scene/scene.hpp", "#include \"camera/patch.hpp\"\n"), 1U);
  EXPECT_EQ(look("src/drift/chart.hpp", "#include \"colour/lab.hpp\"\n"), 1U);
  EXPECT_EQ(look("src/paper/sheet.hpp", "#include \"book/book.hpp\"\n"), 1U);
  EXPECT_EQ(look("src/cli/run.cpp", "#include \"desk/window.hpp\"\n"), 1U);
  EXPECT_EQ(look("src/base/limits.hpp", "#include \"opencv2/core.hpp\"\n"), 1U);
  EXPECT_EQ(look("src/base/limits.hpp", "#include LIMITS\n"), 1U);
  EXPECT_EQ(look("src/attic/old.hpp", ""), 1U);

  EXPECT_EQ(look("src/judge/verdict.hpp", "#include \"judge/words.hpp\"\n#include \"base/problem.hpp\"\n#include <string>\n"), 0U);
  EXPECT_EQ(look("src/colour/lab.hpp", "// #include \"judge/verdict.hpp\"\n/*\n#include \"judge/verdict.hpp\"\n*/\n"), 0U);
}

TEST(Rules, SeesThirdPartyHeaders) {
  const auto look = [](const std::string& path, const std::string& text) { return strangersInHeader({path, text}).size(); };
  for (const char* name : {"opencv2/core.hpp", "lcms2.h", "png.h", "tiffio.h", "jpeglib.h", "nlohmann/json.hpp", "CLI/CLI.hpp", "fmt/format.h",
                           "Eigen/Dense", "libheif/heif.h", "libexif/exif-data.h"})
    EXPECT_EQ(look("src/photo/photo.hpp", "#include <" + std::string(name) + ">\n"), 1U) << name;
  EXPECT_EQ(look("src/photo/photo.hpp", "#include <expected>\n#include <vector>\n#include <unistd.h>\n#include <sys/stat.h>\n"), 0U);
  EXPECT_EQ(look("src/photo/png.cpp", "#include <png.h>\n"), 0U);
}

TEST(Rules, SeesPrintingAndExiting) {
  const auto look = [](const std::string& text) { return printsOrExits({"src/judge/verdict.cpp", text}).size(); };
  for (const char* text : {"std::cout << 1;", "std::cerr << 1;", "std::printf(\"%d\", 1);", "puts (\"x\");", "std::exit(1);", "::abort();", "_exit(3);",
                           "std::fputs(\"x\", stdout);", "fprintf(stderr, \"x\");", "fmt::print(\"x\");", "write(STDOUT_FILENO, p, 1);", "std::terminate();"})
    EXPECT_EQ(look(text), 1U) << text;
  for (const char* text : {"// std::cout, exit(1)", "/* abort() */", "say(\"exit(1) on stdout\");", "outcome.exit = 1;", "run.exit();", "that->exit();",
                           "std::snprintf(b, n, \"%d\", 1);", "int exit_code = exitCode(c);", "const auto n = 1'000'000; // exit(1)", "R\"(exit(1))\";"})
    EXPECT_EQ(look(text), 0U) << text;
  EXPECT_EQ(printsOrExits({"src/cli/main.cpp", "std::exit(1);"}).size(), 0U);
}

TEST(Rules, SeesTheVideoLibraryElsewhere) {
  for (const char* name : {"<opencv2/videoio.hpp>", "<opencv2/videoio/videoio.hpp>", "<opencv2/opencv.hpp>", "\"frames/video_source.hpp\""}) {
    EXPECT_EQ(videoElsewhere({"src/capture/camera.cpp", "#include " + std::string(name) + "\n"}).size(), 1U) << name;
    EXPECT_EQ(videoElsewhere({"src/frames/door.cpp", "#include " + std::string(name) + "\n"}).size(), 0U) << name;
  }
  EXPECT_EQ(videoElsewhere({"src/scene/scene.cpp", "#include <opencv2/imgproc.hpp>\n"}).size(), 0U);
}

TEST(Rules, SeesTheOptionParserElsewhere) {
  EXPECT_EQ(parserElsewhere({"src/cli/run.cpp", "#include <CLI/CLI.hpp>\n"}).size(), 1U);
  EXPECT_EQ(parserElsewhere({"src/cli/arguments.cpp", "#include <CLI/CLI.hpp>\n"}).size(), 0U);
}

TEST(Rules, SeesCMakeThatDisagrees) {
  const std::map<std::string, std::string> cmake{
      {"base", "huewright_room(base)"},
      {"colour", "huewright_room(colour USES base LIBRARIES fmt::fmt)"},
      {"photo", "huewright_room(photo USES colour)"},
      {"camera", "# huewright_room(camera USES photo)\nhuewright_room(camera USES base)"},
      {"scene", "huewright_room(scene USES photo judge)"},
      {"cli", "add_library(cli STATIC run.cpp)\ntarget_link_libraries(cli PUBLIC photo PRIVATE CLI11::CLI11)"}};
  const auto look = [&](const std::string& room, const std::vector<SourceFile>& files) {
    return cmakeDisagrees(room, cmake, files, allowedArrows()).size();
  };
  EXPECT_EQ(look("scene", {}), 1U);                                                               // upward
  EXPECT_EQ(look("judge", {}), 1U);                                                               // no CMakeLists.txt
  EXPECT_EQ(look("camera", {{"src/camera/light.hpp", "#include \"photo/photo.hpp\"\n"}}), 1U);    // not told
  EXPECT_EQ(look("photo", {{"src/photo/photo.hpp", "#include \"base/problem.hpp\"\n"}}), 0U);     // through colour
  EXPECT_EQ(look("cli", {{"src/cli/run.cpp", "#include \"colour/lab.hpp\"\n#include \"cli/run.hpp\"\n"}}), 0U);
}

TEST(Rules, SeesSourceFilesWithoutTest) {
  const std::string source = "src/photo/jpeg.cpp";
  EXPECT_EQ(withoutTest({source}).size(), 1U);
  EXPECT_EQ(withoutTest({source, "tests/photo/jpg_test.cpp", "tests/camera/jpeg_test.cpp", "tests/photo/jpeg.cpp"}).size(), 1U);
  EXPECT_EQ(withoutTest({source, "src/photo/jpeg_reader.cpp", "tests/photo/jpeg_reader_test.cpp"}).size(), 1U);
  EXPECT_EQ(withoutTest({source, "tests/photo/jpeg_test.cpp"}).size(), 0U);
  EXPECT_EQ(withoutTest({source, "tests/photo/jpeg_odd_test.cpp"}).size(), 0U);
  EXPECT_EQ(withoutTest({"src/cli/main.cpp", "src/photo/photo.hpp", "tests/photo/photo_test.cpp"}).size(), 0U);
}

}  // namespace
}  // namespace huewright::shape
