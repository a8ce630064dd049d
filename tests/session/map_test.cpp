// The map of a rendered panel: written whole, sized, tagged, and honest in words.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>

#include "render/picture_file.hpp"
#include "session/session.hpp"
#include "support/calib.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

using fixtures::kCalib;

MapRequest mapRequestFor(const std::filesystem::path& photo, const render::Rendered& picture, const std::filesystem::path& out) {
  MapRequest r;
  r.judge.photo = photo;
  r.judge.regions = picture.regions;
  r.judge.grey_y = 0.19;
  r.judge.card_kind = CardKind::Same;
  r.out = out;
  return r;
}

render::SceneSpec mottledScene(double mottle) {
  render::SceneSpec s;
  s.shop.style = render::linearStyle();
  s.panels[0].paint.ground = s.card.paint.ground = render::Ground::PearlWhite;
  s.panels[0].paint.share = 0.45;
  s.panels[0].finish.mottle = mottle;
  s.panels[0].finish.mottle_px = 25;
  s.panels[0].finish.flake = 0;
  return s;
}

std::string bytesOf(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(Map, IsWrittenWithItsTagAndSaysHowEvenThePanelIs) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  std::vector<std::string> words;
  for (const double mottle : {0.003, 0.10}) {
    const auto picture = render::render(mottledScene(mottle), 3);
    const auto photo = folder.path() / "p.tif", out = folder.path() / "map.png";
    render::writePicture(photo, picture);
    const auto report = session.map(mapRequestFor(photo, picture, out));
    ASSERT_TRUE(report) << sentence(report.error());
    const std::string bytes = bytesOf(out);
    EXPECT_EQ(bytes.substr(1, 3), "PNG");
    EXPECT_NE(bytes.find("sRGB"), std::string::npos);
    ASSERT_EQ(report->sentences.size(), 1u);
    words.push_back(report->sentences[0]);
    EXPECT_EQ(report->judge.verdicts[0].de00, session.judge(mapRequestFor(photo, picture, out).judge)->verdicts[0].de00);
  }
  EXPECT_EQ(words[0].find("mottled: places"), std::string::npos) << words[0];
  EXPECT_NE(words[1].find("mottled: places differ by about"), std::string::npos) << words[1];
}

// The map must go through the same profile as the verdict: on an even panel the two agree all over.
TEST(Map, GoesThroughTheChartsProfile) {
  const fixtures::TempDir folder;
  render::SceneSpec s = mottledScene(0.0);
  s.size = {1200, 900};
  s.shop.lamp.light = "A";
  s.shop.style = render::plainJpeg();
  s.shop.style.contrast = 0.5;
  s.shop.camera.exposure = 0.6;
  s.panels[0].place = {60, 60, 240, 340, 0};
  s.card.place = {340, 60, 240, 340, 0};
  s.greys[0].place = {620, 180, 110, 110, 0};
  s.chart = render::ChartSpec{};
  s.chart->place = {760, 80, 380, 0, 0};
  const auto picture = render::render(s, 3);
  render::writePicture(folder.path() / "p.jpg", picture);
  MapRequest request = mapRequestFor(folder.path() / "p.jpg", picture, folder.path() / "map.png");
  const auto session = Session::open(kCalib).value();
  const auto report = session.map(request);
  ASSERT_TRUE(report) << sentence(report.error());
  ASSERT_TRUE(report->judge.chart);
  EXPECT_NEAR(report->median_de00, report->judge.verdicts[0].de00, 0.35);
}

TEST(Map, RefusesOtherEndingsAndSecondShotsBeforeAnyFileIsOpened) {
  const auto session = Session::open(kCalib).value();
  MapRequest r;
  r.judge.photo = "no-such.jpg";
  EXPECT_EQ(session.map(r).error().code, Code::BadChoice);
  r.out = "map.jpg";
  EXPECT_EQ(session.map(r).error().code, Code::BadChoice);
  r.out = "map.png";
  r.judge.swapped = "b.jpg";
  EXPECT_EQ(session.map(r).error().code, Code::BadChoice);
  r.judge.swapped.reset();
  EXPECT_EQ(session.map(r).error().code, Code::FileMissing);
}

TEST(Map, AnUnwritablePlaceIsSaidAndLeavesNothing) {
  const fixtures::TempDir folder;
  const auto picture = render::render(mottledScene(0.01), 3);
  render::writePicture(folder.path() / "p.tif", picture);
  const auto out = folder.path() / "no-such-folder" / "map.png";
  const auto report = Session::open(kCalib)->map(mapRequestFor(folder.path() / "p.tif", picture, out));
  ASSERT_FALSE(report);
  EXPECT_EQ(report.error().code, Code::WriteFailed);
  EXPECT_FALSE(std::filesystem::exists(out));
}

}  // namespace
}  // namespace huewright
