#include "scene/mat_layout.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <utility>

namespace huewright {
namespace {

using Json = nlohmann::json;

constexpr std::array<std::string_view, kMatWindowKindCount> kKinds{"panel", "card", "grey", "black"};
constexpr double kLargestLayout = 2000;  // mm; a sheet beyond this is a slip
constexpr double kRulerLength = 100;     // mm; the sheet's text names it
constexpr int kDictionarySize = 1000;    // of DICT_4X4_1000
constexpr double kDotClear = 2;          // mm of blank paper round a dot
constexpr double kSlack = 1e-9;          // mm; sums of decimal fractions

/// Thrown inside this file only: the words go into the detail of DataMissing.
struct Wrong {
  std::string what;
};

double number(const Json& json, const char* key) {
  const double value = json.at(key).get<double>();
  if (!std::isfinite(value) || std::abs(value) > kLargestLayout) throw Wrong{std::string(key) + " is out of range"};
  return value;
}

double lengthOf(const Json& json, const char* key) {
  const double value = number(json, key);
  if (value <= 0) throw Wrong{std::string(key) + " must be above zero"};
  return value;
}

int whole(const Json& json, const char* key) {
  const Json& value = json.at(key);
  if (!value.is_number_integer()) throw Wrong{std::string(key) + " must be a whole number"};
  const auto n = value.get<std::int64_t>();
  if (n < 0 || n > 1000) throw Wrong{std::string(key) + " is out of range"};
  return static_cast<int>(n);
}

MatRect rectOf(const Json& json) { return {number(json, "x"), number(json, "y"), lengthOf(json, "width"), lengthOf(json, "height")}; }

std::map<int, std::array<std::array<bool, 4>, 4>> patternsOf(const Json& dictionary) {
  std::map<int, std::array<std::array<bool, 4>, 4>> patterns;
  if (whole(dictionary, "cells") != 4 || whole(dictionary, "border") != 1) throw Wrong{"markers must have 4 by 4 cells and a border of 1"};
  for (const Json& row : dictionary.at("patterns")) {
    const int id = whole(row, "id");
    const auto rows = row.at("rows").get<std::vector<std::string>>();
    std::array<std::array<bool, 4>, 4> white{};
    bool good = id < kDictionarySize && rows.size() == 4 && !patterns.contains(id);
    for (std::size_t y = 0; good && y < 4; ++y) {
      good = rows[y].size() == 4 && rows[y].find_first_not_of("01") == std::string::npos;
      for (std::size_t x = 0; good && x < 4; ++x) white[y][x] = rows[y][x] == '1';
    }
    if (!good) throw Wrong{"the pattern of marker " + std::to_string(id)};
    patterns[id] = white;
  }
  return patterns;
}

MatLayout sheetOf(const Json& json, const Json& dictionary) {
  const auto patterns = patternsOf(dictionary);
  MatLayout sheet;
  sheet.sheet = json.at("name").get<std::string>();
  sheet.title = json.at("title").get<std::string>();
  sheet.width = lengthOf(json, "width");
  sheet.height = lengthOf(json, "height");
  sheet.clear = lengthOf(json, "clear");
  sheet.dictionary = dictionary.at("name").get<std::string>();
  for (const Json& row : json.at("markers")) {
    const auto pattern = patterns.find(whole(row, "id"));
    if (pattern == patterns.end()) throw Wrong{"marker " + std::to_string(whole(row, "id")) + " has no pattern"};
    sheet.markers.push_back({pattern->first, number(row, "x"), number(row, "y"), lengthOf(row, "side"), pattern->second});
  }
  for (const Json& row : json.at("windows")) {
    const auto kind = std::ranges::find(kKinds, row.at("kind").get<std::string>());
    const auto label = row.at("label").get<std::string>();
    if (kind == kKinds.end()) throw Wrong{"a window of an unknown kind"};
    if (label != "above" && label != "below") throw Wrong{"a label that is neither above nor below"};
    sheet.windows.push_back({static_cast<MatWindowKind>(kind - kKinds.begin()), whole(row, "index"), rectOf(row), label == "below"});
  }
  if (const Json& aperture = json.at("aperture"); !aperture.is_null()) sheet.aperture = rectOf(aperture);
  sheet.dots.diameter = lengthOf(json.at("dots"), "diameter");
  for (const Json& centre : json.at("dots").at("centres")) {
    if (!centre.is_array() || centre.size() != 2) throw Wrong{"a dot that is not x and y"};
    sheet.dots.centres.push_back({centre[0].get<double>(), centre[1].get<double>()});
  }
  const Json &ticks = json.at("ticks"), &labels = json.at("labels"), &ruler = json.at("ruler"), &areas = json.at("areas");
  sheet.ticks = {lengthOf(ticks, "gap"), lengthOf(ticks, "length"), lengthOf(ticks, "width")};
  sheet.labels = {lengthOf(labels, "size"), lengthOf(labels, "gap")};
  sheet.ruler = {number(ruler, "x"), number(ruler, "y"), lengthOf(ruler, "length")};
  sheet.areas = {rectOf(areas.at("title")), rectOf(areas.at("lamp")), rectOf(areas.at("caution")), rectOf(areas.at("pictograms")),
                 rectOf(areas.at("notes"))};
  return sheet;
}

bool within(const MatRect& inner, const MatRect& outer) {
  return inner.x >= outer.x - kSlack && inner.y >= outer.y - kSlack && inner.x + inner.width <= outer.x + outer.width + kSlack &&
         inner.y + inner.height <= outer.y + outer.height + kSlack;
}

MatRect smaller(const MatRect& rect, double by) { return {rect.x + by, rect.y + by, rect.width - 2 * by, rect.height - 2 * by}; }

struct Thing {
  std::string name;
  MatRect place;
};

/// What a sheet must hold: one card, or an aperture; panels and greys counted from 0; at most four panels, two greys and one black.
void checkCounts(const MatLayout& sheet) {
  std::array<int, kMatWindowKindCount> count{};
  for (const MatWindow& window : sheet.windows)
    if (window.index != count[static_cast<std::size_t>(window.kind)]++) throw Wrong{matWindowName(window) + " is out of order"};
  const auto [panels, cards, greys, blacks] = count;
  const bool flat = !sheet.aperture && panels >= 1 && panels <= 4 && cards == 1, bent = sheet.aperture && panels == 0 && cards == 0;
  if (!(flat || bent) || greys < 1 || greys > 2 || blacks > 1) throw Wrong{"the number of windows"};
  if (sheet.markers.size() < 2) throw Wrong{"fewer than two markers"};
  if (sheet.ruler.length != kRulerLength) throw Wrong{"the ruler must be 100 mm long"};
}

void checkPlaces(const MatLayout& layout) {
  const MatRect sheet{0, 0, layout.width, layout.height};
  const MatRect printable = smaller({-layout.left, -layout.top, layout.page_width, layout.page_height}, layout.printer_margin);
  if (!within(sheet, layout.isCutOut() ? printable : MatRect{-layout.left, -layout.top, layout.page_width, layout.page_height}))
    throw Wrong{"the sheet reaches over the paper"};

  std::vector<Thing> things, words;  // what is found in a photo, and what people read
  for (const MatMarker& marker : layout.markers) {
    things.push_back({"marker " + std::to_string(marker.id), placeOf(marker)});
    if (!within(things.back().place, smaller(sheet, marker.side / kMatMarkerCells)))
      throw Wrong{things.back().name + " has too little white round it"};
  }
  for (const MatWindow& window : layout.windows) things.push_back({matWindowName(window), window.place});
  if (layout.aperture) things.push_back({"the aperture", *layout.aperture});
  const MatRect ruler{layout.ruler.x, layout.ruler.y, layout.ruler.length, 0};
  words = {{"the title", layout.areas.title},           {"the lamp", layout.areas.lamp},   {"the caution", layout.areas.caution},
           {"the pictograms", layout.areas.pictograms}, {"the notes", layout.areas.notes}, {"the ruler", ruler}};

  const MatRect usable{std::max(0.0, printable.x), std::max(0.0, printable.y), 0, 0};
  const MatRect on_sheet{usable.x, usable.y, std::min(layout.width, printable.x + printable.width) - usable.x,
                         std::min(layout.height, printable.y + printable.height) - usable.y};
  for (const Thing& thing : things)
    if (!within(thing.place, on_sheet)) throw Wrong{thing.name + " reaches over the sheet"};
  for (const Thing& word : words)
    if (!within(word.place, printable)) throw Wrong{word.name + " reaches over the paper"};
  const auto apart = [](const Thing& a, const Thing& b, double least) {
    if (closerThan(a.place, b.place, least)) throw Wrong{a.name + " and " + b.name + " are too close"};
  };
  for (std::size_t i = 0; i < things.size(); ++i) {
    for (std::size_t j = i + 1; j < things.size(); ++j) apart(things[i], things[j], layout.clear);
    for (const Thing& word : words) apart(things[i], word, layout.clear);
  }
  for (std::size_t i = 0; i < words.size(); ++i)
    for (std::size_t j = i + 1; j < words.size(); ++j) apart(words[i], words[j], 0);
  for (std::size_t i = 0; i < layout.dots.centres.size(); ++i) {
    const Thing dot{"dot " + std::to_string(i + 1), placeOfDot(layout.dots, i)};
    if (!within(dot.place, on_sheet)) throw Wrong{dot.name + " reaches over the sheet"};
    for (const auto* others : {&things, &words})
      for (const Thing& other : *others) apart(dot, other, kDotClear);
    for (std::size_t j = 0; j < i; ++j) apart(dot, {"dot " + std::to_string(j + 1), placeOfDot(layout.dots, j)}, kDotClear);
  }
}

std::vector<MatLayout> layoutsOf(const Json& json) {
  std::map<std::string, MatLayout> sheets;
  std::set<int> ids;
  for (const Json& row : json.at("sheets")) {
    const MatLayout sheet = sheetOf(row, json.at("dictionary"));
    checkCounts(sheet);
    for (const MatMarker& marker : sheet.markers)
      if (!ids.insert(marker.id).second) throw Wrong{"marker " + std::to_string(marker.id) + " stands twice"};
    if (!sheets.emplace(sheet.sheet, sheet).second) throw Wrong{"two sheets are called " + sheet.sheet};
  }
  std::vector<MatLayout> layouts;
  for (const Json& print : json.at("prints")) {
    const auto sheet = sheets.find(print.at("sheet").get<std::string>());
    const auto name = print.at("paper").get<std::string>();
    const Json& papers = json.at("papers");
    const auto paper = std::ranges::find_if(papers, [&](const Json& row) { return row.at("name").get<std::string>() == name; });
    if (sheet == sheets.end() || paper == papers.end()) throw Wrong{"a print of an unknown sheet or paper"};
    MatLayout layout = sheet->second;
    layout.name = print.at("name").get<std::string>();
    layout.paper = name;
    layout.page_width = lengthOf(*paper, "width");
    layout.page_height = lengthOf(*paper, "height");
    layout.left = number(print, "left");
    layout.top = number(print, "top");
    layout.printer_margin = number(json, "printer_margin");
    if (layout.printer_margin < 0) throw Wrong{"printer_margin is out of range"};
    if (std::ranges::find(layouts, layout.name, &MatLayout::name) != layouts.end()) throw Wrong{"two prints are called " + layout.name};
    try {
      checkPlaces(layout);
    } catch (const Wrong& wrong) {
      throw Wrong{layout.name + ": " + wrong.what};
    }
    layouts.push_back(std::move(layout));
  }
  return layouts;
}

}  // namespace

Result<std::vector<MatLayout>> readMatLayouts(const std::filesystem::path& calib) {
  const auto path = calib / "mat.json";
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) return fail(Code::DataMissing, path.string());  // a pipe would never end
  std::ifstream file(path);
  if (!file) return fail(Code::DataMissing, path.string());
  try {
    return layoutsOf(Json::parse(file));
  } catch (const Wrong& wrong) {
    return fail(Code::DataMissing, path.string() + " (" + wrong.what + ")");
  } catch (const Json::exception&) {
    return fail(Code::DataMissing, path.string());
  }
}

