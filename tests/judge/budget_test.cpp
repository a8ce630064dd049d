#include "judge/budget.hpp"

#include <array>
#include <gtest/gtest.h>
#include <set>

#include "judge/verdict.hpp"

namespace huewright {
namespace {

TEST(Budget, EveryPartHasItsOwnNameAndItsWords) {
  std::set<std::string_view> names, words;
  for (std::size_t i = 0; i < kPartCount; ++i) {
    const auto part = static_cast<Part>(i);
    names.insert(partName(part));
    words.insert(partWords(part));
    EXPECT_EQ(partName(part).find_first_not_of("abcdefghijklmnopqrstuvwxyz_"), std::string_view::npos) << partName(part);
    EXPECT_FALSE(originWords(originOf(part)).empty());
  }
  EXPECT_EQ(names.size(), kPartCount);
  EXPECT_EQ(words.size(), kPartCount);
}

TEST(Budget, EveryCauseHasAPart) {
  std::set<Cause> causes;
  for (std::size_t i = 0; i < kPartCount; ++i) causes.insert(causeOf(static_cast<Part>(i)));
  EXPECT_EQ(causes.size(), kCauseCount);
  EXPECT_EQ(causeName(Cause::Texture), "texture");
  EXPECT_EQ(causeName(Cause::CardKind), "card_kind");
}

TEST(Budget, PartsOfACauseAddByTheirSquares) {
  std::array<double, kPartCount> budget{};
  budget[static_cast<std::size_t>(Part::LightCourse)] = 3;
  budget[static_cast<std::size_t>(Part::LightAngle)] = 4;
  budget[static_cast<std::size_t>(Part::Matrix)] = 7;
  EXPECT_DOUBLE_EQ(ofCause(budget, Cause::Light), 5);
  EXPECT_DOUBLE_EQ(ofCause(budget, Cause::Camera), 7);
  EXPECT_DOUBLE_EQ(ofCause(budget, Cause::Veil), 0);
}

}  // namespace
}  // namespace huewright
