#include "judge/headline.hpp"

#include <gtest/gtest.h>

#include "judge/words.hpp"

namespace huewright {
namespace {

const Lab<D50> kTealCard{45, -30, -10};

Verdict bandedVerdict(Band band, const Lab<D50>& panel, double sd = 0.01) {
  Verdict v;
  v.band = band;
  v.delta = deltaVector(panel, kTealCard);
  v.covariance = sd * sd * Mat3::identity();
  return v;
}

TEST(Headline, OfEveryBand) {
  struct Case {
    Band band;
    Lab<D50> panel;
    double sd;
    const char* text;
  };
  // The parts of each panel are the rows of words_test.cpp, and of describe itself where there are several.
  for (const Case& c : {Case{Band::There, {45.2, -30, -10}, 0.01, "There"},
                        Case{Band::There, {40, -30, -10}, 0.01, "There"},
                        Case{Band::CantSay, {43, -30, -10}, 0.01, "Can't say yet: photograph again"},
                        Case{Band::Nearly, {43, -30, -10}, 0.01, "Nearly: a touch too deep"},
                        Case{Band::Nearly, {47, -30, -10}, 0.01, "Nearly: a touch too light"},
                        Case{Band::Nearly, {45, -36, -12}, 0.01, "Nearly: a touch too strong in colour"},
                        Case{Band::Nearly, {45, -28.8, -13.2}, 0.01, "Nearly: a touch too blue"},
                        Case{Band::Nearly, {38, -28.8, -14}, 0.01, "Nearly: a touch deeper and bluer"},
                        Case{Band::Nearly, {38, -22, -7.333}, 0.01, "Nearly: deeper and weaker in colour"},
                        Case{Band::Nearly, {43, -30, -10}, 5, "Nearly there"},
                        Case{Band::NotThere, {38, -30, -10}, 0.01, "Not there: too deep"},
                        Case{Band::NotThere, {45, -24, -8}, 0.01, "Not there: too weak in colour"},
                        Case{Band::NotThere, {45, -31.1, -5}, 0.01, "Not there: too green"},
                        Case{Band::NotThere, {38, -28.8, -14}, 0.01, "Not there: deeper and bluer"},
                        Case{Band::NotThere, {38, -22, -7.333}, 0.01, "Not there: deeper and weaker in colour"},
                        Case{Band::NotThere, {38, -30, -10}, 9, "Not there"}})
    EXPECT_EQ(headline(bandedVerdict(c.band, c.panel, c.sd), c.panel, kTealCard), c.text);
}

TEST(Headline, WhatKeepsItFromThereIsSaid) {
  Verdict v = bandedVerdict(Band::CantSay, {44, -30, -10});
  v.there_if_same_paint = true;
  EXPECT_EQ(headline(v, {44, -30, -10}, kTealCard), "There, if the card is the same paint");
  v.there_if_same_paint = false;
  v.range_lost = true;
  EXPECT_EQ(headline(v, {44, -30, -10}, kTealCard), "Can't say: the photo ran out of range");
}

// All directions and many cards: nothing is longer than it may be, the band stands first, and a part that is named is one of describe's.
TEST(Headline, IsNeverTooLong) {
  std::size_t longest = 0;
  for (const Lab<D50>& card : {Lab<D50>{45, -30, -10}, Lab<D50>{60, 40, 30}, Lab<D50>{30, 15, -40}, Lab<D50>{80, -5, 60}, Lab<D50>{50, 1, 1}})
    for (int l = -6; l <= 6; l += 3)
      for (int a = -12; a <= 12; a += 4)
        for (int b = -12; b <= 12; b += 4)
          for (const Band band : {Band::There, Band::CantSay, Band::Nearly, Band::NotThere}) {
            const Lab<D50> panel{card.L + l, card.a + a, card.b + b};
            Verdict v;
            v.band = band;
            v.delta = deltaVector(panel, card);
            v.covariance = 1e-4 * Mat3::identity();
            const std::string text = headline(v, panel, card);
            longest = std::max(longest, text.size());
            ASSERT_LE(text.size(), kHeadlineLongest) << text;
            const char* first[] = {"There", "Can't say", "Nearly", "Not there"};
            ASSERT_TRUE(text.starts_with(first[static_cast<std::size_t>(band)])) << text;
            const auto words = differenceWords(v.delta, v.covariance, panel, card);
            if (words.size() > 1 && band == Band::NotThere) {
              ASSERT_NE(text.find(words[0] + (words.size() == 3 && text.find(',') != std::string::npos ? ", " : " and ") + words[1]), std::string::npos) << text;
            }
          }
  EXPECT_GT(longest, 35u);
}

}  // namespace
}  // namespace huewright
