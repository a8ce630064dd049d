#include "session/joining_cautions.hpp"

#include <gtest/gtest.h>

#include "mix/series.hpp"

namespace huewright {
namespace {

using Wanted = std::optional<Lab<D50>>;

TEST(JoiningCautions, ThereIsRoomUpToTheLastPanel) {
  EXPECT_FALSE(noRoomCaution(0, kMostSeriesPanels));
  EXPECT_FALSE(noRoomCaution(kMostSeriesPanels - 2, 2));
  const auto full = noRoomCaution(kMostSeriesPanels - 1, 2);
  ASSERT_TRUE(full);
  EXPECT_EQ(full->code, CautionCode::SeriesFull);
  EXPECT_EQ(full->detail, "59 of at most 60");
}

TEST(JoiningCautions, ACardThatIsFarFromTheWantedColourIsSaid) {
  const Wanted wanted = Lab<D50>{50, 0, 0};
  EXPECT_FALSE(otherCardCaution(wanted, wanted));
  EXPECT_FALSE(otherCardCaution(wanted, Wanted{}));
  EXPECT_FALSE(otherCardCaution(Wanted{}, wanted));
  EXPECT_FALSE(otherCardCaution(wanted, Lab<D50>{51.5, 0, 0}));
  const auto other = otherCardCaution(wanted, Lab<D50>{60, 0, 0});
  ASSERT_TRUE(other);
  EXPECT_EQ(other->code, CautionCode::OtherCard);
  EXPECT_EQ(other->detail, "9.5");  // 10 over S_L, which is 1 + 0.015 · 25 / √45 = 1.056 at the mean L* of 55: CIEDE2000 worked out by hand
}

}  // namespace
}  // namespace huewright
