#include "scene/reed_solomon.hpp"

#include <gtest/gtest.h>
#include <numeric>
#include <random>

namespace huewright {
namespace {

std::vector<std::uint8_t> withChecks(std::vector<std::uint8_t> message, std::size_t checks) {
  const auto more = checkBytes(message, checks);
  message.insert(message.end(), more.begin(), more.end());
  return message;
}

// Worked out by hand from the definition: with one check the generator is x + 1, so the check is the sum of all bytes; with two it is
// x² + 3x + 2, so that the message 1 leaves 3, 2.
TEST(ReedSolomon, ChecksOfSmallMessages) {
  EXPECT_EQ(checkBytes(std::vector<std::uint8_t>{1, 2, 4}, 1), (std::vector<std::uint8_t>{7}));
  EXPECT_EQ(checkBytes(std::vector<std::uint8_t>{1}, 2), (std::vector<std::uint8_t>{3, 2}));
  EXPECT_EQ(checkBytes(std::vector<std::uint8_t>{0, 0}, 3), (std::vector<std::uint8_t>{0, 0, 0}));
}

TEST(ReedSolomon, MendsUpToHalfTheChecks) {
  std::mt19937 random(5);
  std::vector<std::uint8_t> message(26);
  for (int round = 0; round < 40; ++round) {
    for (auto& byte : message) byte = static_cast<std::uint8_t>(random());
    const auto word = withChecks(message, 14);
    for (std::size_t wrong = 0; wrong <= 7; ++wrong) {
      auto spoilt = word;
      std::vector<std::size_t> places(spoilt.size());
      std::iota(places.begin(), places.end(), 0U);
      std::shuffle(places.begin(), places.end(), random);
      for (std::size_t i = 0; i < wrong; ++i) spoilt[places[i]] = static_cast<std::uint8_t>(spoilt[places[i]] ^ (1 + random() % 255));
      EXPECT_EQ(mendBytes(spoilt, 14, 7), wrong);
      EXPECT_EQ(spoilt, word) << wrong;
    }
  }
}

TEST(ReedSolomon, LeavesAWordWithMoreMistakesAsItIs) {
  std::mt19937 random(6);
  const auto word = withChecks(std::vector<std::uint8_t>(26, 9), 14);
  for (int round = 0; round < 200; ++round) {
    auto spoilt = word;
    for (std::size_t i = 0; i < 7 + static_cast<std::size_t>(round) % 8; ++i) spoilt[(5 * i + static_cast<std::size_t>(round)) % spoilt.size()] ^= static_cast<std::uint8_t>(1 + random() % 255);
    const auto before = spoilt;
    EXPECT_FALSE(mendBytes(spoilt, 14, 6)) << round;
    EXPECT_EQ(spoilt, before);
  }
}

}  // namespace
}  // namespace huewright
