#include <gtest/gtest.h>
#include <libraw/libraw.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <functional>
#include <memory>

#include "colour/rgb.hpp"
#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

const std::filesystem::path kShared = std::filesystem::path(HUEWRIGHT_SOURCE_DIR) / ".." / "shared";

constexpr Size kSize{40, 32};
constexpr int kBlack = 512, kFull = 15871;

/// Codes by row, column and sample.
std::vector<std::uint16_t> codes(Size size, const std::function<double(int, int, int)>& code, int samples = 1) {
  std::vector<std::uint16_t> all;
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x)
      for (int c = 0; c < samples; ++c) all.push_back(static_cast<std::uint16_t>(std::lround(code(y, x, c))));
  return all;
}

/// Different everywhere, and never at an end of the range.
double slope(int y, int x, int = 0) { return kBlack + 200 + 37 * x + 151 * y + (x * y) % 7; }

/// A flat picture: camera R, G, B as shares of saturation.
std::vector<std::uint16_t> flatCodes(Vec3 rgb) {
  return codes(kSize, [rgb](int y, int x, int) {
    const std::size_t colour = y % 2 == 0 ? (x % 2 == 0 ? 0 : 1) : (x % 2 == 0 ? 1 : 2);
    return kBlack + rgb[colour] * (kFull - kBlack);
  });
}

double share(double code) { return (code - kBlack) / (kFull - kBlack); }

/// What the cell of a stored pixel must hold under red, green / green, blue.
std::array<double, 3> cellAt(int y, int x) {
  const int r = y / 2 * 2, c = x / 2 * 2;
  return {share(slope(r, c)), (share(slope(r, c + 1)) + share(slope(r + 1, c))) / 2, share(slope(r + 1, c + 1))};
}

TEST(Raw, cellsHoldTheirOwnLight) {
  const TempDir folder;
  for (const bool big : {false, true})
    for (const bool below : {false, true}) {
      auto photo = openBytes(folder, "x", dng(kSize, codes(kSize, slope), {.big_endian = big, .rows_per_strip = 5, .below = below}));
      ASSERT_TRUE(photo) << sentence(photo.error());
      ASSERT_EQ(photo->size(), kSize);
      for (int round = 0; round < 2; ++round) {
        const Raster whole = readWhole(*photo), part = read(*photo, {7, 5, 12, 9});
        for (int y = 0; y < kSize.height; ++y)
          for (int x = 0; x < kSize.width; ++x) {
            expectNear(xyzAt(whole, x, y), cellAt(y, x), 1e-6, std::to_string(x) + "," + std::to_string(y));
            if (x >= 7 && x < 19 && y >= 5 && y < 14) expectNear(xyzAt(part, x, y), cellAt(y, x), 1e-6, "part");
          }
        EXPECT_EQ(std::count(whole.clip.begin(), whole.clip.end(), 0), kSize.width * kSize.height);
      }
    }
}

TEST(Raw, compressedDataComesOutTheSame) {
  const TempDir folder;
  const Bytes whole = dng(kSize, codes(kSize, slope), {.compressed = true});
  auto photo = openBytes(folder, "x", whole);
  ASSERT_TRUE(photo) << sentence(photo.error());
  const Raster raster = readWhole(*photo);
  for (int y = 0; y < kSize.height; ++y)
    for (int x = 0; x < kSize.width; ++x) expectNear(xyzAt(raster, x, y), cellAt(y, x), 1e-6, std::to_string(x) + "," + std::to_string(y));
  for (std::size_t length = 16; length < whole.size(); length += 29) {
    const Bytes cut(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length));
    EXPECT_EQ(outcome(openBytes(folder, "x", cut)), "photo-truncated") << length;
  }
}

