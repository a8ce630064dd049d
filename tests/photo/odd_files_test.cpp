// Picture files of other people's making, kept beside the project: ../shared/odd-files. Skipped where they are absent.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <set>

#include "colour/lab.hpp"
#include "colour/rgb.hpp"
#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

const std::filesystem::path kFolder = std::filesystem::path(HUEWRIGHT_SOURCE_DIR) / ".." / "shared" / "odd-files";

#define SKIP_IF_ABSENT() \
  if (!std::filesystem::is_directory(kFolder)) GTEST_SKIP() << "skipped: no ../shared"

struct Expected {
  const char* file;
  const char* opening;
  const char* reading;  // of everything
  Size size;
  const char* encoding;
};

constexpr Expected kExpected[] = {
    {"16_bit_noise.tif", "photo-one-channel", "", {}, ""},
    {"16bit.png", "ok", "ok", {900, 600}, "sRGB"},
    {"65536_uint32_limit.png", "photo-too-large", "", {}, ""},
    {"Landscape_1.jpg", "ok", "ok", {1800, 1200}, "sRGB (assumed)"},
    {"Landscape_6.jpg", "ok", "ok", {1800, 1200}, "sRGB (assumed)"},
    {"Landscape_8.jpg", "ok", "ok", {1800, 1200}, "sRGB (assumed)"},
    {"P3-sRGB-color-ring.jpg", "ok", "ok", {1000, 1000}, "DCI-P3-D65-2_2-Gamma"},
    {"RGB_10.heif", "ok", "ok", {128, 128}, "sRGB (assumed)"},
    {"arrow.heic", "ok", "ok", {3024, 4032}, "Display P3"},
    {"broken_data_stream.png", "photo-corrupt", "", {}, ""},
    {"corrupt_header.jpg", "photo-truncated", "", {}, ""},
    {"corrupted.heic", "photo-corrupt", "", {}, ""},
    {"icc_profile_big.jpg", "ok", "ok", {425, 250}, "TIFF RGB"},
    {"invalid_illuminant.icc", "format-unknown", "", {}, ""},
    {"metadata-only.dng", "photo-empty", "", {}, ""},
    {"p3.png", "ok", "ok", {8, 8}, "Display P3"},
    {"portrait.Lab.tif", "photo-lab", "", {}, ""},
    {"portrait_bad_exif.jpg", "photo-one-channel", "", {}, ""},
    {"portrait_gray.jpg", "photo-one-channel", "", {}, ""},
    {"prophoto.png", "ok", "ok", {1, 1}, "ProPhoto RGB"},
    {"rgb-to-gbr-test.jpg", "ok", "ok", {1000, 1000}, "RGB-to-GBR"},
    {"sample_cmyk.jpg", "photo-cmyk", "", {}, ""},
    {"truncated.heic", "photo-truncated", "", {}, ""},
    {"truncated.jpg", "ok", "photo-truncated", {2725, 2225}, "sRGB (assumed)"},
    {"truncated_image.png", "photo-truncated", "", {}, ""},
    {"truncated_jpeg.jpg", "ok", "photo-truncated", {100, 100}, "sRGB (assumed)"},
};

Lab<D50> labAt(Photo& photo, int x, int y) {
  const Raster raster = read(photo, {x - 5, y - 5, 10, 10});
  std::array<double, 3> sum{};
  for (std::size_t i = 0; i < raster.xyz.size(); ++i) sum[i % 3] += raster.xyz[i] / 100;
  return toLab(Xyz<D50>{sum[0], sum[1], sum[2]});
}

TEST(OddFiles, eachAnswersAsItShould) {
  SKIP_IF_ABSENT();
  for (const Expected& row : kExpected) {
    auto photo = Photo::open(kFolder / row.file);
    EXPECT_EQ(outcome(photo), row.opening) << row.file;
    if (!photo) continue;
    EXPECT_EQ(photo->size(), row.size) << row.file;
    EXPECT_EQ(photo->facts().encoding, row.encoding) << row.file;
    EXPECT_EQ(photo->facts().tagged, !photo->facts().encoding.ends_with("(assumed)")) << row.file;
    EXPECT_EQ(outcome(photo->preview(64)), row.reading) << row.file;
    // The middle part only, so that the large ones take no time; a cut below it is seen all the same.
    const Rect part{row.size.width / 3, row.size.height / 3, (row.size.width + 3) / 4, (row.size.height + 3) / 4};
    EXPECT_EQ(outcome(photo->pixels(std::span(&part, 1))), row.reading) << row.file;
  }
}

