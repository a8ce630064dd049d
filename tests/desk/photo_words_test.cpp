#include "desk/photo_words.hpp"

#include <gtest/gtest.h>

#include "support/desk_photo.hpp"

namespace huewright::desk {
namespace {

TEST(PhotoWords, SentencesStandAboveOneAnotherInTheField) {
  fixtures::DeskDriver driver;
  ImGui::NewFrame();
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({400, 400});
  ImGui::Begin("words", nullptr, ImGuiWindowFlags_NoDecoration);
  Field field{0, 0, 400, 400};
  drawSentence(field, "One word", WordsAt::Foot, driver.desk().look());
  const double one = field.height;
  drawSentence(field, "A sentence that is far too long for one line of this narrow field and must be wrapped", WordsAt::Foot, driver.desk().look());
  EXPECT_LT(one, 400 - 17);
  EXPECT_LT(field.height, one - 2 * 17);  // two lines at least
  EXPECT_EQ(field.top, 0);
  drawSentence(field, "Above", WordsAt::Top, driver.desk().look());
  EXPECT_GT(field.top, 17);
  const Field before = field;
  drawSentence(field, "In the middle", WordsAt::Middle, driver.desk().look());
  EXPECT_EQ(field.height, before.height);
  ImGui::End();
  ImGui::Render();
  EXPECT_LE(fixtures::DeskDriver::cutOff("words"), 0.0f);
}

}  // namespace
}  // namespace huewright::desk
