#include "scene/tag_finder.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>
#include <random>

#include "scene/marker_search.hpp"
#include "support/mat_layouts.hpp"
#include "support/mat_picture.hpp"
#include "support/tag_picture.hpp"

namespace huewright {
namespace {

using fixtures::MatPicture;
using fixtures::TagPose;
using fixtures::blurTag;
using fixtures::exampleTag;
using fixtures::layTag;
using fixtures::tagHomography;
using fixtures::tagQuad;

constexpr Size kTagScene{480, 400};

/// A cluttered bench with one tag; noise of 2.5 codes. blur: of the tag, pixels.
Preview shootTag(const TagText& text, TagPose pose, double blur, std::uint64_t seed = 1, const std::vector<std::pair<std::size_t, std::size_t>>& spoilt = {}) {
  if (pose.middle == Point{}) pose.middle = {kTagScene.width / 2.0 + 0.37, kTagScene.height / 2.0 - 0.21};
  Preview preview = MatPicture(kTagScene, seed).take(0.8, 2.5);
  const Mat3 lie = tagHomography(pose);
  layTag(preview, tagCells(text).value(), lie, 1, spoilt);
  blurTag(preview, fixtures::tagBox(lie), blur, 2.5, static_cast<unsigned>(seed));
  return preview;
}

/// Corners' largest distance from the truth, pixels.
double cornerError(const Quad& found, const Quad& truth) {
  double worst = 0;
  for (std::size_t i = 0; i < 4; ++i) worst = std::max(worst, std::hypot(found.corners[i].x - truth.corners[i].x, found.corners[i].y - truth.corners[i].y));
  return worst;
}

struct TagTally {
  int read = 0, wrong = 0;
  double worst = 0;
};

/// Tags of that side in any turn and up to that tilt; blur as a share of a cell at the most.
TagTally tagPoses(int count, double side, double most_tilt, double most_blur, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  const auto upTo = [&](double most) { return most * fixtures::uniform(random); };
  TagTally tally;
  for (int i = 0; i < count; ++i) {
    TagPose pose{side, upTo(360), upTo(most_tilt), upTo(360), {kTagScene.width / 2.0 + upTo(8), kTagScene.height / 2.0 + upTo(8)}};
    const TagText text{"panel " + std::to_string(i), TagParts{1, static_cast<double>(i % 9)}, 1 + i % 5, {}};
    const auto found = findTags(shootTag(text, pose, upTo(most_blur) * side / kTagAcross, seed * 100 + static_cast<std::uint64_t>(i)));
    if (!found) continue;
    for (const SeenTag& tag : found->tags) {
      if (tag.text == text) ++tally.read;
      else ++tally.wrong;
      tally.worst = std::max(tally.worst, cornerError(tag.place, tagQuad(tagHomography(pose))));
    }
  }
  return tally;
}

struct TagSizeRow {
  double side, tilt, blur;   // pixels, degrees, cells
};

// The smallest size that is promised, tilted to 35 degrees in any direction and turned by any angle, with as much blur as is promised; then larger ones. All must be read.
TEST(FindTags, InAnyPoseDownToTheSmallestSize) {
  for (const TagSizeRow& row : {TagSizeRow{kSmallestTag, 35, 0.33}, TagSizeRow{70, 35, 0.4}, TagSizeRow{100, 35, 0.45}, TagSizeRow{220, 35, 0.4}}) {
    constexpr int kCount = 24;
    const TagTally tally = tagPoses(kCount, row.side, row.tilt, row.blur, static_cast<std::uint64_t>(row.side));
    EXPECT_EQ(tally.read, kCount) << row.side;
    EXPECT_EQ(tally.wrong, 0) << row.side;
    EXPECT_LT(tally.worst, 0.3 * row.side / kTagAcross) << row.side;  // a third of a cell: its middle is still its own
  }
}

TEST(FindTags, CornersRunFromTheTagsOwnTopLeft) {
  for (const double turn : {0.0, 90.0, 180.0, 270.0, 30.0}) {
    const TagPose pose{110, turn, 0, 0, {240.3, 200.4}};
    Preview preview = shootTag(exampleTag(), pose, 0.6);
    preview.scale = 0.5;
    const auto found = findTags(preview);
    ASSERT_TRUE(found && found->tags.size() == 1) << turn;
    Quad truth = tagQuad(tagHomography(pose));
    for (Point& p : truth.corners) p = {2 * p.x, 2 * p.y};
    EXPECT_LT(cornerError(found->tags[0].place, truth), 1.0) << turn;
    EXPECT_EQ(found->tags[0].text, exampleTag());
    EXPECT_EQ(found->tags[0].mended, 0U);
  }
}

TEST(FindTags, SeveralFromTheTopDown) {
  Preview preview = MatPicture(kTagScene, 2).take(0, 0);
  layTag(preview, tagCells({"low", {}, {}, {}}).value(), tagHomography({90, 10, 0, 0, {120, 300}}));
  layTag(preview, tagCells({"high", {}, {}, {}}).value(), tagHomography({90, 200, 0, 0, {330, 100}}));
  const auto found = findTags(preview);
  ASSERT_TRUE(found && found->tags.size() == 2);
  EXPECT_EQ(found->tags[0].text.name, "high");
  EXPECT_EQ(found->tags[1].text.name, "low");
  EXPECT_TRUE(found->unread.empty());
}

TEST(FindTags, AcrossAShadowsEdge) {
  Preview preview = MatPicture(kTagScene, 3).take(0, 0);
  const Mat3 lie = tagHomography({120, 20, 10, 40, {240, 200}});
  layTag(preview, tagCells(exampleTag()).value(), lie);
  Preview shaded = preview;
  for (std::size_t i = 0; i < preview.rgb.size(); ++i) {
    const auto x = static_cast<double>(i / 3 % static_cast<std::size_t>(kTagScene.width)), y = static_cast<double>(i / 3 / static_cast<std::size_t>(kTagScene.width));
    const double lit = std::clamp(0.5 + (x + 0.5 * y - 340) / 60, 0.0, 1.0);  // a soft edge through the tag
    shaded.rgb[i] = static_cast<std::uint8_t>(std::lround(fixtures::toTagCode((0.4 + 0.6 * lit) * fixtures::toTagLight(preview.rgb[i]))));
  }
  blurTag(shaded, {0, 0, kTagScene.width, kTagScene.height}, 1, 2.5, 1);
  const auto found = findTags(shaded);
  ASSERT_TRUE(found && found->tags.size() == 1);
  EXPECT_EQ(found->tags[0].text, exampleTag());
}

TEST(FindTags, AStainIsMendedAndADamagedTagIsSeenAsOne) {
  const auto stain = [](std::size_t side) {
    std::vector<std::pair<std::size_t, std::size_t>> cells;
    const auto all = withFrames(tagCells(exampleTag()).value());
    for (std::size_t y = 6; y < 6 + side; ++y)
      for (std::size_t x = 7; x < 7 + side; ++x)
        if (!all[y][x]) cells.emplace_back(x, y);  // all becomes black
    return cells;
  };
  const auto small = findTags(shootTag(exampleTag(), {120, 15}, 0.8, 4, stain(4)));
  ASSERT_TRUE(small && small->tags.size() == 1);
  EXPECT_EQ(small->tags[0].text, exampleTag());
  EXPECT_GT(small->tags[0].mended, 0U);
  const auto large = findTags(shootTag(exampleTag(), {120, 15}, 0.8, 4, stain(10)));
  ASSERT_TRUE(large);
  EXPECT_TRUE(large->tags.empty());
  ASSERT_EQ(large->unread.size(), 1U);
  EXPECT_NEAR(centre(large->unread[0]).x, kTagScene.width / 2.0, 2);
}

TEST(FindTags, AMirroredOneIsNotRead) {
  Preview preview = shootTag(exampleTag(), {120, 15}, 0.8);
  const auto w = static_cast<std::size_t>(kTagScene.width);
  for (std::size_t y = 0; y < static_cast<std::size_t>(kTagScene.height); ++y)
    for (std::size_t x = 0; x < w / 2; ++x)
      for (std::size_t c = 0; c < 3; ++c) std::swap(preview.rgb[3 * (y * w + x) + c], preview.rgb[3 * (y * w + w - 1 - x) + c]);
  const auto found = findTags(preview);
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->tags.empty());
  EXPECT_EQ(found->unread.size(), 1U);
}

// Markers have no white frame; and tags, whatever they tell, are no markers.
TEST(FindTags, TagsAndMatMarkersAreNeverTakenForEachOther) {
  constexpr Size kWhole{1500, 1125};
  for (const char* name : {"a4", "a4-small", "a4-strip"}) {
    const MatLayout& sheet = fixtures::matLayout(name);
    MatPicture picture(kWhole, 5);
    picture.lay(sheet, fixtures::matHomography(sheet, {.turn = 10, .tilt = 15}, kWhole), fixtures::colourful(sheet));
    const auto found = findTags(picture.take(0.8, 2.5));
    ASSERT_TRUE(found);
    EXPECT_TRUE(found->tags.empty() && found->unread.empty()) << name;
  }
  std::vector<MatMarker> markers;
  for (const MatLayout& sheet : fixtures::matLayouts()) markers.insert(markers.end(), sheet.markers.begin(), sheet.markers.end());
  std::mt19937_64 random(8);
  for (int i = 0; i < 20; ++i) {
    const TagText text{"tag " + std::to_string(random() % 100000), TagParts{static_cast<double>(random() % 9 + 1), 1}, 1 + i % 6, {}};
    const Preview preview = shootTag(text, {80.0 + 8 * i, 18.0 * i, 1.6 * i, 100.0 * i}, 0.7, static_cast<std::uint64_t>(i));
    std::vector<std::uint8_t> grey(preview.rgb.size() / 3);
    for (std::size_t p = 0; p < grey.size(); ++p) grey[p] = preview.rgb[3 * p + 1];
    for (const SearchEffort effort : {SearchEffort::Quick, SearchEffort::Thorough}) EXPECT_TRUE(searchMarkers({preview.size, grey}, markers, effort).empty()) << text.name;
  }
}

TEST(FindTags, NoneInClutter) {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const auto found = findTags(MatPicture({1200, 900}, seed).take(0.8, 2.5));
    ASSERT_TRUE(found);
    EXPECT_TRUE(found->tags.empty() && found->unread.empty()) << seed;
  }
}

