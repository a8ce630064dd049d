#include "desk/chart_patches.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <imgui.h>

#include "desk/flow.hpp"
#include "desk/swatch_row.hpp"

namespace huewright::desk {
namespace {

bool tookNoPart(const ChartPatchShown& patch) { return patch.off < 0; }

/// Black and white side by side, so that the line is seen on every colour.
void seenLine(ImDrawList* list, const std::array<ImVec2, 4>& corners, float thick) {
  list->AddPolyline(corners.data(), 4, IM_COL32(0, 0, 0, 255), ImDrawFlags_Closed, 2 * thick + 1);
  list->AddPolyline(corners.data(), 4, IM_COL32(255, 255, 255, 255), ImDrawFlags_Closed, thick);
}

void seenStroke(ImDrawList* list, ImVec2 from, ImVec2 to, float thick) {
  list->AddLine(from, to, IM_COL32(0, 0, 0, 255), 2 * thick + 1);
  list->AddLine(from, to, IM_COL32(255, 255, 255, 255), thick);
}

/// The corners alone.
void cornerMarks(ImDrawList* list, const std::array<ImVec2, 4>& at, float thick) {
  constexpr float kPart = 0.22f;
  for (std::size_t i = 0; i < 4; ++i)
    for (const std::size_t to : {(i + 1) % 4, (i + 3) % 4}) seenStroke(list, at[i], {at[i].x + kPart * (at[to].x - at[i].x), at[i].y + kPart * (at[to].y - at[i].y)}, thick);
}

/// Of a good one its corners are shown. One that stands out has two whole outlines, one that took no part is crossed through; both carry a word.
void markPatch(ImDrawList* list, const ChartPatchShown& patch, const std::array<ImVec2, 4>& at, ImVec2 room_from, ImVec2 room_to, const Look& look) {
  const float thick = std::max(1.0f, std::round(look.scale));
  if (!tookNoPart(patch) && !patch.stands_out) return cornerMarks(list, at, thick);
  ImVec2 middle{};
  for (const ImVec2& c : at) middle.x += c.x / 4, middle.y += c.y / 4;
  const float low = std::max(at[2].y, at[3].y);
  seenLine(list, at, thick);
  if (tookNoPart(patch)) {
    seenStroke(list, at[0], at[2], thick);
    seenStroke(list, at[1], at[3], thick);
  } else {
    std::array<ImVec2, 4> outer = at;
    for (ImVec2& c : outer) c = {middle.x + 1.3f * (c.x - middle.x), middle.y + 1.3f * (c.y - middle.y)};
    seenLine(list, outer, 2 * thick);
  }
  std::string words = tookNoPart(patch) ? (patch.why.empty() ? "left out" : patch.why) : fmt::format("{:.1f} off", patch.off);
  ImFont* font = look.type.small ? look.type.small : ImGui::GetFont();
  const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e6f, 0, words.c_str());
  const float pad = 3 * look.scale;
  const ImVec2 from{std::clamp(middle.x - size.x / 2 - pad, room_from.x, std::max(room_from.x, room_to.x - size.x - 2 * pad)), std::clamp(low - size.y / 2 - pad, room_from.y, std::max(room_from.y, room_to.y - size.y - 2 * pad))};
  list->AddRectFilled(from, {from.x + size.x + 2 * pad, from.y + size.y + 2 * pad}, ink(look.greys.panel));
  list->AddText(font, font->FontSize, {from.x + pad, from.y + pad}, ink(look.greys.type), words.c_str());
}

bool holds(const std::array<ImVec2, 4>& quad, ImVec2 p) {
  for (std::size_t i = 0; i < 4; ++i) {
    const ImVec2 a = quad[i], b = quad[(i + 1) % 4];
    if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) < 0) return false;
  }
  return true;
}

/// Full-size pixels of the photo that are on show: round the patches, or all of them where none was found.
struct ShownPart {
  double x = 0, y = 0, width = 1, height = 1;
};

