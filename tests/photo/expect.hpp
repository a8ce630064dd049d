// Short ways to say what a picture file must do.
#pragma once

#include <gtest/gtest.h>

#include <array>
#include <span>
#include <string>
#include <vector>

#include "photo/photo.hpp"
#include "support/fixtures.hpp"

namespace huewright::fixtures {

/// Writes bytes to a file of the folder and opens it.
inline Result<Photo> openBytes(const TempDir& folder, const std::string& name, const Bytes& bytes, const Limits& limits = {},
                               Encoding encoding = Encoding::Auto) {
  return Photo::open(folder.put(name, bytes), limits, encoding);
}

/// The word for how opening went: "ok" or the code's name.
template <class T>
std::string outcome(const Result<T>& result) {
  return result ? "ok" : std::string(codeName(result.error().code));
}

/// How opening and then reading everything went.
inline std::string outcomeOfReading(Result<Photo> photo) {
  if (!photo) return outcome(photo);
  const Rect whole{0, 0, photo->size().width, photo->size().height};
  return outcome(photo->pixels(std::span(&whole, 1)));
}

inline Raster read(Photo& photo, const Rect& rect) {
  auto rasters = photo.pixels(std::span(&rect, 1));
  if (!rasters) {
    ADD_FAILURE() << sentence(rasters.error());
    return {};
  }
  EXPECT_EQ((*rasters)[0].rect, rect);
  return std::move((*rasters)[0]);
}

inline Raster readWhole(Photo& photo) { return read(photo, {0, 0, photo.size().width, photo.size().height}); }

inline std::array<double, 3> xyzAt(const Raster& raster, int x, int y) {
  const std::size_t at = 3 * (std::size_t(y - raster.rect.y) * std::size_t(raster.rect.width) + std::size_t(x - raster.rect.x));
  return {raster.xyz[at], raster.xyz[at + 1], raster.xyz[at + 2]};
}

inline void expectNear(const std::array<double, 3>& got, const std::array<double, 3>& want, double tolerance, const std::string& what) {
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(got[i], want[i], tolerance) << what << ", axis " << i;
}

/// Every pixel of a raster against an upright picture's codes, by way of a profile and the colour engine.
/// Only every `step`th pixel is compared.
inline void expectPicture(const Raster& raster, const Picture& upright, int most, const Bytes& profile, double tolerance, int step,
                          const std::string& what) {
  ASSERT_EQ(raster.xyz.size(), 3 * std::size_t(raster.rect.width) * std::size_t(raster.rect.height)) << what;
  for (int i = 0; i < raster.rect.width * raster.rect.height; i += step) {
    const int x = raster.rect.x + i % raster.rect.width, y = raster.rect.y + i / raster.rect.width;
    const std::uint16_t* c = upright.at(x, y);
    const auto want = engineXyz(profile, double(c[0]) / most, double(c[1]) / most, double(c[2]) / most);
    expectNear(xyzAt(raster, x, y), want, tolerance, what + " at " + std::to_string(x) + "," + std::to_string(y));
    if (::testing::Test::HasFailure()) return;
  }
}

}  // namespace huewright::fixtures
