#include <array>
#include <cstring>
#include <gtest/gtest.h>
#include <string>
#include <vector>

#include "capture/camera_door.hpp"
#include "photo/write.hpp"
#include "support/moving_picture.hpp"
#include "support/temp_dir.hpp"

extern "C" const HuewrightCameraDoor* huewright_camera_door();

namespace huewright::frames {
namespace {

TEST(Door, IsWhole) {
  const HuewrightCameraDoor* door = huewright_camera_door();
  ASSERT_NE(door, nullptr);
  EXPECT_EQ(door->version, HuewrightDoorVersion);
  for (const bool there : {door->open != nullptr, door->read != nullptr, door->facts != nullptr, door->steps != nullptr, door->hold != nullptr, door->close != nullptr}) EXPECT_TRUE(there);
}

TEST(Door, ReasonsAreCutOffWhereTheirRoomEnds) {
  const HuewrightCameraDoor& door = *huewright_camera_door();
  std::array<char, 12> reason{};
  reason.fill('x');
  EXPECT_EQ(door.open("983", reason.data(), 10), nullptr);
  EXPECT_STREQ(reason.data(), "There is ");
  EXPECT_EQ(reason[10], 'x');
  EXPECT_EQ(door.open("983", nullptr, 0), nullptr);
}

TEST(Door, ReadsAndHolds) {
  const fixtures::TempDir folder;
  ASSERT_TRUE(writePng(folder.path() / "p_0.png", fixtures::kMovingSize, fixtures::movingPicture(0)));
  const HuewrightCameraDoor& door = *huewright_camera_door();
  std::array<char, 300> reason{};
  void* camera = door.open((folder.path() / "p_%d.png").c_str(), reason.data(), reason.size());
  ASSERT_NE(camera, nullptr) << reason.data();
  HuewrightCameraFacts facts{};
  door.facts(camera, &facts);
  EXPECT_EQ(facts.height, fixtures::kMovingSize.height);
  std::vector<std::uint8_t> rgb;
  const HuewrightRoom room = [](void* owner, std::int32_t width, std::int32_t height) {
    auto& pixels = *static_cast<std::vector<std::uint8_t>*>(owner);
    pixels.resize(static_cast<std::size_t>(width * height * 3));
    return pixels.data();
  };
  EXPECT_EQ(door.read(camera, 1, room, &rgb), HuewrightGot);
  EXPECT_EQ(rgb, fixtures::movingPicture(0));
  EXPECT_EQ(door.read(camera, 1, room, &rgb), HuewrightEnd);
  HuewrightCameraHolds holds{};
  door.hold(camera, &holds);
  EXPECT_EQ(holds.focus, HuewrightNoSuch);
  door.close(camera);
}

}  // namespace
}  // namespace huewright::frames
