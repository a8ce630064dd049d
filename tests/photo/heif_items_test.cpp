#include "photo/heif_items.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/fixtures.hpp"

namespace huewright {
namespace {

using fixtures::Bytes;

std::string code(const Bytes& bytes) {
  const auto result = checkCodedData(bytes);
  return result ? "ok" : std::string(codeName(result.error().code));
}

/// Where the coded data begins: it is the last box of these files.
std::size_t dataOf(const Bytes& bytes) {
  const std::string word = "mdat";
  return static_cast<std::size_t>(std::search(bytes.begin(), bytes.end(), word.begin(), word.end()) - bytes.begin()) + 4;
}

TEST(HeifItems, soundFilesPass) {
  for (const bool avif : {false, true})
    for (const int quality : {5, 60, 100})
      for (const auto& picture :
           {fixtures::pattern({128, 128}), fixtures::flat({128, 128}, {0, 0, 0}), fixtures::flat({128, 128}, {255, 255, 255})})
        EXPECT_EQ(code(fixtures::heif(picture, {.avif = avif, .quality = quality})), "ok") << avif << " " << quality;
}

TEST(HeifItems, holesAndTailsOfZerosAreSeen) {
  for (const bool avif : {false, true}) {
    const Bytes whole = fixtures::heif(fixtures::pattern({128, 128}), {.avif = avif});
    const std::size_t start = dataOf(whole);
    for (const double place : {0.1, 0.4, 0.8}) {
      const auto hole = static_cast<std::ptrdiff_t>(start + static_cast<std::size_t>(place * double(whole.size() - start)));
      Bytes damaged = whole;
      std::fill_n(damaged.begin() + hole, 40, std::uint8_t{0});
      EXPECT_EQ(code(damaged), "photo-corrupt") << avif << " hole at " << place;
      damaged = whole;
      std::fill(damaged.begin() + hole, damaged.end(), std::uint8_t{0});
      EXPECT_EQ(code(damaged), "photo-corrupt") << avif << " tail from " << place;
      damaged.resize(static_cast<std::size_t>(hole));
      EXPECT_EQ(code(damaged), "photo-truncated") << avif << " cut at " << place;
    }
  }
}

TEST(HeifItems, whatCannotBeFollowedIsPassedOver) {
  EXPECT_EQ(code({}), "ok");
  EXPECT_EQ(code({0, 0, 0, 12, 'm', 'e', 't', 'a', 0, 0, 0, 0}), "ok");
  EXPECT_EQ(code({0, 0, 0, 1, 'm', 'e', 't', 'a', 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF}), "ok");
}

}  // namespace
}  // namespace huewright
