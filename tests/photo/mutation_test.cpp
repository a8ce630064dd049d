// Damaged files of every kind: never a crash, a hang, or a picture that is not all there. Deterministic.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <random>

#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

struct Specimen {
  std::string name;
  Bytes bytes;
};

/// A raw file with the sensor's folder in front of its codes.
Bytes rawSpecimen(const DngOptions& options) {
  std::vector<std::uint16_t> codes;
  for (int i = 0; i < 64 * 48 * (options.linear ? 3 : 1); ++i) codes.push_back(static_cast<std::uint16_t>(600 + i * 37 % 15000));
  return dng({64, 48}, codes, options);
}

std::vector<Specimen> specimens() {
  const Picture picture = pattern({64, 48});
  const Exif camera{.orientation = 6, .make = "Maker", .colour_space = 65535, .interoperability = "R03", .exposure = true};
  JpegOptions plain, progressive, tagged;
  progressive.progressive = true;
  tagged.profile = displayP3Profile();
  tagged.restart = 3;
  plain.exif = exif(camera);
  return {{"jpeg", jpeg(picture, plain)},
          {"progressive", jpeg(picture, progressive)},
          {"tagged jpeg", jpeg(picture, tagged)},
          {"png", png(picture, {.gamma = 0.5, .profile = tableProfile()})},
          {"interlaced png", png(times(picture, 257), {.bits = 16, .interlaced = true, .exif = exif(camera)})},
          {"lzw tiff", tiff(picture, {.compression = 5, .predictor = true, .profile = srgbProfile()})},
          {"tiled tiff", tiff(times(picture, 257), {.bits = 16, .tile = 16, .separate = true, .big_endian = true})},
          {"heic", heif(picture, {.profile = displayP3Profile(), .exif = exif(camera)})},
          {"avif", heif(picture, {.avif = true})},
          {"raw", rawSpecimen({.orientation = 6, .below = true, .exposure = true})},
          {"big-endian raw", rawSpecimen({.big_endian = true, .blacks = {500, 510, 520, 530}, .active = {2, 2, 46, 62}, .rows_per_strip = 9})},
          {"compressed raw", rawSpecimen({.compressed = true})},
          {"linear raw", rawSpecimen({.linear = true})}};
}

/// Opens and reads; whatever is handed out must be whole and finite.
void tryOut(const TempDir& folder, const Bytes& bytes, const std::string& what) {
  Limits limits;
  limits.megapixels = 2;
  auto photo = openBytes(folder, "x", bytes, limits);
  if (!photo) {
    EXPECT_FALSE(sentence(photo.error()).empty());
    return;
  }
  const Size size = photo->size();
  if (const auto preview = photo->preview(32)) {
    EXPECT_EQ(preview->rgb.size(), 3 * std::size_t(preview->size.width) * std::size_t(preview->size.height)) << what;
  }
  const Rect part{size.width / 3, size.height / 3, (size.width + 2) / 3, (size.height + 2) / 3};
  if (const auto rasters = photo->pixels(std::span(&part, 1))) {
    const Raster& raster = (*rasters)[0];
    EXPECT_EQ(raster.xyz.size(), 3 * std::size_t(part.width) * std::size_t(part.height)) << what;
    for (const float v : raster.xyz) ASSERT_TRUE(std::isfinite(v)) << what;
  }
}

int rounds() {
  const char* told = std::getenv("HUEWRIGHT_MUTATIONS");
  return told != nullptr ? std::atoi(told) : 60;
}

TEST(Mutation, flippedBytes) {
  const TempDir folder;
  std::mt19937 random(20240229);
  for (const Specimen& specimen : specimens())
    for (int round = 0; round < rounds(); ++round) {
      Bytes damaged = specimen.bytes;
      const int changes = 1 + int(random() % 3);
      for (int i = 0; i < changes; ++i) {
        // Half of them near the front, where the sizes and places stand.
        const std::size_t within = random() % 2 == 0 ? damaged.size() : std::min<std::size_t>(damaged.size(), 700);
        std::uint8_t& byte = damaged[random() % within];
        const std::uint8_t choices[] = {
            0, 0xFF, 0x80, 0x7F, static_cast<std::uint8_t>(byte ^ (1U << random() % 8)), static_cast<std::uint8_t>(random())};
        byte = choices[random() % 6];
      }
      tryOut(folder, damaged, specimen.name + " round " + std::to_string(round));
    }
}

TEST(Mutation, missingAndDoubledPieces) {
  const TempDir folder;
  std::mt19937 random(19970101);
  for (const Specimen& specimen : specimens())
    for (int round = 0; round < rounds() / 3; ++round) {
      Bytes damaged = specimen.bytes;
      const auto from = damaged.begin() + static_cast<std::ptrdiff_t>(random() % damaged.size());
      const auto length = std::min<std::ptrdiff_t>(damaged.end() - from, static_cast<std::ptrdiff_t>(1 + random() % 40));
      if (round % 2 == 0) {
        damaged.erase(from, from + length);
      } else {
        const Bytes piece(from, from + length);
        damaged.insert(from, piece.begin(), piece.end());
      }
      tryOut(folder, damaged, specimen.name + " round " + std::to_string(round));
    }
}

TEST(Mutation, everyCutIsRefused) {
  const TempDir folder;
  std::mt19937 random(42);
  for (const Specimen& specimen : specimens())
    for (int round = 0; round < rounds() / 2; ++round) {
      const std::size_t length = 1 + random() % (specimen.bytes.size() - 1);
      const Bytes cut(specimen.bytes.begin(), specimen.bytes.begin() + static_cast<std::ptrdiff_t>(length));
      EXPECT_NE(outcomeOfReading(openBytes(folder, "x", cut)), "ok") << specimen.name << " cut at " << length;
      auto photo = openBytes(folder, "x", cut);
      if (photo) {
        EXPECT_FALSE(photo->preview(16)) << specimen.name << " cut at " << length;
      }
    }
}

}  // namespace
}  // namespace huewright
