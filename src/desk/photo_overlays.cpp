#include "desk/photo_overlays.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <imgui.h>
#include <limits>

#include "desk/flow.hpp"
#include "desk/region_parts.hpp"

namespace huewright::desk {
namespace {

constexpr int kPieces = 8;  // along each side: ImGui's quads are two flat triangles, so perspective is put together from small ones

ImVec2 onScreen(const PhotoPlace& place, Point full) {
  const Point p = place.toScreen(full);
  return {static_cast<float>(p.x), static_cast<float>(p.y)};
}

/// A box in a corner of the field; drawn on by lines of text and a row of colours.
struct LegendBox {
  ImDrawList* list;
  ImFont* font;
  const Look& look;
  float left, top, width, line;       ///< line: height of the type
};

ImFont* legendFont(const Look& look) { return look.type.small ? look.type.small : ImGui::GetFont(); }

float legendType(const Field& field, const Look& look) { return legendFont(look)->FontSize * overlayScale(field, look.scale) / look.scale; }

LegendBox openLegend(const Field& field, std::vector<Taken>& taken, const Look& look, float width, float height, float line) {
  const float pad = 0.57f * line;
  LegendBox box{ImGui::GetWindowDrawList(), legendFont(look), look, 0, 0, width, line};
  taken.push_back({freeCorner(field, width + 2 * pad, height + 2 * pad, pad, taken).box});
  box.left = static_cast<float>(taken.back().box.left);
  box.top = static_cast<float>(taken.back().box.top);
  box.list->AddRectFilled({box.left, box.top}, {box.left + width + 2 * pad, box.top + height + 2 * pad}, ink(look.greys.panel), 4 * look.scale);
  box.left += pad;
  box.top += pad;
  return box;
}

void legendLine(LegendBox& box, const std::string& words) {
  const std::string lines = inLines(words, box.width, box.font, box.line);
  box.list->AddText(box.font, box.line, {box.left, box.top}, ink(box.look.greys.type), lines.c_str(), nullptr, box.width);
  box.top += box.font->CalcTextSizeA(box.line, 1e6f, box.width, lines.c_str()).y;
}

float legendWidth(const Field& field, float line) { return static_cast<float>(std::min(26.0 * line, std::max(60.0, field.width - 2.4 * line))); }

/// Into how many parts a scale is cut, so that its numbers have at most one digit behind the point.
int scaleParts(double top) {
  for (const int parts : {4, 3, 5})
    if (std::abs(10 * top / parts - std::round(10 * top / parts)) < 1e-6) return parts;
  return 2;
}

std::string percent(double share) { return share > 0 && share < 0.001 ? "under 0.1 %" : fmt::format("{:.{}f} %", 100 * share, share < 0.1 ? 1 : 0); }

/// The name of the region that the marks belong to: the one whose middle is nearest.
std::string nameOfMarked(const Quad& quad, const std::vector<RegionPart>& parts) {
  const Point middle = centre(quad);
  double nearest = std::numeric_limits<double>::infinity();
  std::string name = "region";
  for (const RegionPart& part : parts) {
    const Point other = centre(part.quad);
    const double far = std::hypot(other.x - middle.x, other.y - middle.y);
    if (far < nearest) nearest = far, name = part.name;
  }
  return name;
}

std::vector<RegionPart> markedParts(const SittingState& state) {
  if (state.judged && state.judged->report) return partsOf(state.judged->report->regions);
  const PlannedPhoto* first = firstPhoto(state.plan);
  for (const PhotoShown& photo : state.photos)
    if (first && photo.id == first->id) return partsOf(photo.regions);
  return {};
}

std::vector<std::string> sharesOf(const SittingState& state) {
  std::vector<std::string> lines;
  const auto parts = markedParts(state);
  for (const MarksShown::One& one : state.marks->regions) {
    std::string what;
    const auto add = [&](double share, const char* word) {
      if (share > 0) what += (what.empty() ? "" : ", ") + percent(share) + " " + word;
    };
    add(one.glare, "glare");
    add(one.shadow, "shadow");
    add(one.clipped, "clipped");
    if (!what.empty()) lines.push_back(nameOfMarked(one.quad, parts) + ": " + what);
  }
  if (lines.empty()) lines.emplace_back("Nothing was left out.");
  return lines;
}

}  // namespace

Point inPerspective(const Quad& quad, double u, double v) {
  const auto& c = quad.corners;
  const Point d1{c[1].x - c[2].x, c[1].y - c[2].y}, d2{c[3].x - c[2].x, c[3].y - c[2].y}, s{c[0].x - c[1].x + c[2].x - c[3].x, c[0].y - c[1].y + c[2].y - c[3].y};
  const double area = d1.x * d2.y - d2.x * d1.y;
  if (area == 0) return c[0];
  const double g = (s.x * d2.y - d2.x * s.y) / area, h = (d1.x * s.y - s.x * d1.y) / area;
  const double w = g * u + h * v + 1;
  return {((c[1].x - c[0].x + g * c[1].x) * u + (c[3].x - c[0].x + h * c[3].x) * v + c[0].x) / w, ((c[1].y - c[0].y + g * c[1].y) * u + (c[3].y - c[0].y + h * c[3].y) * v + c[0].y) / w};
}

void drawOver(const PhotoPlace& place, const Quad& quad, const PictureRef& picture, Textures& textures) {
  if (!picture || picture->size.width < 1 || picture->size.height < 1) return;
  ImDrawList* list = ImGui::GetWindowDrawList();
  const double width = picture->size.width, height = picture->size.height;
  for (const Textures::Tile& tile : textures.tiles(picture, {0, 0, picture->size.width, picture->size.height}, false)) {
    const auto at = [&](int i, int j) {
      return onScreen(place, inPerspective(quad, (tile.rect.x + tile.rect.width * static_cast<double>(i) / kPieces) / width, (tile.rect.y + tile.rect.height * static_cast<double>(j) / kPieces) / height));
    };
    for (int j = 0; j < kPieces; ++j)
      for (int i = 0; i < kPieces; ++i) {
        const float u = static_cast<float>(i) / kPieces, v = static_cast<float>(j) / kPieces, step = 1.0f / kPieces;
        list->AddImageQuad(tile.id, at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1), {u, v}, {u + step, v}, {u + step, v + step}, {u, v + step});
      }
  }
}