Result<MatLayout> readMatLayout(const std::filesystem::path& calib, std::string_view name) {
  auto layouts = readMatLayouts(calib);
  if (!layouts) return std::unexpected(std::move(layouts).error());
  for (MatLayout& layout : *layouts)
    if (layout.name == name) return std::move(layout);
  return fail(Code::DataMissing, (calib / "mat.json").string() + " (there is no sheet " + std::string(name) + ")");
}

std::string matWindowName(const MatWindow& window) {
  switch (window.kind) {
    case MatWindowKind::Panel: return std::string("Panel ") + static_cast<char>('A' + window.index);
    case MatWindowKind::Card: return "Card";
    case MatWindowKind::Grey: return "Grey " + std::to_string(window.index + 1);
    case MatWindowKind::Black: return "Black";
  }
  return {};
}

bool closerThan(const MatRect& a, const MatRect& b, double apart) {
  const double x = std::max(a.x, b.x) - std::min(a.x + a.width, b.x + b.width), y = std::max(a.y, b.y) - std::min(a.y + a.height, b.y + b.height);
  return x < apart - kSlack && y < apart - kSlack;
}

MatRect placeOf(const MatMarker& marker) { return {marker.x, marker.y, marker.side, marker.side}; }

MatRect placeOfDot(const MatDots& dots, std::size_t index) {
  const Point centre = dots.centres[index];
  return {centre.x - dots.diameter / 2, centre.y - dots.diameter / 2, dots.diameter, dots.diameter};
}

}  // namespace huewright