void expectNoTags(const std::filesystem::path& folder, int least) {
  int looked = 0;
  for (const auto& file : std::filesystem::directory_iterator(folder)) {
    auto photo = Photo::open(file.path());
    if (!photo) continue;
    const auto preview = photo->preview(1500);
    if (!preview) continue;
    ++looked;
    const auto found = findTags(*preview);
    ASSERT_TRUE(found);
    EXPECT_TRUE(found->tags.empty()) << file.path();
    EXPECT_TRUE(found->unread.empty()) << file.path();
  }
  EXPECT_GE(looked, least);
}

TEST(FindTags, NoneInTheSamplePhotos) { expectNoTags(HUEWRIGHT_SOURCE_DIR "/sample-images", 5); }

// Several of them show other people's fiducials.
TEST(FindTags, NoneInRealPhotos) {
  const auto folder = std::filesystem::path(HUEWRIGHT_SOURCE_DIR) / "../shared/photos";
  if (!std::filesystem::is_directory(folder)) GTEST_SKIP() << "skipped: no ../shared";
  expectNoTags(folder, 12);
}

TEST(FindTags, OddPreviews) {
  EXPECT_TRUE(findTags({{20, 20}, 1, std::vector<std::uint8_t>(1200)}).value().tags.empty());
  EXPECT_TRUE(findTags({{0, 0}, 1, {}}).value().tags.empty());
  EXPECT_TRUE(findTags({{100, 90}, 1, std::vector<std::uint8_t>(27000, 255)}).value().tags.empty());
  EXPECT_EQ(findTags({{100, 90}, 1, std::vector<std::uint8_t>(26999)}).error().code, Code::Internal);
  EXPECT_EQ(findTags({{100, 90}, 0, std::vector<std::uint8_t>(27000)}).error().code, Code::Internal);
}

}  // namespace
}  // namespace huewright