TEST(Raw, aTailOfZerosIsNeverHandedOut) {
  const TempDir folder;
  for (const bool compressed : {false, true})
    for (const bool linear : {false, true}) {
      if (compressed && linear) continue;
      const Bytes whole = dng(kSize, codes(kSize, slope, linear ? 3 : 1), {.linear = linear, .compressed = compressed});
      for (const double keep : {0.4, 0.6, 0.9}) {
        Bytes damaged = whole;
        std::fill(damaged.begin() + static_cast<std::ptrdiff_t>(keep * double(whole.size())), damaged.end(), std::uint8_t{0});
        EXPECT_EQ(outcomeOfReading(openBytes(folder, "x", damaged)), "photo-truncated") << compressed << linear << keep;
      }
    }
}

TEST(Raw, orientationIsUndone) {
  const TempDir folder;
  for (int orientation = 1; orientation <= 8; ++orientation) {
    auto photo = openBytes(folder, "x", dng(kSize, codes(kSize, slope), {.orientation = orientation}));
    ASSERT_TRUE(photo);
    EXPECT_EQ(photo->facts().orientation, orientation);
    // A picture whose codes are the places, turned by the fixtures' own table.
    Picture places = flat(kSize, {});
    for (int y = 0; y < kSize.height; ++y)
      for (int x = 0; x < kSize.width; ++x) places.at(x, y)[0] = std::uint16_t(x), places.at(x, y)[1] = std::uint16_t(y);
    const Picture want = upright(places, orientation);
    ASSERT_EQ(photo->size(), want.size);
    const Raster raster = readWhole(*photo);
    for (int y = 0; y < want.size.height; ++y)
      for (int x = 0; x < want.size.width; ++x)
        expectNear(xyzAt(raster, x, y), cellAt(want.at(x, y)[1], want.at(x, y)[0]), 1e-6, std::to_string(orientation));
  }
}

TEST(Raw, marginsAndOddEdges) {
  const TempDir folder;
  // The pattern begins at the visible part (DNG 1.6, CFAPattern), in row 3 and column 2. The library leaves out a first row with an
  // odd number, so that the picture begins with row 4 and green, blue / red, green; its last column and row are no whole cells.
  auto photo = openBytes(folder, "x", dng(kSize, codes(kSize, slope), {.active = {3, 2, 31, 39}}));
  ASSERT_TRUE(photo) << sentence(photo.error());
  ASSERT_EQ(photo->size(), (Size{37, 27}));
  const Raster raster = readWhole(*photo);
  for (int y = 0; y < 27; ++y)
    for (int x = 0; x < 37; ++x) {
      const int r = 4 + std::min(y, 25) / 2 * 2, c = 2 + std::min(x, 35) / 2 * 2;
      const std::array<double, 3> want{share(slope(r + 1, c)), (share(slope(r, c)) + share(slope(r + 1, c + 1))) / 2, share(slope(r, c + 1))};
      expectNear(xyzAt(raster, x, y), want, 1e-6, std::to_string(x) + "," + std::to_string(y));
    }
  const auto preview = photo->preview(20);
  ASSERT_TRUE(preview);
  EXPECT_EQ(preview->size.width, 20);
}

TEST(Raw, clippingIsJudgedOnStoredCodes) {
  const TempDir folder;
  struct Row {
    int y, x;
    int code;
    int bits;  // of the whole cell
  };
  const int almost = kBlack + (kFull - kBlack) * 253 / 255;
  const Row rows[] = {{4, 4, kFull, 1},       {8, 9, kFull, 2},         {13, 8, kFull + 300, 2}, {17, 21, kFull, 4},
                      {20, 4, kBlack, 8},      {24, 9, 0, 16},            {27, 21, 300, 32},        {2, 30, almost + 2, 1},
                      {6, 30, almost - 20, 0}, {10, 30, kBlack + 1, 0}, {28, 9, kBlack - 9, 0}};
  auto all = codes(kSize, [](int, int, int) { return 5000; });
  for (const Row& row : rows) all[std::size_t(row.y * kSize.width + row.x)] = static_cast<std::uint16_t>(row.code);
  auto photo = openBytes(folder, "x", dng(kSize, all));
  ASSERT_TRUE(photo);
  const Raster raster = readWhole(*photo);
  std::vector<std::uint8_t> want(raster.clip.size());
  for (const Row& row : rows)
    for (int k = 0; k < 4; ++k)
      want[std::size_t((row.y / 2 * 2 + k / 2) * kSize.width + row.x / 2 * 2 + k % 2)] |= static_cast<std::uint8_t>(row.bits);
  EXPECT_EQ(raster.clip, want);
  EXPECT_NEAR(xyzAt(raster, 21, 27)[2], share(300), 1e-6) << "below black is negative, not cut off";
  EXPECT_GT(xyzAt(raster, 8, 13)[1], xyzAt(raster, 9, 9)[1]);
}

