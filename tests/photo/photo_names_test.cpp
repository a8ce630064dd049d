#include "photo/photo_names.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(PhotoNames, EndingsInAnyCase) {
  for (const char* name : {"a.jpg", "IMG_0001.JPG", "a.b.Jpeg", "a.heic", "a.AVIF", "a.dng", "a.CR3", ".hidden.png"}) EXPECT_TRUE(hasPhotoEnding(name)) << name;
  for (const char* name : {"", "jpg", "a.jpg.part", "a.jpg.tmp", "a.jp", "a.jpg.huewright.txt", "a.mov", "a.", "a.jpg~"}) EXPECT_FALSE(hasPhotoEnding(name)) << name;
}

}  // namespace
}  // namespace huewright
