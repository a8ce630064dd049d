#include "photo/png_chunks.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

Result<PngHeader> chunks(const Bytes& bytes, const Limits& limits = {}) { return readPngChunks(bytes, limits, "x.png"); }

std::array<double, 8> eight(const Primaries& p) {
  return {p.white.x, p.white.y, p.red.x, p.red.y, p.green.x, p.green.y, p.blue.x, p.blue.y};
}

TEST(PngChunks, header) {
  const auto header = chunks(png(pattern({31, 17}, 65535), {.bits = 16, .exif = exif({.orientation = 4})}));
  ASSERT_TRUE(header);
  EXPECT_EQ(header->width, 31U);
  EXPECT_EQ(header->height, 17U);
  EXPECT_EQ(header->bits, 16);
  EXPECT_EQ(header->exif, exif({.orientation = 4}));
  EXPECT_FALSE(header->tag.named);
  EXPECT_TRUE(header->tag.profile.empty());
}

TEST(PngChunks, colourByOrderOfPrecedence) {
  const Picture picture = pattern({8, 8});
  const auto named = [&](const PngOptions& options) {
    const auto header = chunks(png(picture, options));
    EXPECT_TRUE(header);
    return header->tag.named;
  };
  const auto srgb8 = eight(kSrgbPrimaries), p3 = eight(kP3D65Primaries);
  EXPECT_EQ(named({.srgb = true, .gamma = 1.0})->name, "sRGB") << "sRGB goes before gAMA";
  EXPECT_EQ(named({.gamma = 1.0})->name, "linear");
  EXPECT_EQ(named({.gamma = 1.0})->power, 1.0);
  EXPECT_NEAR(named({.gamma = 0.45455})->power, 2.2, 1e-4);
  EXPECT_EQ(named({.gamma = 0.45455, .primaries = srgb8})->power, 0) << "the fallback that stands for sRGB";
  const auto own = named({.gamma = 1.0, .primaries = p3});
  EXPECT_EQ(own->name, "linear with its own primaries");
  EXPECT_NEAR(own->primaries.red.x, 0.680, 1e-5);
  EXPECT_NEAR(own->primaries.green.y, 0.690, 1e-5);
  EXPECT_EQ(named({.primaries = p3})->power, 0) << "primaries alone: the sRGB curve";
  EXPECT_EQ(named({.srgb = true, .code_points = std::array<std::uint8_t, 4>{12, 13, 0, 1}})->name, "Display P3") << "cICP goes first";
  EXPECT_FALSE(named({.primaries = std::array<double, 8>{0.3, 0.3, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5}})) << "primaries that span nothing";

  const auto profile = chunks(png(picture, {.srgb = true, .profile = displayP3Profile()}));
  EXPECT_EQ(profile->tag.profile, displayP3Profile());
  EXPECT_FALSE(profile->tag.named);
}

TEST(PngChunks, highDynamicRangeIsRefused) {
  const auto header = chunks(png(pattern({8, 8}), {.code_points = std::array<std::uint8_t, 4>{9, 16, 0, 1}}));
  ASSERT_FALSE(header);
  EXPECT_EQ(header.error().code, Code::PhotoUnsupported);
}

TEST(PngChunks, aProfileLargerThanAllowedIsBroken) {
  Limits limits;
  limits.profile_bytes = 100;
  const auto header = chunks(png(pattern({8, 8}), {.profile = Bytes(50'000'000, 0)}), limits);
  ASSERT_TRUE(header);
  EXPECT_TRUE(header->tag.profile_broken);
}

TEST(PngChunks, everyCutIsSeen) {
  const Bytes whole = png(pattern({16, 16}), {.gamma = 1.0, .profile = srgbProfile()});
  for (std::size_t length = 8; length < whole.size(); ++length) {
    const auto header = chunks({whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length)});
    ASSERT_FALSE(header) << length;
    EXPECT_EQ(header.error().code, Code::PhotoTruncated) << length;
  }
}

TEST(PngChunks, aBitThatFlippedBesideThePictureIsSeen) {
  const Bytes whole = png(pattern({16, 16}), {.gamma = 1.0, .profile = srgbProfile()});
  const std::string data = "IDAT";
  const auto picture = static_cast<std::size_t>(std::search(whole.begin(), whole.end(), data.begin(), data.end()) - whole.begin());
  for (std::size_t at = 12; at + 4 < picture; ++at) {
    Bytes damaged = whole;
    damaged[at] ^= 0x10;
    EXPECT_FALSE(chunks(damaged)) << at;
  }
}

TEST(StillText, IsReadAsItIsWritten) {
  for (const FrameRounding& rounding : {FrameRounding{}, FrameRounding{Vec3{0.75, 1, 1.125}, false}, FrameRounding{Vec3{2, 2.125, 2.125}, true}}) EXPECT_EQ(readStillText(stillText(rounding)), rounding);
  EXPECT_EQ(stillText({Vec3{0.75, 1, 1}, true}), std::string(kStillSource) + ", JPEG steps 0.7500 1.0000 1.0000, halved colour");
}

TEST(StillText, AnythingElseIsNone) {
  const std::string begun(kStillSource);
  for (const std::string& text : {std::string("Source"), begun + " ", begun + ", JPEG steps", begun + ", JPEG steps 1 1", begun + ", JPEG steps 1 1 x", begun + ", JPEG steps 0 1 1", begun + ", JPEG steps 1 1 -1",
                                  begun + ", JPEG steps 1 1 nan", begun + ", JPEG steps 1 1 99", begun + ", JPEG steps 1 1 1, halved", begun + ", halved colour", begun.substr(0, 17)})
    EXPECT_FALSE(readStillText(text)) << text;
}

}  // namespace
}  // namespace huewright