TEST(Raw, blackOfEachPlaceInThePattern) {
  const TempDir folder;
  const std::array<double, 4> black{400, 500, 600, 700};
  const auto all = codes(kSize, [&](int y, int x, int) { return black[std::size_t(y % 2 * 2 + x % 2)] + 3000; });
  auto photo = openBytes(folder, "x", dng(kSize, all, {.blacks = {400, 500, 600, 700}}));
  ASSERT_TRUE(photo);
  const auto got = xyzAt(readWhole(*photo), 11, 11);
  const auto range = [&](int i) { return 3000 / (kFull - black[std::size_t(i)]); };
  expectNear(got, {range(0), (range(1) + range(2)) / 2, range(3)}, 1e-6, "black");
}

TEST(Raw, withoutAWhiteLevelTheBitsCount) {
  const TempDir folder;
  auto photo = openBytes(folder, "x", dng(kSize, codes(kSize, slope), {.white = 0}));
  ASSERT_TRUE(photo);
  EXPECT_EQ(photo->facts().bits, 16);  // DNG 1.6, WhiteLevel: 2^bits − 1
  EXPECT_NEAR(xyzAt(readWhole(*photo), 10, 10)[0], (slope(10, 10) - kBlack) / (65535.0 - kBlack), 1e-6);
}

TEST(Raw, threeChannelsAreTakenAsTheyAre) {
  const TempDir folder;
  const auto code = [](int y, int x, int c) { return slope(y, x) + 900 * c; };
  auto photo = openBytes(folder, "x", dng(kSize, codes(kSize, code, 3), {.linear = true}));
  ASSERT_TRUE(photo) << sentence(photo.error());
  const Raster raster = readWhole(*photo);
  for (int y = 0; y < kSize.height; ++y)
    for (int x = 0; x < kSize.width; ++x)
      expectNear(xyzAt(raster, x, y), {share(code(y, x, 0)), share(code(y, x, 1)), share(code(y, x, 2))}, 1e-6, std::to_string(x));
  EXPECT_TRUE(photo->facts().camera_rgb);
  EXPECT_TRUE(photo->preview(20));
}

TEST(Raw, sixBySixPattern) {
  const TempDir folder;
  // The published pattern: in each 3×3 square two reds, two blues, five greens.
  const std::string pattern = "GBGGRG" "RGRBGB" "GBGGRG" "GRGGBG" "BGBRGR" "GRGGBG";
  std::vector<std::uint8_t> filters;
  for (const char c : pattern) filters.push_back(c == 'R' ? 0 : c == 'G' ? 1 : 2);
  auto photo = openBytes(folder, "x", dng(kSize, codes(kSize, slope), {.filters = filters}));
  ASSERT_TRUE(photo) << sentence(photo.error());
  const Raster raster = readWhole(*photo);
  for (int y = 0; y < 30; ++y)
    for (int x = 0; x < 39; ++x) {
      std::array<double, 3> sum{}, count{};
      for (int r = y / 3 * 3; r < y / 3 * 3 + 3; ++r)
        for (int c = x / 3 * 3; c < x / 3 * 3 + 3; ++c) {
          const std::size_t colour = filters[std::size_t(r % 6 * 6 + c % 6)];
          sum[colour] += share(slope(r, c));
          count[colour] += 1;
        }
      expectNear(xyzAt(raster, x, y), {sum[0] / count[0], sum[1] / count[1], sum[2] / count[2]}, 1e-6, std::to_string(x));
    }
}

