#include "scene/mat_layout.hpp"

#include <algorithm>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "temp_dir.hpp"

namespace huewright {
namespace {

using Json = nlohmann::json;

std::vector<MatLayout> shipped() { return readMatLayouts(HUEWRIGHT_SOURCE_DIR "/calib").value(); }

TEST(MatLayout, TheShippedFileReads) {
  const auto layouts = readMatLayouts(HUEWRIGHT_SOURCE_DIR "/calib");
  ASSERT_TRUE(layouts) << layouts.error().detail;
  std::set<std::string> names;
  for (const MatLayout& layout : *layouts) names.insert(layout.name);
  EXPECT_EQ(names, (std::set<std::string>{"a4", "letter", "a4-small", "letter-small", "a4-strip", "letter-strip"}));
  for (const std::string& name : names) EXPECT_EQ(readMatLayout(HUEWRIGHT_SOURCE_DIR "/calib", name)->name, name);
}

TEST(MatLayout, PapersAreThoseThatAreSold) {
  for (const MatLayout& layout : shipped()) {
    // ISO 216: A4 is 210 × 297 mm. ANSI/ASME Y14.1: letter is 8.5 × 11 inches of 25.4 mm.
    const bool a4 = layout.paper == "a4";
    EXPECT_NEAR(layout.page_width, a4 ? 297 : 11 * 25.4, 1e-9) << layout.name;
    EXPECT_NEAR(layout.page_height, a4 ? 210 : 8.5 * 25.4, 1e-9) << layout.name;
    EXPECT_EQ(layout.isCutOut(), layout.sheet == "small" || layout.sheet == "strip") << layout.name;
  }
}

TEST(MatLayout, MarkersTellTheSheet) {
  std::map<int, std::string> sheets;
  for (const MatLayout& layout : shipped())
    for (const MatMarker& marker : layout.markers) {
      const auto& sheet = sheets.emplace(marker.id, layout.sheet).first->second;
      EXPECT_EQ(sheet, layout.sheet) << marker.id;
    }
  EXPECT_EQ(sheets.size(), 14U);
}

TEST(MatLayout, PanelAndCardCanChangePlaces) {
  for (const MatLayout& layout : shipped()) {
    if (layout.aperture) continue;
    const auto card = std::ranges::find(layout.windows, MatWindowKind::Card, &MatWindow::kind);
    ASSERT_NE(card, layout.windows.end());
    EXPECT_NEAR(card->place.x + card->place.width / 2, layout.width / 2, 1e-3) << layout.name;
    for (const MatWindow& window : layout.windows) {
      if (window.kind != MatWindowKind::Panel) continue;
      EXPECT_EQ(window.place.y, card->place.y) << layout.name;  // side by side across the light
      EXPECT_EQ(window.place.width, card->place.width) << layout.name;
      EXPECT_EQ(window.place.height, card->place.height) << layout.name;
    }
  }
}

// Said again without the code under test: a plain gap between every two things that are found in a photo.
TEST(MatLayout, BlankPaperAllRound) {
  for (const MatLayout& layout : shipped()) {
    std::vector<MatRect> things;
    for (const MatMarker& marker : layout.markers) things.push_back({marker.x, marker.y, marker.side, marker.side});
    for (const MatWindow& window : layout.windows) things.push_back(window.place);
    if (layout.aperture) things.push_back(*layout.aperture);
    const std::size_t found = things.size();
    things.insert(things.end(), {layout.areas.title, layout.areas.lamp, layout.areas.caution, layout.areas.pictograms, layout.areas.notes});
    for (std::size_t i = 0; i < found; ++i) {
      const MatRect& a = things[i];
      EXPECT_GE(std::min({a.x, a.y, layout.width - a.x - a.width, layout.height - a.y - a.height}), 8) << layout.name << " " << i;
      for (std::size_t j = i + 1; j < things.size(); ++j) {
        const MatRect& b = things[j];
        const bool apart = b.x >= a.x + a.width + 7.999 || a.x >= b.x + b.width + 7.999 || b.y >= a.y + a.height + 7.999 || a.y >= b.y + b.height + 7.999;
        EXPECT_TRUE(apart) << layout.name << " " << i << " " << j;
      }
    }
  }
}

TEST(MatLayout, EveryWindowHasDotsBesideIt) {
  for (const MatLayout& layout : shipped()) {
    std::vector<MatRect> places;
    for (const MatWindow& window : layout.windows) places.push_back(window.place);
    if (layout.aperture) places.push_back(*layout.aperture);
    for (const MatRect& place : places) {
      const auto beside = std::ranges::count_if(layout.dots.centres, [&](const Point& c) {
        return c.x > place.x - 12 && c.x < place.x + place.width + 12 && c.y > place.y - 12 && c.y < place.y + place.height + 12;
      });
      EXPECT_GE(beside, 2) << layout.name << " " << place.x;
    }
  }
}

TEST(MatLayout, WindowsAreCalledByName) {
  EXPECT_EQ(matWindowName({MatWindowKind::Panel, 3, {}, false}), "Panel D");
  EXPECT_EQ(matWindowName({MatWindowKind::Card, 0, {}, false}), "Card");
  EXPECT_EQ(matWindowName({MatWindowKind::Grey, 1, {}, false}), "Grey 2");
  EXPECT_EQ(matWindowName({MatWindowKind::Black, 0, {}, false}), "Black");
}

TEST(CloserThan, MeasuresTheGap) {
  const MatRect a{0, 0, 10, 10};
  EXPECT_TRUE(closerThan(a, {5, 5, 10, 10}, 0));
  EXPECT_TRUE(closerThan(a, {2, 2, 1, 1}, 0));
  EXPECT_FALSE(closerThan(a, {10, 0, 5, 5}, 0));  // a shared edge
  EXPECT_TRUE(closerThan(a, {17, 0, 5, 5}, 8));
  EXPECT_FALSE(closerThan(a, {18, 0, 5, 5}, 8));
  EXPECT_FALSE(closerThan(a, {0, -13, 5, 5}, 8));
  EXPECT_TRUE(closerThan(a, {0, -12, 5, 5}, 8));
}

Json shippedJson() {
  std::ifstream file(HUEWRIGHT_SOURCE_DIR "/calib/mat.json");
  return Json::parse(file);
}

Result<std::vector<MatLayout>> read(const fixtures::TempDir& folder, const std::string& text) {
  folder.put("mat.json", {reinterpret_cast<const unsigned char*>(text.data()), text.size()});
  return readMatLayouts(folder.path());
}

// Each row spoils one value of the shipped file.
TEST(MatLayout, SpoiledFilesAreRefused) {
  struct Row {
    const char* at;
    Json value;
    const char* says;
  };
  const fixtures::TempDir folder;
  const Json good = shippedJson();
  ASSERT_TRUE(read(folder, good.dump()));
  for (const Row& row :
       {Row{"/sheets/0/windows/1/x", 30, "too close"},                // nearer than 8 mm to its neighbour
        Row{"/sheets/0/windows/1/x", 84.5, "too close"},              // on its neighbour
        Row{"/sheets/0/windows/1/y", 35, "too close"},                // near the words at the top
        Row{"/sheets/0/windows/6/x", 290, "reaches over the sheet"},
        Row{"/sheets/0/windows/1/width", 0, "above zero"},
        Row{"/sheets/0/windows/1/height", -5, "above zero"},
        Row{"/sheets/0/windows/1/x", "left", ""},
        Row{"/sheets/0/windows/1/x", 1e9, "out of range"},
        Row{"/sheets/0/windows/1/kind", "tile", "unknown kind"},
        Row{"/sheets/0/windows/1/index", 2, "out of order"},
        Row{"/sheets/0/windows/1/index", 0.5, "whole number"},
        Row{"/sheets/0/windows/3/kind", "black", ""},                 // no card is left
        Row{"/sheets/0/windows/1/label", "left", "neither above nor below"},
        Row{"/sheets/0/windows", Json::array(), "number of windows"},
        Row{"/sheets/3/aperture", nullptr, "number of windows"},
        Row{"/sheets/3/aperture/x", 65, "too close"},
        Row{"/sheets/0/markers/1/id", 133, "stands twice"},
        Row{"/sheets/1/markers/1/id", 133, "stands twice"},           // on another sheet
        Row{"/sheets/0/markers/1/id", 9, "no pattern"},
        Row{"/sheets/0/markers/1/id", -1, "out of range"},
        Row{"/sheets/0/markers/0/x", 1, "white round it"},
        Row{"/sheets/0/markers/0/side", 30, "too close"},
        Row{"/sheets/0/markers", Json::array(), "two markers"},
        Row{"/sheets/0/dots/centres/3", {56.5, 138}, "too close"},    // in a window
        Row{"/sheets/0/dots/centres/3", {56.5, 141.5}, "too close"},
        Row{"/sheets/0/dots/centres/3", {56.5}, "not x and y"},
        Row{"/sheets/0/dots/centres/3", {56.5, 45}, "too close"},     // twice in one place
        Row{"/sheets/0/dots/diameter", 0, "above zero"},
        Row{"/sheets/0/ruler/length", 99, "100 mm"},
        Row{"/sheets/0/ruler/x", 240, "reaches over the paper"},
        Row{"/sheets/0/ruler/y", 138, "too close"},
        Row{"/sheets/0/areas/notes/y", 160, "too close"},             // on the pictograms
        Row{"/sheets/0/areas/notes", nullptr, ""},
        Row{"/sheets/0/ticks/gap", 0, "above zero"},
        Row{"/sheets/0/width", 300, "over the paper"},
        Row{"/sheets/1/name", "a4", "two sheets"},
        Row{"/prints/1/name", "a4", "two prints"},
        Row{"/prints/0/paper", "a3", "unknown sheet or paper"},
        Row{"/prints/0/sheet", "a3", "unknown sheet or paper"},
        Row{"/prints/2/left", 2, "over the paper"},                   // where printers leave blank
        Row{"/printer_margin", -1, "out of range"},
        Row{"/printer_margin", 15, ""},
        Row{"/dictionary/cells", 5, "4 by 4"},
        Row{"/dictionary/patterns/0/id", 1000, "pattern"},
        Row{"/dictionary/patterns/0/rows/0", "10112", "pattern"},
        Row{"/dictionary/patterns/0/rows/0", "101x", "pattern"},
        Row{"/dictionary/patterns/1/id", 133, "pattern"},
        Row{"/papers/0/width", 0, "above zero"}}) {
    Json spoiled = good;
    spoiled[Json::json_pointer(row.at)] = row.value;
    const auto layouts = read(folder, spoiled.dump());
    ASSERT_FALSE(layouts) << row.at << " " << row.value;
    EXPECT_EQ(layouts.error().code, Code::DataMissing) << row.at;
    EXPECT_NE(layouts.error().detail.find(row.says), std::string::npos) << row.at << ": " << layouts.error().detail;
    EXPECT_NE(layouts.error().detail.find("mat.json"), std::string::npos) << layouts.error().detail;
  }
}

TEST(MatLayout, BrokenFilesAreRefused) {
  const fixtures::TempDir folder;
  EXPECT_EQ(readMatLayouts(folder.path()).error().code, Code::DataMissing);
  for (const char* text : {"", "{", "{}", "[]", R"({"sheets": 1, "prints": 2})"}) {
    const auto layouts = read(folder, text);
    ASSERT_FALSE(layouts) << text;
    EXPECT_EQ(layouts.error().code, Code::DataMissing) << text;
  }
  const auto unknown = readMatLayout(HUEWRIGHT_SOURCE_DIR "/calib", "a3");
  ASSERT_FALSE(unknown);
  EXPECT_EQ(unknown.error().code, Code::DataMissing);
  std::filesystem::remove(folder.path() / "mat.json");
  std::filesystem::create_directory(folder.path() / "mat.json");
  EXPECT_EQ(readMatLayouts(folder.path()).error().code, Code::DataMissing);
}

}  // namespace
}  // namespace huewright