TEST(OddFiles, theTableHoldsEveryFile) {
  SKIP_IF_ABSENT();
  std::set<std::string> known;
  for (const Expected& row : kExpected) known.insert(row.file);
  for (const auto& entry : std::filesystem::directory_iterator(kFolder))
    EXPECT_TRUE(known.contains(entry.path().filename().string())) << entry.path();
}

TEST(OddFiles, theSwappedChannelsAreSwappedBack) {
  SKIP_IF_ABSENT();
  auto photo = Photo::open(kFolder / "rgb-to-gbr-test.jpg");
  ASSERT_TRUE(photo);
  // The picture is a ring of hues with their names written in it, right only when the embedded profile is obeyed: red above,
  // blue at the lower right, green at the lower left.
  struct Row {
    int x, y;
    double hue, tolerance;  // CIELAB degrees of the sRGB primaries, D50: red 41, green 137, blue 301; and what lies between
  };
  for (const Row& row : {Row{500, 30, 41, 15}, Row{960, 800, 301, 25}, Row{60, 700, 137, 15}, Row{500, 960, 196, 25}}) {
    const Lab<D50> lab = labAt(*photo, row.x, row.y);
    const double apart = std::remainder(hueDegrees(toVec(lab)) - row.hue, 360.0);
    EXPECT_LT(std::abs(apart), row.tolerance) << row.x << "," << row.y << ": hue " << hueDegrees(toVec(lab));
    EXPECT_GT(chroma(toVec(lab)), 35);
  }
  // Without the profile, the upper middle is blue, not red.
  auto ignored = Photo::open(kFolder / "rgb-to-gbr-test.jpg", {}, Encoding::Srgb);
  ASSERT_TRUE(ignored);
  EXPECT_NEAR(hueDegrees(toVec(labAt(*ignored, 500, 30))), 301, 15);
}

TEST(OddFiles, turnedPicturesShowTheSame) {
  SKIP_IF_ABSENT();
  auto plain = Photo::open(kFolder / "Landscape_1.jpg");
  for (const char* file : {"Landscape_6.jpg", "Landscape_8.jpg"}) {
    auto turned = Photo::open(kFolder / file);
    // Away from the number that is written in the middle.
    for (const auto& [x, y] : {std::pair{100, 80}, {1700, 100}, {1500, 700}, {200, 1100}, {1650, 1080}}) {
      const Lab<D50> a = labAt(*plain, x, y), b = labAt(*turned, x, y);
      EXPECT_NEAR(a.L, b.L, 4) << file << x << "," << y;
      EXPECT_NEAR(a.a, b.a, 4) << file;
      EXPECT_NEAR(a.b, b.b, 4) << file;
    }
  }
}

TEST(OddFiles, wideGamutColoursComeOutAsPublished) {
  SKIP_IF_ABSENT();
  // The corner of p3.png has the codes 255, 0, 0: the red primary of Display P3 (SMPTE EG 432-1 with a D65 white).
  auto p3 = Photo::open(kFolder / "p3.png");
  const Vec3 red = rgbToXyzD50(kP3D65Primaries) * Vec3{1, 0, 0};
  expectNear(xyzAt(readWhole(*p3), 7, 0), {red[0], red[1], red[2]}, 1e-4, "P3 red");
}

TEST(OddFiles, cameraFacts) {
  SKIP_IF_ABSENT();
  const auto arrow = Photo::open(kFolder / "arrow.heic");
  EXPECT_TRUE(arrow->facts().camera_data);
  EXPECT_EQ(arrow->facts().software, "11.4.1");
  EXPECT_EQ(Photo::open(kFolder / "RGB_10.heif")->facts().bits, 10);
  EXPECT_EQ(Photo::open(kFolder / "16bit.png")->facts().bits, 16);
}

}  // namespace
}  // namespace huewright
