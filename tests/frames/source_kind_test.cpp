#include "frames/source_kind.hpp"

#include <gtest/gtest.h>
#include <vector>

#include "support/temp_dir.hpp"

namespace huewright::frames {
namespace {

const std::vector<unsigned char> kSomeBytes{1, 2, 3};

TEST(SourceKind, PicturesAreNumberedAsPrintfDoes) {
  // C's fprintf, conversion d (ISO C17, 7.21.6.1).
  EXPECT_EQ(pictureNumbered("a_%d.png", 7), "a_7.png");
  EXPECT_EQ(pictureNumbered("a_%03d.png", 7), "a_007.png");
  EXPECT_EQ(pictureNumbered("a_%03d.png", 1234), "a_1234.png");
  EXPECT_EQ(pictureNumbered("a_%3d.png", 7), "a_  7.png");
  EXPECT_EQ(pictureNumbered("a_%s.png", 7), "a_%s.png");
  EXPECT_EQ(pictureNumbered("50%/a_%d.png", 7), "50%/a_7.png");
}

TEST(SourceKind, EachKindIsToldByItsName) {
  const fixtures::TempDir folder;
  folder.put("film.AVI", kSomeBytes);
  folder.put("film.mkv", kSomeBytes);
  folder.put("100%.avi", kSomeBytes);
  folder.put("p_1.png", kSomeBytes);
  struct Case {
    std::string name;
    SourceKind kind;
  };
  for (const Case& c : {Case{"film.AVI", SourceKind::Film}, Case{"film.mkv", SourceKind::Film}, Case{"100%.avi", SourceKind::Film}, Case{"p_%d.png", SourceKind::Pictures}}) {
    const auto named = sourceNamed((folder.path() / c.name).string());
    ASSERT_TRUE(named) << c.name << ": " << named.error();
    EXPECT_EQ(named->kind, c.kind) << c.name;
    EXPECT_TRUE(named->path.starts_with('/')) << named->path;
  }
}

TEST(SourceKind, WhatCannotBeUsedIsSaidInOneSentence) {
  const fixtures::TempDir folder;
  const std::string in = folder.path().string() + "/";
  folder.put("notes.txt", kSomeBytes);
  std::filesystem::create_directory(folder.path() / "folder.avi");
  struct Case {
    std::string name, said;
  };
  for (const Case& c : {Case{"983", "There is no camera \"/dev/video983\""}, Case{"/dev/no-such-camera", "There is no camera"}, Case{"/dev/shm", "is not a camera"},
                        Case{in + "none.avi", "There is no file"}, Case{in + "none.mkv", "There is no file"}, Case{in + "folder.avi", "is not a file"},
                        Case{in + "none_%03d.png", "There are no pictures"}, Case{in + "notes.txt", "neither a camera nor a film"}, Case{in + "%s.avi", "There is no file"},
                        Case{in + "%d%n.png", "neither a camera nor a film"}, Case{"rtsp://camera", "neither a camera nor a film"}, Case{"-1", "neither a camera nor a film"},
                        Case{"", "neither a camera nor a film"}, Case{"http://somewhere/film.mkv", "There is no file"}}) {
    const auto named = sourceNamed(c.name);
    ASSERT_FALSE(named) << c.name;
    EXPECT_NE(named.error().find(c.said), std::string::npos) << c.name << ": " << named.error();
    EXPECT_FALSE(named.error().ends_with('.')) << named.error();
  }
}

}  // namespace
}  // namespace huewright::frames
