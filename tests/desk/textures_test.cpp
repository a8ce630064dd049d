#include "desk/textures.hpp"

#include <gtest/gtest.h>

#include "desk_driver.hpp"

namespace huewright::desk {
namespace {

TEST(Textures, APictureIsCutIntoTilesThatCoverIt) {
  fixtures::CountingTextures card;
  Textures textures(card);
  const PictureRef picture = fixtures::patternPicture({2500, 1100});
  const auto tiles = textures.tiles(picture, {0, 0, 2500, 1100});
  ASSERT_EQ(tiles.size(), 6u);
  long area = 0;
  for (const auto& tile : tiles) area += static_cast<long>(tile.rect.width) * tile.rect.height;
  EXPECT_EQ(area, 2500L * 1100);
  EXPECT_TRUE(card.sizes_right);
  EXPECT_EQ(textures.tiles(picture, {1100, 10, 5, 5}).size(), 1u);
  EXPECT_EQ(card.made, 6);  // those that are there are not made again
}

TEST(Textures, WhatIsNotAskedForIsDroppedAfterAWhile) {
  fixtures::CountingTextures card;
  Textures textures(card);
  const PictureRef a = fixtures::patternPicture({10, 10}), b = fixtures::patternPicture({10, 10});
  textures.tiles(a, {0, 0, 10, 10});
  textures.tiles(b, {0, 0, 10, 10});
  for (unsigned i = 0; i <= Textures::kKeep + 1; ++i) {
    textures.tiles(b, {0, 0, 10, 10});
    textures.frameDone();
  }
  EXPECT_EQ(card.held.size(), 1u);
  EXPECT_TRUE(card.dropped_right);
}

TEST(Textures, APictureThatIsGoneTakesItsTexturesAlong) {
  fixtures::CountingTextures card;
  {
    Textures textures(card);
    textures.tiles(fixtures::patternPicture({10, 10}), {0, 0, 10, 10});
    textures.frameDone();
    EXPECT_TRUE(card.held.empty());
    textures.tiles(nullptr, {0, 0, 10, 10});
    const PictureRef stays = fixtures::patternPicture({10, 10});
    textures.tiles(stays, {0, 0, 10, 10});
    textures.tiles(stays, {0, 0, 10, 10}, false);
    EXPECT_EQ(card.held.size(), 2u);  // smooth and not
  }
  EXPECT_TRUE(card.held.empty());
}

}  // namespace
}  // namespace huewright::desk
