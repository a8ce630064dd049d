#include "scene/window_state.hpp"

#include <algorithm>
#include <filesystem>
#include <gtest/gtest.h>

#include "support/mat_picture.hpp"

namespace huewright {
namespace {

using fixtures::Contents;
using fixtures::Filled;
using fixtures::Light;
using fixtures::MatPicture;

constexpr Size kWindowsSize{1500, 1125};

class Windows : public testing::Test {
 protected:
  const std::vector<MatLayout> layouts = readMatLayouts(std::filesystem::path(HUEWRIGHT_SOURCE_DIR) / "calib").value();
  const MatLayout& sheet = *std::ranges::find(layouts, "a4", &MatLayout::name);

  /// What each window is taken for, in a photo with a fall-off of 15 % that is turned a little.
  std::vector<WindowState> states(const Contents& contents, double direction, std::optional<std::pair<Point, Point>> shadow = {}) const {
    MatPicture picture(kWindowsSize, 3);
    picture.lay(sheet, fixtures::matHomography(sheet, {.turn = direction, .tilt = 20, .towards = direction / 2}, kWindowsSize), contents);
    picture.fallOff(0.15, direction);
    if (shadow) picture.shade(shadow->first, shadow->second, 0.4);
    const Preview preview = picture.take(0.8, 2.5);
    const auto mat = findMat(preview, layouts);
    if (!mat) throw std::runtime_error(sentence(mat.error()));
    std::vector<WindowState> all;
    for (std::size_t i = 0; i < mat->windows.size(); ++i) {
      all.push_back(windowState(preview, *mat, i));
    }
    return all;
  }
};

TEST_F(Windows, AnEmptySheetIsEmpty) {
  for (const double direction : {0.0, 70.0, 200.0})
    for (const WindowState state : states({}, direction)) EXPECT_EQ(state, WindowState::Empty) << direction;
}

TEST_F(Windows, ColoursAreFilledAndTheirNeighboursStayEmpty) {
  const std::vector<Light> colours{{0.02, 0.25, 0.30}, {0.75, 0.60, 0.05}, {0.45, 0.06, 0.05}, {0.18, 0.18, 0.18}, {0.60, 0.60, 0.58},
                                   {0.70, 0.75, 0.78}, {0.02, 0.02, 0.02}, {0.80, 0.72, 0.60}};
  for (std::size_t first = 0; first < 2; ++first) {
    Contents contents(sheet.windows.size());
    for (std::size_t i = first; i < contents.size(); i += 2) contents[i] = Filled{colours[i], 0.1, 0.3};
    const auto found = states(contents, 130);
    for (std::size_t i = 0; i < contents.size(); ++i)
      EXPECT_EQ(found[i], contents[i] ? WindowState::Filled : WindowState::Empty) << matWindowName(sheet.windows[i]);
  }
}

TEST_F(Windows, PanelsThatReachOverTheirWindow) {
  Contents contents(sheet.windows.size());
  for (std::size_t i : {1U, 3U, 5U}) contents[i] = Filled{{0.02, 0.25, 0.30}, 0, -2};  // 2 mm on each side, over the ring
  const auto found = states(contents, 40);
  for (std::size_t i : {1U, 3U, 5U}) EXPECT_EQ(found[i], WindowState::Filled) << i;
  for (std::size_t i : {2U, 4U, 6U}) EXPECT_EQ(found[i], WindowState::Empty) << i;
}

TEST_F(Windows, AWhiteCardIsNeverTakenForAColour) {
  Contents contents(sheet.windows.size());
  contents[3] = Filled{{0.85, 0.85, 0.84}, 0, 0};
  EXPECT_NE(states(contents, 10)[3], WindowState::Filled);
}

TEST_F(Windows, ColoursInHalfShadeAreFilled) {
  const auto found = states(fixtures::colourful(sheet), 15, std::pair{Point{500, 0}, Point{900, 1125}});
  // The mid grey in the shade could be a shadow; colours could not.
  for (std::size_t i : {1U, 2U, 4U, 5U, 6U, 7U}) EXPECT_EQ(found[i], WindowState::Filled) << matWindowName(sheet.windows[i]);
  EXPECT_NE(found[3], WindowState::Empty);
}

TEST_F(Windows, AHardShadowDoesNotFillAWindow) {
  // Across the sheet, through windows of all kinds.
  for (const double tilt : {0.0, 120.0, 300.0})
    for (const WindowState state : states({}, 15, std::pair{Point{300 + tilt, 0}, Point{900 - tilt, 1125}})) EXPECT_NE(state, WindowState::Filled);
}

// Things smaller than their window, a grey and a coloured one: what is read must lie on the thing, and be most of it.
TEST_F(Windows, WhatIsReadLiesOnTheThing) {
  for (const double smaller : {-1.0, 0.0, 1.0, 2.0, 3.0}) {
    Contents contents(sheet.windows.size());
    for (std::size_t i = 0; i < sheet.windows.size(); ++i) {
      const MatWindowKind kind = sheet.windows[i].kind;
      if (kind == MatWindowKind::Grey) contents[i] = Filled{{0.19, 0.19, 0.19}, 0, smaller};
      if (kind == MatWindowKind::Panel) contents[i] = Filled{{0.05, 0.2, 0.22}, 0.05, smaller};
      if (kind == MatWindowKind::Card) contents[i] = Filled{{0.75, 0.75, 0.73}, 0, smaller};  // as pale as paper
    }
    MatPicture picture(kWindowsSize, 3);
    picture.lay(sheet, fixtures::matHomography(sheet, {.turn = 5, .tilt = 15}, kWindowsSize), contents);
    picture.fallOff(0.15, 30);
    const Preview preview = picture.take(0.8, 2.5);
    const auto mat = findMat(preview, layouts);
    ASSERT_TRUE(mat);
    for (std::size_t i = 0; i < sheet.windows.size(); ++i) {
      if (!contents[i] || sheet.windows[i].kind == MatWindowKind::Card) continue;
      const MatRect read = windowContents(preview, *mat, i), &w = sheet.windows[i].place;
      const double rim = std::max(0.0, smaller);
      SCOPED_TRACE(testing::Message() << matWindowName(sheet.windows[i]) << ", smaller by " << smaller);
      EXPECT_GE(read.x, w.x + rim);
      EXPECT_GE(read.y, w.y + rim);
      EXPECT_LE(read.x + read.width, w.x + w.width - rim);
      EXPECT_LE(read.y + read.height, w.y + w.height - rim);
      const double most = sheet.windows[i].kind == MatWindowKind::Grey ? 0.4 : 0.5;  // of a narrow piece the margins take more
      EXPECT_GT(read.width * read.height, most * (w.width - 2 * rim) * (w.height - 2 * rim));
    }
  }
}

}  // namespace
}  // namespace huewright