/// The matrix as documented: the camera's D65 matrix with each channel scaled to make D65 neutral.
Mat3 builtinByHand() {
  Mat3 to_camera;
  for (std::size_t i = 0; i < 9; ++i) to_camera(i / 3, i % 3) = kDngMatrix[i];
  Mat3 scaled = to_camera * rgbToXyz(kSrgbPrimaries);
  for (auto& row : scaled.row) row = (1 / (row[0] + row[1] + row[2])) * row;
  return kSrgbToXyzD50 * inverse(scaled);
}

/// What balances daylight, relative to green.
Vec3 daylightByHand() {
  Mat3 to_camera;
  for (std::size_t i = 0; i < 9; ++i) to_camera(i / 3, i % 3) = kDngMatrix[i];
  const Vec3 white = to_camera * toXyzAtUnitY(kSrgbPrimaries.white);
  return {white[1] / white[0], 1, white[1] / white[2]};
}

TEST(Raw, factsOfTheFile) {
  const TempDir folder;
  auto photo = openBytes(folder, "x", dng(kSize, codes(kSize, slope), {.exposure = true}));
  ASSERT_TRUE(photo);
  const PhotoFacts& facts = photo->facts();
  EXPECT_EQ(facts.format, "DNG");
  EXPECT_EQ(facts.bits, 14);
  EXPECT_EQ(facts.encoding, "camera RGB");
  EXPECT_EQ(facts.camera, "Simulated Camera");
  EXPECT_TRUE(facts.linear && facts.camera_rgb && facts.camera_data && facts.tagged);
  EXPECT_FALSE(facts.balance_doubtful);
  ASSERT_TRUE(facts.balance && facts.builtin && facts.iso && facts.exposure_time);
  expectNear(*facts.balance, {2, 1, 1 / 0.65}, 1e-5, "balance");
  EXPECT_NEAR(*facts.iso, 200, 1e-9);
  EXPECT_NEAR(*facts.exposure_time, 0.008, 1e-6);
  const Mat3 want = builtinByHand();
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR((*facts.builtin)(r, c), want(r, c), 2e-4) << r << c;
  const Vec3 white = *facts.builtin * Vec3{1, 1, 1};
  for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(white[c], kWhite<D50>[c], 1e-12);
  // The other way: the file's matrix turned round, at some scale.
  ASSERT_TRUE(facts.native);
  Mat3 to_camera;
  for (std::size_t i = 0; i < 9; ++i) to_camera(i / 3, i % 3) = kDngMatrix[i];
  const Mat3 round = *facts.native * to_camera;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(round(r, c) / round(1, 1), r == c ? 1 : 0, 5e-4) << r << c;
  EXPECT_FALSE(openBytes(folder, "y", dng(kSize, codes(kSize, slope)))->facts().exposure_time);
  EXPECT_FALSE(openBytes(folder, "j", jpeg(pattern({32, 32})))->facts().camera_rgb);
}

TEST(Raw, previewIsBalancedAndThroughTheMatrix) {
  const TempDir folder;
  const Vec3 neutral{0.5, 1, 0.65};
  for (const int side : {10, 20, 40}) {
    const auto shown = [&](Vec3 rgb) {
      auto photo = openBytes(folder, "x", dng(kSize, flatCodes(rgb)));
      const auto preview = photo->preview(side);
      EXPECT_TRUE(preview);
      EXPECT_EQ(preview->size.width, side);
      return std::array<int, 3>{preview->rgb[0], preview->rgb[1], preview->rgb[2]};
    };
    const int grey = static_cast<int>(std::lround(255 * srgbFromLinear(0.2)));
    for (const int code : shown({neutral[0] * 0.2, neutral[1] * 0.2, neutral[2] * 0.2})) EXPECT_NEAR(code, grey, 1);
    EXPECT_EQ(shown({1, 1, 1}), (std::array<int, 3>{255, 255, 255})) << "clipped is white";
    // Balanced camera RGB 0.3, 0.2, 0.1, by the matrix worked out above.
    const Vec3 want = kXyzD50ToSrgb * (builtinByHand() * Vec3{0.3, 0.2, 0.1});
    const auto got = shown({0.3 * neutral[0], 0.2 * neutral[1], 0.1 * neutral[2]});
    for (std::size_t c = 0; c < 3; ++c)
      EXPECT_NEAR(got[c], 255 * srgbFromLinear(std::clamp(want[c], 0.0, 1.0)), 1.1) << c;
  }
}

