#include "desk/arrivals_list.hpp"

#include <gtest/gtest.h>

#include "desk_frames.hpp"
#include "live_job.hpp"

namespace huewright::desk {
namespace {

Frames arrivalsList(float width = 500, float text = 1) {
  return Frames(Page::Live, [](DeskState& view, Drawing& d) { drawArrivals(view.live, d); }, width, 700, text);
}

TEST(ArrivalsList, AClickChoosesAndADoubleClickOpens) {
  Frames frames = arrivalsList();
  fixtures::addArrivals(frames.state);
  frames.frames(2);
  const auto bad = frames.find("desk", {1, "arrival"}), good = frames.find("desk", {2, "arrival"});
  ASSERT_TRUE(good && bad);
  EXPECT_LT(good->y, bad->y);  // the newest stands first
  frames.clicked(bad->x, bad->y);
  EXPECT_EQ(frames.view.live.arrival, 1);
  EXPECT_EQ(chosenArrival(frames.view.live, frames.state)->name, "IMG_1.jpg");
  frames.clicked(good->x, good->y);
  const Actions done = frames.clicked(good->x, good->y);
  ASSERT_TRUE(only<act::OpenPhotos>(done));
  EXPECT_EQ(only<act::OpenPhotos>(done)->files, (std::vector<std::filesystem::path>{"/photos/in/IMG_2.jpg"}));
  EXPECT_TRUE(only<act::OpenPhotos>(done)->same_panel);
}

TEST(ArrivalsList, OneThatWasFiledByItsTagsIsOpenedWithoutWhatWasTold) {
  Arrival arrival;
  arrival.file = "/photos/in/a.jpg";
  arrival.by_tags = true;
  EXPECT_FALSE(std::get<act::OpenPhotos>(openingOf(arrival)).same_panel);
}

TEST(ArrivalsList, ShowsTheColoursOfWhatWasJudged) {
  Frames frames = arrivalsList();
  fixtures::addArrivals(frames.state);
  frames.frames(2);
  EXPECT_GT(fixtures::areaOf(fixtures::kCamePanel), 20);
  frames.state.arrivals.erase(frames.state.arrivals.begin());
  frames.frames(2);
  EXPECT_EQ(fixtures::areaOf(fixtures::kCamePanel), 0);
}

TEST(ArrivalsList, FitsNarrowWindowsAndLargeType) {
  for (const float text : {1.0f, 3.0f}) {
    Frames frames = arrivalsList(420, text);
    fixtures::addArrivals(frames.state);
    frames.state.followed.trouble = "The folder \"/photos/in\" is away. It is waited for; put the card back in, or make the folder again.";
    frames.frames(2);
    EXPECT_LE(frames.tooWide(), 1.0f) << text;
  }
}

}  // namespace
}  // namespace huewright::desk
