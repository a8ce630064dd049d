#include "desk/short_name.hpp"

#include <gtest/gtest.h>

#include "support/desk_photo.hpp"

namespace huewright::desk {
namespace {

TEST(ShortName, FitsAndKeepsBothEnds) {
  fixtures::DeskDriver driver;
  ImFont* font = driver.desk().look().type.body;
  const std::string name = "IMG_20261128_141022-über-die-Tür.jpg";
  const auto wide = [&](const std::string& words) { return font->CalcTextSizeA(font->FontSize, 1e6f, 0, words.c_str()).x; };
  EXPECT_EQ(shortName(name, font, wide(name)), name);
  for (float width = 60; width < wide(name); width += 7) {
    const std::string cut = shortName(name, font, width);
    EXPECT_LE(wide(cut), width);
    const auto at = cut.find("…");
    ASSERT_NE(at, std::string::npos);
    EXPECT_TRUE(name.starts_with(cut.substr(0, at)));
    EXPECT_TRUE(name.ends_with(cut.substr(at + std::string("…").size())));
    EXPECT_FALSE(at + 3 < cut.size() && (static_cast<unsigned char>(cut[at + 3]) & 0xC0) == 0x80);  // no half letter
  }
  EXPECT_EQ(shortName(name, font, 1), "…");
}

}  // namespace
}  // namespace huewright::desk
