#include "session/series_names.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

SeriesPanel reading(double weak, double coats, double lightness, const std::string& name = {}, const std::string& piece = {}) {
  SeriesPanel panel;
  panel.strong = 1;
  panel.weak = weak;
  panel.coats = coats;
  panel.lab = {lightness, -20, -8};
  panel.name = name;
  panel.piece = piece;
  return panel;
}

/// Of a photo "img.jpg".
JudgeReport reportOf(const std::vector<std::string>& names, bool stepped = false) {
  JudgeReport r;
  r.photo.path = "in/img.jpg";
  r.names = names;
  r.stepped = stepped;
  r.coats.resize(names.size(), 3.0);
  return r;
}

TEST(NameAnew, ByThePhoto) {
  std::vector<SeriesPanel> there, fresh{reading(3, 3, 50)};
  nameAnew(there, 5, fresh, reportOf({"panel"}));
  EXPECT_EQ(fresh.front().name, "img");
  there = fresh;
  std::vector<SeriesPanel> again{reading(3, 3, 50)}, other{reading(3, 3, 51)};
  nameAnew(there, 5, again, reportOf({"panel"}));
  EXPECT_TRUE(again.empty());
  nameAnew(there, 5, other, reportOf({"panel"}));
  EXPECT_EQ(other.front().name, "img 2");
}

TEST(NameAnew, SeveralPanelsBearTheirOwnNamesToo) {
  JudgeReport r = reportOf({"panel A", "bare ground", "panel C"});
  r.coats[1] = 0;  // what is bare is no reading
  std::vector<SeriesPanel> fresh{reading(3, 3, 50), reading(4, 3, 52)};
  nameAnew({}, 5, fresh, r);
  ASSERT_EQ(fresh.size(), 2U);
  EXPECT_EQ(fresh[0].name, "img, panel A");
  EXPECT_EQ(fresh[1].name, "img, panel C");
}

TEST(NameAnew, StripsHaveOnePieceAllTogetherNewOrNot) {
  const std::vector<SeriesPanel> there{reading(3, 1, 60, {}, "img"), reading(3, 2, 50, {}, "img")};
  std::vector<SeriesPanel> same{reading(3, 1, 60), reading(3, 2, 50)}, other{reading(3, 1, 60), reading(3, 2, 49)};
  nameAnew(there, 5, same, reportOf({"1 coat", "2 coats"}, true));
  EXPECT_TRUE(same.empty());
  nameAnew(there, 5, other, reportOf({"1 coat", "2 coats"}, true));
  ASSERT_EQ(other.size(), 2U);
  for (const SeriesPanel& strip : other) EXPECT_EQ(strip.piece, "img 2");
}

TEST(NameAnew, ATagsPieceStaysUnlessItIsToldOtherwise) {
  const std::vector<SeriesPanel> there{reading(3, 3, 50, "frame 3", "frame 3")};
  const JudgeReport r = reportOf({"panel"});
  std::vector<SeriesPanel> again{reading(3, 3, 51, "frame 3", "frame 3")}, other_mix{reading(4, 3, 51, "frame 3", "frame 3")}, other_carrier{reading(3, 3, 51, "frame 3", "frame 3")};
  other_carrier[0].carrier_per_tint = 6;
  nameAnew(there, 5, again, r);
  nameAnew(there, 5, other_mix, r);
  nameAnew(there, 5, other_carrier, r);
  EXPECT_EQ(again[0].piece, "frame 3");
  EXPECT_EQ(other_mix[0].piece, "frame 3 2");
  EXPECT_EQ(other_carrier[0].piece, "frame 3 2");
  for (const auto* one : {&again, &other_mix, &other_carrier}) EXPECT_EQ(one->front().name, "frame 3 2");
}

TEST(SameReading, IsOfMixCoatsAndLab) {
  EXPECT_TRUE(sameReading(reading(3, 3, 50, "a"), reading(3, 3, 50, "b")));
  EXPECT_FALSE(sameReading(reading(3, 3, 50), reading(3, 3, 50.1)));
  EXPECT_FALSE(sameReading(reading(3, 3, 50), reading(4, 3, 50)));
  EXPECT_FALSE(sameReading(reading(3, 3, 50), reading(3, 2, 50)));
}

}  // namespace
}  // namespace huewright
