#include <gtest/gtest.h>

#include "desk/views.hpp"
#include "desk_driver.hpp"
#include "judged_job.hpp"

namespace huewright::desk {
namespace {

class SprayedView : public testing::Test {
 protected:
  void SetUp() override {
    driver.apply = [this](const Action& action) {
      if (const auto* set = std::get_if<act::SetChoices>(&action)) driver.state.plan.choices = set->choices;
    };
    driver.state.situations = {{"neighbour", "a part next to the old paint", 1.0}, {"touching", "new paint that runs into the old", 0.5}};
    driver.key(Do::HowSprayed);
    driver.frames(3);
  }
  /// Clicks at a field of the tables and types.
  void fill(const char* table, const char* field, const char* text, std::optional<int> row = {}) {
    const auto at = row ? driver.find("how sprayed", {table, *row, field}) : driver.find("how sprayed", {table, field});
    ASSERT_TRUE(at) << field;
    driver.click(at->x, at->y);
    driver.key('A', true);
    driver.key(kKeyBackspace);
    driver.type(text);
    driver.key(kKeyEnter);
    driver.frames(2);
  }
  const Choices& choices() { return driver.state.plan.choices; }
  fixtures::DeskDriver driver;
};

TEST_F(SprayedView, MixCoatsCarrierAndStripsAreTyped) {
  fill("sprayed", "##strong", "1", 0);
  fill("sprayed", "##weak", "3", 0);
  ASSERT_EQ(choices().mixes.size(), 1u);
  EXPECT_EQ(choices().mixes[0].weak, 3);
  fill("sprayed", "##coats", "4.5");
  EXPECT_EQ(choices().coats, 4.5);
  fill("sprayed", "##carrier", "5");
  EXPECT_EQ(choices().carrier, 5);
  fill("sprayed", "##steps", "0,1,2.5");
  EXPECT_EQ(choices().steps, (std::vector<double>{0, 1, 2.5}));
  fill("sprayed", "##coats", "");
  EXPECT_FALSE(choices().coats);
}

TEST_F(SprayedView, WhatIsNoNumberChangesNothing) {
  fill("sprayed", "##steps", "0,x");
  EXPECT_TRUE(choices().steps.empty());
  fill("judged", "##grey", "0.18");
  EXPECT_EQ(choices().grey_y, 0.18);
}

TEST_F(SprayedView, SeveralPanelsHaveAMixEach) {
  fixtures::addVerdict(driver.state);
  driver.frames(2);
  for (int row = 0; row < 3; ++row) {
    fill("sprayed", "##strong", "1", row);
    fill("sprayed", "##weak", std::to_string(5 - row).c_str(), row);
  }
  ASSERT_EQ(choices().mixes.size(), 3u);
  EXPECT_EQ(choices().mixes[2].weak, 3);
}

TEST_F(SprayedView, NothingIsCutOffAtItsSides) {
  for (const float text : {1.0f, 3.0f}) {
    fixtures::DeskDriver large(1280, 720, text);
    large.key(Do::HowSprayed);
    large.frames(3);
    EXPECT_LE(fixtures::DeskDriver::cutOff("how sprayed"), 1.0f) << text;
  }
}

}  // namespace
}  // namespace huewright::desk