void drawMap(const PhotoPlace& place, Drawing& d) {
  if (d.state.map) drawOver(place, d.state.map->quad, d.state.map->picture, d.textures);
}

void drawMarks(const PhotoPlace& place, Drawing& d) {
  if (!d.state.marks) return;
  for (const MarksShown::One& one : d.state.marks->regions) drawOver(place, one.quad, one.picture, d.textures);
}

void drawMapLegend(const Field& field, std::vector<Taken>& taken, Drawing& d) {
  if (!d.state.map) return;
  const MapShown& map = *d.state.map;
  ImFont* font = legendFont(d.look);
  const float line = legendType(field, d.look), scale = line / 14, width = legendWidth(field, line), bar = 16 * scale;
  float height = 3 * line + bar + 8 * scale;
  for (const std::string& sentence : map.sentences) height += heightInLines(sentence, width, font, line) + 3 * scale;
  if (height > field.height - 30 * scale) height = 3 * line + bar + 8 * scale;  // no room for the sentences: the scale alone
  const bool sentences = height > 3 * line + bar + 8 * scale;
  if (height + 2 * line > field.height) return;  // it would lie over all of the photo
  LegendBox box = openLegend(field, taken, d.look, width, height, line);
  legendLine(box, "Off the card, place by place, in ΔE00");
  box.top += 4 * scale;
  const auto count = static_cast<float>(std::max<std::size_t>(1, map.scale.size()));
  for (std::size_t i = 0; i < map.scale.size(); ++i)
    box.list->AddRectFilled({box.left + width * static_cast<float>(i) / count, box.top}, {box.left + width * static_cast<float>(i + 1) / count, box.top + bar}, ink(map.scale[i]));
  box.list->AddRect({box.left, box.top}, {box.left + width, box.top + bar}, ink(d.look.greys.type), 0, 0, scale);
  box.top += bar + 1 * scale;
  const int marks = scaleParts(map.top);
  for (int i = 0; i <= marks; ++i) {
    const std::string number = fmt::format("{:.3g}", map.top * i / marks);
    const float x = box.left + width * static_cast<float>(i) / static_cast<float>(marks), wide = font->CalcTextSizeA(line, 1e6f, 0, number.c_str()).x;
    box.list->AddLine({x, box.top - 5 * scale}, {x, box.top}, ink(d.look.greys.type), scale);
    box.list->AddText(font, line, {std::clamp(x - 0.5f * wide, box.left, box.left + width - wide), box.top}, ink(d.look.greys.type), number.c_str());
  }
  box.top += line;
  const char* far = "far off";
  box.list->AddText(font, line, {box.left + width - font->CalcTextSizeA(line, 1e6f, 0, far).x, box.top}, ink(d.look.greys.type), far);
  legendLine(box, "the same");
  if (sentences)
    for (const std::string& sentence : map.sentences) box.top += 3 * scale, legendLine(box, sentence);
}

void drawMarksLegend(const Field& field, std::vector<Taken>& taken, Drawing& d) {
  if (!d.state.marks) return;
  ImFont* font = legendFont(d.look);
  const float line = legendType(field, d.look), scale = line / 14, width = legendWidth(field, line);
  struct Chip {
    const std::array<std::uint8_t, 3>* colour;
    const char* words;
  };
  std::vector<Chip> chips;
  const auto any = [&](double MarksShown::One::* share) { return std::ranges::any_of(d.state.marks->regions, [&](const MarksShown::One& one) { return one.*share > 0; }); };
  if (any(&MarksShown::One::glare)) chips.push_back({&kGlareColour, "glare: the light mirrors there"});
  if (any(&MarksShown::One::shadow)) chips.push_back({&kShadowColour, "shadow: less light than around"});
  if (any(&MarksShown::One::clipped)) chips.push_back({&kClippedColour, "clipped: the photo could not hold the colour"});
  const float inset = 1.4f * line;
  float height = line + 4 * scale;
  for (const Chip& chip : chips) height += heightInLines(chip.words, width - inset, font, line) + 3 * scale;
  const auto lines = sharesOf(d.state);
  for (const std::string& words : lines) height += heightInLines(words, width, font, line);
  if (height + 2 * line > field.height) return;  // it would lie over all of the photo
  LegendBox box = openLegend(field, taken, d.look, width, height, line);
  legendLine(box, "Left out of the measuring");
  box.top += 2 * scale;
  box.left += inset;
  box.width -= inset;
  for (const Chip& chip : chips) {
    box.list->AddRectFilled({box.left - inset, box.top + 1 * scale}, {box.left - inset + line, box.top + line - 1 * scale}, ink(*chip.colour));
    legendLine(box, chip.words);
    box.top += 3 * scale;
  }
  box.left -= inset;
  box.width += inset;
  for (const std::string& words : lines) legendLine(box, words);
}

}  // namespace huewright::desk