ShownPart shownPart(const ChartPhotoShown& photo) {
  constexpr double kRound = 0.15;  // of the chart's width and height, to each side
  const double full_width = photo.size.width, full_height = photo.size.height;
  if (photo.patches.empty()) return {0, 0, full_width, full_height};
  double left = full_width, right = 0, top = full_height, bottom = 0;
  for (const ChartPatchShown& patch : photo.patches)
    for (const Point& p : patch.quad.corners) left = std::min(left, p.x), right = std::max(right, p.x), top = std::min(top, p.y), bottom = std::max(bottom, p.y);
  const double x = kRound * (right - left), y = kRound * (bottom - top);
  left = std::max(0.0, left - x), right = std::min(full_width, right + x), top = std::max(0.0, top - y), bottom = std::min(full_height, bottom + y);
  return right > left && bottom > top ? ShownPart{left, top, right - left, bottom - top} : ShownPart{0, 0, full_width, full_height};
}

void patchTip(const ChartPatchShown& patch, const Look& look) {
  ImGui::BeginTooltip();
  ImGui::TextUnformatted(patch.name.c_str());
  const float em = ImGui::GetFontSize();
  const SwatchPiece piece{&patch.published, {}};
  swatchRow("published", {&piece, 1}, 6 * em, 3 * em, look);
  ImGui::TextUnformatted(("published: " + patch.published.lab).c_str());
  if (tookNoPart(patch)) ImGui::TextUnformatted(("It took no part" + (patch.why.empty() ? "." : ": " + patch.why + ".")).c_str());
  else ImGui::TextUnformatted(fmt::format("\u0394E00 {:.1f} off, by a profile that was made without it{}", patch.off, patch.stands_out ? ": it stands out" : "").c_str());
  ImGui::EndTooltip();
}

}  // namespace

void drawChartPhoto(const ChartPhotoShown& photo, Textures& textures, float width, float height, const Look& look) {
  const ShownPart part = shownPart(photo);
  const float fit = static_cast<float>(std::min(width / part.width, height / part.height));
  const ImVec2 size{std::max(1.0f, std::floor(fit * static_cast<float>(part.width))), std::max(1.0f, std::floor(fit * static_cast<float>(part.height)))};
  const ImVec2 from = ImGui::GetCursorScreenPos(), to{from.x + size.x, from.y + size.y};
  ImGui::InvisibleButton("chart", size);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const auto place = [&](double x, double y) { return ImVec2{from.x + fit * static_cast<float>(x - part.x), from.y + fit * static_cast<float>(y - part.y)}; };
  list->PushClipRect(from, to, true);
  const Size whole = photo.preview->size;
  const double x = static_cast<double>(photo.size.width) / whole.width, y = static_cast<double>(photo.size.height) / whole.height;  // full-size pixels to one of the preview
  for (const auto& [rect, id] : textures.tiles(photo.preview, {0, 0, whole.width, whole.height})) list->AddImage(id, place(x * rect.x, y * rect.y), place(x * (rect.x + rect.width), y * (rect.y + rect.height)));
  const ChartPatchShown* pointed = nullptr;
  for (const ChartPatchShown& patch : photo.patches) {
    std::array<ImVec2, 4> at;
    for (std::size_t i = 0; i < 4; ++i) at[i] = place(patch.quad.corners[i].x, patch.quad.corners[i].y);
    markPatch(list, patch, at, from, to, look);
    if (ImGui::IsItemHovered() && holds(at, ImGui::GetIO().MousePos)) pointed = &patch;
  }
  list->PopClipRect();
  if (pointed) patchTip(*pointed, look);
}

void patchesKey(const ChartPhotoShown& photo, const Look&) {
  if (photo.patches.empty()) return;
  const auto out = std::ranges::count_if(photo.patches, tookNoPart);
  const auto odd = std::ranges::count_if(photo.patches, [](const ChartPatchShown& p) { return !tookNoPart(p) && p.stands_out; });
  std::string words = fmt::format("{} patches were found.", photo.patches.size());
  words += odd == 0 ? " None stands out." : fmt::format(" {} with a double outline stand{} out: the profile fits {} badly.", odd, odd == 1 ? "s" : "", odd == 1 ? "it" : "them");
  if (out > 0) words += fmt::format(" {} crossed through took no part.", out);
  wrapped((words + " Point at one to see its published colour.").c_str());
}

}  // namespace huewright::desk