TEST(Raw, balanceInTheWrongOrderIsNoticed) {
  const TempDir folder;
  struct Row {
    const char* what;
    std::array<double, 3> neutral;
    bool doubtful;
  };
  // Daylight, tungsten and shade with the fixture's matrix stay; the rest is none of any lamp.
  const Row rows[] = {{"daylight", {0.373, 1, 0.664}, false}, {"tungsten", {0.58, 1, 0.32}, false}, {"shade", {0.33, 1, 0.75}, false},
                      {"green, blue, red", {1, 0.664, 0.373}, true}, {"green, red, blue", {1, 0.373, 0.664}, true},
                      {"blue, red, green", {0.664, 0.373, 1}, true}, {"red, blue, green", {0.373, 0.664, 1}, true},
                      {"multipliers", {2.68, 1, 1.51}, true}, {"multipliers in another order", {1, 2.68, 1.51}, true},
                      {"far apart", {0.01, 1, 0.6}, true}, {"absent", {}, true}};
  for (const Row& row : rows) {
    auto photo = openBytes(folder, "x", dng(kSize, codes(kSize, slope), {.neutral = row.neutral}));
    ASSERT_TRUE(photo) << row.what;
    EXPECT_EQ(photo->facts().balance_doubtful, row.doubtful) << row.what;
    ASSERT_TRUE(photo->facts().balance) << row.what;
    const std::array<double, 3>& n = row.neutral;
    expectNear(*photo->facts().balance, row.doubtful ? daylightByHand() : Vec3{n[1] / n[0], 1, n[1] / n[2]}, 2e-3, row.what);
  }
}

TEST(Raw, withoutAMatrixThereIsNone) {
  const TempDir folder;
  auto photo = openBytes(folder, "x", dng(kSize, codes(kSize, slope), {.matrix = false}));
  ASSERT_TRUE(photo);
  EXPECT_FALSE(photo->facts().builtin);
  EXPECT_FALSE(photo->facts().native);
  EXPECT_FALSE(photo->facts().tagged);
  EXPECT_FALSE(photo->facts().balance_doubtful);
  ASSERT_TRUE(photo->facts().balance);
  expectNear(*photo->facts().balance, {2, 1, 1 / 0.65}, 1e-5, "balance");
  EXPECT_TRUE(photo->preview(20));
  auto neither = openBytes(folder, "x", dng(kSize, codes(kSize, slope), {.matrix = false, .neutral = {}}));
  ASSERT_TRUE(neither);
  EXPECT_TRUE(neither->facts().balance_doubtful);
  EXPECT_FALSE(neither->facts().balance);
  EXPECT_TRUE(neither->preview(20));
}

TEST(Raw, refusals) {
  const TempDir folder;
  const auto some = codes(kSize, slope);
  EXPECT_EQ(outcome(openBytes(folder, "x", dng(kSize, some, {.rows_per_strip = 8, .gap = true}))), "photo-unsupported") << "in pieces";
  EXPECT_EQ(outcome(openBytes(folder, "x", dng(kSize, some, {.filters = {0, 1, 1, 0}}))), "photo-unsupported") << "no blue";
  Limits small;
  small.megapixels = 0.001;
  EXPECT_EQ(outcome(openBytes(folder, "x", dng(kSize, some), small)), "photo-too-large");
  EXPECT_NE(outcomeOfReading(openBytes(folder, "x", dng(kSize, some, {.black = 20000}))), "ok") << "black above white";
  // Other containers' first bytes with nothing behind them.
  for (const std::string start : {"FUJIFILMCCD-RAW ", "IIRO", "IIU"}) {
    Bytes bytes(start.begin(), start.end());
    bytes.resize(4000);
    EXPECT_EQ(outcome(openBytes(folder, "x", bytes)), "photo-unsupported") << start;
  }
}

