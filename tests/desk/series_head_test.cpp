#include <gtest/gtest.h>

#include "desk/series_parts.hpp"
#include "desk_frames.hpp"
#include "teal_job.hpp"

namespace huewright::desk {
namespace {

struct HeadRow {
  const char* field;
  const char* text;
  bool taken;
};

TEST(SeriesHead, WhatMayBeSuggestedCanBeChanged) {
  const HeadRow rows[] = {{"##strong name", "blue", true}, {"##carrier next", "6", true}, {"##most parts", "12", true}, {"##most parts", "25", false}, {"##least coats", "2", true},
                          {"##most coats", "0.5", false} /* fewer than the least, which is 1 */, {"##weak name", "teal, strong", false} /* the other's */};
  Frames frames(Page::Mixes, [](DeskState& view, Drawing& d) { drawSeriesHead(view.series, d); });
  frames.state = tealJob();
  for (const HeadRow& row : rows) {
    SCOPED_TRACE(testing::Message() << row.field << " " << row.text);
    frames.view.series.trouble.clear();
    const auto at = frames.find("desk", {row.field});
    ASSERT_TRUE(at);
    frames.clicked(at->x, at->y);
    const Actions done = frames.typed(row.text);
    EXPECT_EQ(only<act::SetSeries>(done) != nullptr, row.taken);
    EXPECT_EQ(frames.view.series.trouble.empty(), row.taken);
    const auto* set = only<act::SetSeries>(done);
    if (!set) continue;
    const std::string_view field = row.field;
    if (field == "##strong name") { EXPECT_EQ(set->series.strong_name, "blue"); }
    if (field == "##carrier next") { EXPECT_EQ(set->series.carrier_per_tint, 6); }
    if (field == "##most parts") { EXPECT_EQ(set->series.limits.max_total_parts, 12); }
    if (field == "##least coats") { EXPECT_EQ(set->series.limits.coats_low, 2); }
    EXPECT_EQ(set->series.panels.size(), 3U);
  }
}

}  // namespace
}  // namespace huewright::desk
