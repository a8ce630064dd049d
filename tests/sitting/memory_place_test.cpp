#include "sitting/memory_place.hpp"

#include <gtest/gtest.h>

#include <utility>

#include "temp_dir.hpp"

namespace huewright {
namespace {

TEST(MemoryPlaces, EachWindowHasItsOwnAndAFreedOneIsTakenAgain) {
  const fixtures::TempDir dir;
  const auto wanted = dir.path() / "sitting.json";
  MemoryPlace first(wanted);
  EXPECT_EQ(first.file(), wanted);
  EXPECT_FALSE(first.beside());
  {
    const MemoryPlace second(wanted), third(wanted);
    EXPECT_EQ(second.file(), dir.path() / "sitting-2.json");
    EXPECT_TRUE(second.beside());
    EXPECT_EQ(third.file(), dir.path() / "sitting-3.json");
  }
  EXPECT_EQ(MemoryPlace(wanted).file(), dir.path() / "sitting-2.json");
  const MemoryPlace moved = std::move(first);
  EXPECT_EQ(moved.file(), wanted);
  EXPECT_TRUE(MemoryPlace(wanted).beside());  // the lock moved along
  first = MemoryPlace();
}

TEST(MemoryPlaces, WithoutAFileOrALockNothingStandsInTheWay) {
  EXPECT_TRUE(MemoryPlace(std::filesystem::path()).file().empty());
  const std::filesystem::path nowhere = "/proc/no such folder/sitting.json";
  EXPECT_EQ(MemoryPlace(nowhere).file(), nowhere);
  EXPECT_FALSE(MemoryPlace(nowhere).beside());
}

}  // namespace
}  // namespace huewright
