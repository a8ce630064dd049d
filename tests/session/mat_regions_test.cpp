#include "session/mat_regions.hpp"

#include <array>
#include <cmath>
#include <gtest/gtest.h>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"
#include "judge/reading.hpp"
#include "mat_picture.hpp"
#include "photo/write.hpp"
#include "session/session.hpp"
#include "support/mat_layouts.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

using fixtures::Filled;
using fixtures::MatPicture;
using fixtures::kCalib;
using fixtures::matLayouts;

const Size kSize{1400, 1050};
// Linear light; the panel a little deeper than the card.
const fixtures::Light kPanelLight{0.035, 0.19, 0.22}, kCardLight{0.040, 0.22, 0.24}, kGreyLight{0.19, 0.19, 0.19};

/// An A4 mat with so many panels, a card or not, and a grey or not.
Preview shootMat(int panels, bool card, bool grey) {
  const MatLayout a4 = readMatLayout(kCalib, "a4").value();
  fixtures::Contents contents(a4.windows.size());
  for (std::size_t i = 0; i < a4.windows.size(); ++i) {
    const MatWindow& w = a4.windows[i];
    if (w.kind == MatWindowKind::Panel && w.index < panels) contents[i] = Filled{kPanelLight};
    if (w.kind == MatWindowKind::Card && card) contents[i] = Filled{kCardLight};
    if (w.kind == MatWindowKind::Grey && grey) contents[i] = Filled{kGreyLight};
  }
  MatPicture picture(kSize, 7);
  picture.lay(a4, fixtures::matHomography(a4, {.turn = 4, .tilt = 12}, kSize), contents);
  return picture.take(0.6, 1.5);
}

Result<Regions> regionsIn(const Preview& preview, bool need_card = true) {
  const auto all = matLayouts();
  const auto mat = findMat(preview, all);
  if (!mat) return std::unexpected(mat.error());
  return regionsOnMat(preview, *mat, need_card);
}

TEST(RegionsOnMat, OnlyFilledWindowsCount) {
  const auto r = regionsIn(shootMat(2, true, true));
  ASSERT_TRUE(r) << sentence(r.error());
  EXPECT_EQ(r->panels.size(), 2u);
  EXPECT_TRUE(r->card);
  EXPECT_EQ(r->greys.size(), 2u);
}

TEST(RegionsOnMat, EmptyWindowsAreNamed) {
  const auto no_panel = regionsIn(shootMat(0, true, true)), no_card = regionsIn(shootMat(1, false, true));
  ASSERT_FALSE(no_panel);
  EXPECT_EQ(no_panel.error().code, Code::MatEmpty);
  EXPECT_NE(no_panel.error().detail.find("panel"), std::string::npos);
  ASSERT_FALSE(no_card);
  EXPECT_EQ(no_card.error().code, Code::MatEmpty);
  EXPECT_NE(no_card.error().detail.find("card"), std::string::npos);
  const auto numbers = regionsIn(shootMat(1, false, true), false);  // the card as numbers: its window may be empty
  ASSERT_TRUE(numbers);
  EXPECT_FALSE(numbers->card);
}

TEST(RegionsOnMat, AStripShowsOnePartAndHasNoPlaceForACard) {
  const MatLayout strip = readMatLayout(kCalib, "a4-strip").value();
  MatPicture picture(kSize, 7);
  picture.lay(strip, fixtures::matHomography(strip, {.turn = 2}, kSize));
  const Preview preview = picture.take(0.6, 1.5);
  const auto with = regionsIn(preview), numbers = regionsIn(preview, false);
  ASSERT_FALSE(with);
  EXPECT_EQ(with.error().code, Code::MatNoCard);
  EXPECT_EQ(exitCode(with.error().code), 3);  // 2 is for what is seen before any file is opened
  ASSERT_TRUE(numbers) << sentence(numbers.error());
  EXPECT_EQ(numbers->panels.size(), 1u);
}

// The outline is that of the markers on paper, through the pose that the picture was drawn with.
TEST(FindMatScene, TheOutlineGoesRoundTheMarkers) {
  const MatLayout a4 = readMatLayout(kCalib, "a4").value();
  const auto found = findMatScene(kSize, shootMat(2, true, true), matLayouts(), true);
  ASSERT_TRUE(found) << sentence(found.error());
  const Mat3 pose = fixtures::matHomography(a4, {.turn = 4, .tilt = 12}, kSize);
  const auto& m = a4.markers;  // clockwise from the top left
  ASSERT_EQ(m.size(), 4u);
  const std::array<Point, 4> paper{{{m[0].x, m[0].y}, {m[1].x + m[1].side, m[1].y}, {m[2].x + m[2].side, m[2].y + m[2].side}, {m[3].x, m[3].y + m[3].side}}};
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec3 at = pose * Vec3{paper[i].x, paper[i].y, 1};
    EXPECT_NEAR(found->outline.corners[i].x, at[0] / at[2], 2.0) << i;
    EXPECT_NEAR(found->outline.corners[i].y, at[1] / at[2], 2.0) << i;
  }
}

TEST(JudgeWithoutRegions, TheMatIsFoundAndThePanelJudged) {
  const fixtures::TempDir folder;
  const Preview shot = shootMat(2, true, true);
  ASSERT_TRUE(writePng(folder.path() / "mat.png", shot.size, shot.rgb));
  JudgeRequest request;
  request.photo = folder.path() / "mat.png";
  request.grey_y = 0.19;
  request.card_kind = CardKind::Same;
  const auto session = Session::open(kCalib);
  ASSERT_TRUE(session);
  const auto report = session->judge(request);
  ASSERT_TRUE(report) << sentence(report.error());
  const auto lab = [](const fixtures::Light& l) { return toLab(toXyzD50(LinearSrgb{l[0], l[1], l[2]})); };
  EXPECT_NEAR(report->verdicts[0].de00, deltaE2000(lab(kPanelLight), lab(kCardLight)), 0.3);
  EXPECT_EQ(report->ranking.order.size(), 2u);
  ASSERT_TRUE(report->mat);
  for (const Quad& panel : report->regions.panels) EXPECT_TRUE(contains(*report->mat, centre(panel)));
  request.mixes = {{1, 2}, {1, 3}, {1, 4}};
  EXPECT_EQ(session->judge(request).error().code, Code::MatMixes);
  EXPECT_EQ(exitCode(Code::MatMixes), 3);
}

TEST(JudgeWithoutRegions, APhotoWithoutAMatSaysSo) {
  JudgeRequest request;
  request.photo = HUEWRIGHT_SOURCE_DIR "/sample-images/there.jpg";
  const auto report = Session::open(kCalib)->judge(request);
  ASSERT_FALSE(report);
  EXPECT_EQ(report.error().code, Code::MatNotFound);
  EXPECT_EQ(exitCode(report.error().code), 3);
}

}  // namespace
}  // namespace huewright
