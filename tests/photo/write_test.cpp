#include "photo/write.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

std::string contentOf(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::size_t filesIn(const std::filesystem::path& folder) {
  return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder), {}));
}

TEST(Write, putsAWholeFileInPlace) {
  const TempDir folder;
  const auto path = folder.path() / "out.json";
  const std::string text("a\0b\n", 4);
  ASSERT_TRUE(writeWhole(path, text));
  EXPECT_EQ(contentOf(path), text);
  ASSERT_TRUE(writeWhole(path, "second"));
  EXPECT_EQ(contentOf(path), "second");
  ASSERT_TRUE(writeWhole(path, ""));
  EXPECT_EQ(contentOf(path), "");
  EXPECT_EQ(filesIn(folder.path()), 1U) << "no temporary file is left";
}

TEST(Write, rightsFollowTheUsersMask) {
  const TempDir folder;
  const mode_t before = ::umask(027);
  const bool written = writeWhole(folder.path() / "a", "x").has_value();
  ::umask(before);
  ASSERT_TRUE(written);
  struct stat info {};
  ASSERT_EQ(::stat((folder.path() / "a").c_str(), &info), 0);
  EXPECT_EQ(info.st_mode & 0777, 0640U);
}

TEST(Write, aLinkStaysALink) {
  const TempDir folder;
  const auto target = folder.put("target", Bytes{1}), link = folder.path() / "link";
  std::filesystem::create_symlink("target", link);
  ASSERT_TRUE(writeWhole(link, "new"));
  EXPECT_TRUE(std::filesystem::is_symlink(link));
  EXPECT_EQ(contentOf(target), "new");
}

TEST(Write, failuresLeaveNothingBehind) {
  const TempDir folder;
  std::filesystem::create_directory(folder.path() / "folder");
  ASSERT_EQ(::mkfifo((folder.path() / "pipe").c_str(), 0600), 0);
  for (const auto& path : {folder.path() / "none" / "a", folder.path() / "folder", folder.path() / "pipe", folder.path() / "",
                           folder.path() / std::string(300, 'x'), std::filesystem::path("/dev/full"), std::filesystem::path("/proc/a")}) {
    const auto written = writeWhole(path, "text");
    ASSERT_FALSE(written) << path;
    EXPECT_EQ(written.error().code, Code::WriteFailed);
    EXPECT_EQ(written.error().detail, path.string());
  }
  EXPECT_EQ(filesIn(folder.path()), 2U);
  EXPECT_TRUE(std::filesystem::is_character_file("/dev/full"));
}

TEST(Write, pngComesBackAsItWas) {
  const TempDir folder;
  const Picture picture = pattern({31, 17});
  const std::vector<std::uint8_t> rgb(picture.rgb.begin(), picture.rgb.end());
  const auto path = folder.path() / "out.png";
  ASSERT_TRUE(writePng(path, picture.size, rgb));
  auto photo = Photo::open(path);
  ASSERT_TRUE(photo);
  EXPECT_TRUE(photo->facts().tagged);
  EXPECT_EQ(photo->facts().encoding, "sRGB");
  expectPicture(readWhole(*photo), picture, 255, srgbProfile(), 5e-5, 1, "written");
  EXPECT_EQ(outcome(writePng(path, {3, 3}, rgb)), "internal");
  EXPECT_EQ(outcome(writePng(path, {0, 0}, {})), "internal");
}

TEST(WriteStill, SaysThatItIsOneAndNothingOfItsColours) {
  const fixtures::TempDir folder;
  const auto path = folder.path() / "still.png";
  const std::vector<std::uint8_t> rgb{10, 20, 30, 200, 210, 220};
  ASSERT_TRUE(writeStill(path, {2, 1}, rgb));
  auto photo = Photo::open(path);
  ASSERT_TRUE(photo) << sentence(photo.error());
  EXPECT_FALSE(photo->facts().tagged);
  EXPECT_TRUE(photo->traces().live);
  EXPECT_EQ(photo->preview(10)->rgb, rgb);
  EXPECT_FALSE(photo->facts().rounding);
  ASSERT_TRUE(writeStill(path, {2, 1}, rgb, {Vec3{1, 1.125, 1.125}, true}));
  photo = Photo::open(path);
  ASSERT_TRUE(photo) << sentence(photo.error());
  EXPECT_EQ(photo->facts().rounding, (Vec3{1, 1.125, 1.125}));
  EXPECT_TRUE(photo->facts().chroma_subsampled);
  ASSERT_TRUE(writePng(path, {2, 1}, rgb));
  EXPECT_FALSE(Photo::open(path)->traces().live);
  EXPECT_EQ(writeStill(path, {2, 2}, rgb).error().code, Code::Internal);
}

}  // namespace
}  // namespace huewright