TEST(Raw, everyCutIsRefused) {
  const TempDir folder;
  for (const bool below : {false, true}) {
    const Bytes whole = dng(kSize, codes(kSize, slope), {.rows_per_strip = 7, .below = below, .exposure = true});
    for (std::size_t length = 16; length < whole.size(); length += 37) {
      const Bytes cut(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length));
      EXPECT_EQ(outcome(openBytes(folder, "x", cut)), "photo-truncated") << length;
    }
  }
}

/// The shared photo by LibRaw's own way at half size: linear, no balance, no brightening.
struct PlainWay {
  Size size;
  std::vector<std::uint16_t> rgb;
  double white = 0;
};

PlainWay plainWay(const std::filesystem::path& path) {
  const auto raw = std::make_unique<LibRaw>();
  auto& params = raw->imgdata.params;
  params.half_size = 1;
  params.output_bps = 16;
  params.output_color = 0;
  params.gamm[0] = params.gamm[1] = 1;
  params.no_auto_bright = params.no_auto_scale = 1;
  params.use_camera_wb = params.use_auto_wb = 0;
  params.user_qual = 0;
  params.adjust_maximum_thr = 0;
  for (float& m : params.user_mul) m = 1;
  PlainWay out;
  EXPECT_EQ(raw->open_file(path.c_str()), 0);
  EXPECT_EQ(raw->unpack(), 0);
  out.white = raw->imgdata.color.maximum - raw->imgdata.color.black;
  EXPECT_EQ(raw->dcraw_process(), 0);
  out.size = {raw->imgdata.sizes.iwidth, raw->imgdata.sizes.iheight};
  for (int i = 0; i < out.size.width * out.size.height; ++i) {
    const std::uint16_t* px = raw->imgdata.image[i];
    out.rgb.insert(out.rgb.end(), px, px + 3);
  }
  return out;
}

TEST(Raw, aRealFileAgainstTheLibrarysOwnWay) {
  const auto path = kShared / "photos" / "chart-12.dng";
  if (!std::filesystem::exists(path)) GTEST_SKIP() << "skipped: no ../shared";
  auto photo = Photo::open(path);
  ASSERT_TRUE(photo) << sentence(photo.error());
  EXPECT_EQ(photo->facts().bits, 14);
  EXPECT_TRUE(photo->facts().balance_doubtful) << "its neutral holds multipliers, in the order green, blue, red";
  EXPECT_TRUE(photo->facts().builtin);
  const PlainWay plain = plainWay(path);
  const Raster raster = readWhole(*photo);
  ASSERT_EQ(photo->size(), (Size{1734, 1156}));
  ASSERT_EQ(plain.size, (Size{867, 578}));
  double worst = 0;
  for (int y = 0; y < plain.size.height; ++y)
    for (int x = 0; x < plain.size.width; ++x)
      for (std::size_t c = 0; c < 3; ++c) {
        // The library cuts off single pixels below black, and rounds its mean of the greens down.
        const double got = xyzAt(raster, 2 * x + 1, 2 * y)[c];
        const double want = plain.rgb[3 * std::size_t(y * plain.size.width + x) + c] / plain.white;
        if (got > 0.01 && got < 0.9) worst = std::max(worst, std::abs(got - want));
      }
  EXPECT_LT(worst, 1.01 / plain.white);
}

TEST(Raw, aRealFileWithNothingInIt) {
  const auto path = kShared / "odd-files" / "metadata-only.dng";
  if (!std::filesystem::exists(path)) GTEST_SKIP() << "skipped: no ../shared";
  EXPECT_EQ(outcome(Photo::open(path)), "photo-empty");
}

}  // namespace
}  // namespace huewright
