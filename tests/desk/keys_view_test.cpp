#include <gtest/gtest.h>

#include "desk/views.hpp"
#include "desk_driver.hpp"

namespace huewright::desk {
namespace {

TEST(KeysView, ListsEveryKeyWithoutCuttingAny) {
  for (const float text : {1.0f, 3.0f}) {
    fixtures::DeskDriver driver(1280, 720, text);
    driver.key(Do::Keys);
    driver.frames(3);
    EXPECT_TRUE(driver.view().keys);
    EXPECT_LE(fixtures::DeskDriver::cutOff("keys"), 1.0f) << text;
    driver.key(Do::Keys);
    EXPECT_FALSE(driver.view().keys);
  }
}

}  // namespace
}  // namespace huewright::desk
