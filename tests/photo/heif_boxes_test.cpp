#include "photo/heif_boxes.hpp"

#include <gtest/gtest.h>

#include "support/fixtures.hpp"

namespace huewright {
namespace {

using fixtures::Bytes;

Bytes box(std::uint32_t size, const std::string& type, const Bytes& rest = {}) {
  Bytes bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes.push_back(static_cast<std::uint8_t>(size >> shift));
  for (const char c : type) bytes.push_back(static_cast<std::uint8_t>(c));
  for (const std::uint8_t b : rest) bytes.push_back(b);
  return bytes;
}

TEST(HeifBoxes, brands) {
  const Bytes heic = box(20, "ftyp", {'m', 'i', 'f', '1', 0, 0, 0, 0, 'h', 'e', 'i', 'c'});
  const Bytes avif = box(16, "ftyp", {'a', 'v', 'i', 'f', 0, 0, 0, 0});
  const Bytes film = box(16, "ftyp", {'i', 's', 'o', 'm', 'a', 'v', 'i', 'f'});  // the word is a version here, not a brand
  EXPECT_TRUE(isHeif(heic) && !isAvif(heic));
  EXPECT_TRUE(isHeif(avif) && isAvif(avif));
  EXPECT_FALSE(isHeif(film));
  EXPECT_FALSE(isHeif(Bytes{1, 2, 3}));
}

TEST(HeifBoxes, sizes) {
  const auto code = [](const Bytes& bytes) {
    const auto result = checkBoxes(bytes);
    return result ? "ok" : std::string(codeName(result.error().code));
  };
  EXPECT_EQ(code(box(12, "free", {1, 2, 3, 4})), "ok");
  EXPECT_EQ(code(box(0, "mdat", {1, 2, 3, 4})), "ok") << "up to the end";
  EXPECT_EQ(code(box(1, "mdat", {0, 0, 0, 0, 0, 0, 0, 16})), "ok") << "a long size";
  EXPECT_EQ(code(box(13, "free", {1, 2, 3, 4})), "photo-truncated");
  EXPECT_EQ(code(box(1, "mdat", {0, 0, 0, 0})), "photo-truncated");
  EXPECT_EQ(code(Bytes{0, 0, 0}), "photo-truncated");
  EXPECT_EQ(code(box(7, "free")), "photo-corrupt");
  EXPECT_EQ(code(box(1, "mdat", {0, 0, 0, 0, 0, 0, 0, 15})), "photo-corrupt");
  EXPECT_EQ(code(box(8, std::string(4, '\0'))), "photo-corrupt");
}

TEST(HeifBoxes, oneChannelIsSeen) {
  for (const bool avif : {false, true}) {
    EXPECT_TRUE(isMonochrome(fixtures::heif(fixtures::pattern({64, 64}), {.avif = avif, .grey = true}))) << avif;
    EXPECT_FALSE(isMonochrome(fixtures::heif(fixtures::pattern({64, 64}), {.avif = avif}))) << avif;
  }
  EXPECT_FALSE(isMonochrome(box(8, "free")));
}

}  // namespace
}  // namespace huewright
