#include "desk/plot.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <imgui.h>

#include "desk/plot_marks.hpp"

namespace huewright::desk {
namespace {

constexpr float kReachOfPointer = 14;  // px at scale 1, from a mark's middle
constexpr float kAtTheEdge = 24;       // px at scale 1 from the upper edge to the mark of a point above it
constexpr double kOnTick = 1e-9;       // of a step: rounding must not lose the outermost ticks

/// 1, 2 or 5 times ten to a power.
struct TickStep {
  int digit = 1, power = 0;
  double at(double count) const { return power < 0 ? count * digit / std::pow(10.0, -power) : count * digit * std::pow(10.0, power); }
  double first(double low) const { return std::ceil(low / at(1) - kOnTick); }
  double last(double high) const { return std::floor(high / at(1) + kOnTick); }
};

TickStep larger(TickStep step) {
  if (step.digit == 1) return {2, step.power};
  if (step.digit == 2) return {5, step.power};
  return {1, step.power + 1};
}

TickStep tickStep(double low, double high, int most) {
  TickStep step{1, static_cast<int>(std::floor(std::log10((high - low) / most))) - 1};
  while (step.last(high) - step.first(low) + 1 > most) step = larger(step);
  return step;
}

float whole(float at) { return std::floor(at) + 0.5f; }

/// Where the plot's inside lies, and how numbers become places in it.
struct PlotPlace {
  const PlotSpec& spec;
  ImVec2 from, to;
  float x(double v) const { return from.x + static_cast<float>((v - spec.x_low) / (spec.x_high - spec.x_low)) * (to.x - from.x); }
  float y(double v) const { return to.y - static_cast<float>((v - spec.y_low) / (spec.y_high - spec.y_low)) * (to.y - from.y); }
  /// Of a point's mark: one that lies above the plot is drawn at its upper edge.
  float markY(const PlotPoint& p, float inset) const { return p.y > spec.y_high ? from.y + inset : y(p.y); }
  double xOf(float px) const { return spec.x_low + static_cast<double>((px - from.x) / (to.x - from.x)) * (spec.x_high - spec.x_low); }
};

void drawBand(ImDrawList* list, const PlotPlace& place, const PlotBand& band, const Look& look) {
  const ImDrawListFlags flags = list->Flags;
  list->Flags &= ~ImDrawListFlags_AntiAliasedFill;  // else the seams between the pieces show
  for (std::size_t i = 1; i < band.x.size(); ++i) {
    const float a = place.x(band.x[i - 1]), b = place.x(band.x[i]);
    list->AddQuadFilled({a, place.y(band.high[i - 1])}, {b, place.y(band.high[i])}, {b, place.y(band.low[i])}, {a, place.y(band.low[i - 1])}, ink(look.greys.line, 90));
  }
  list->Flags = flags;
  std::vector<ImVec2> line;
  for (std::size_t i = 0; i < band.x.size(); ++i) line.push_back({place.x(band.x[i]), place.y(band.line[i])});
  list->AddPolyline(line.data(), static_cast<int>(line.size()), ink(look.greys.type), 0, 2 * look.scale);
}

void drawLevel(ImDrawList* list, const PlotPlace& place, double value, const std::string& words, ImFont* font, const Look& look) {
  if (value < place.spec.y_low || value > place.spec.y_high) return;
  const float y = whole(place.y(value)), dash = 7 * look.scale, thick = std::max(1.0f, std::round(look.scale));
  for (float x = place.from.x; x < place.to.x; x += 2 * dash) list->AddLine({x, y}, {std::min(x + dash, place.to.x), y}, ink(look.greys.type), thick);
  const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e6f, 0, words.c_str());
  const ImVec2 at{std::max(place.from.x, place.to.x - size.x - 4 * look.scale), std::max(place.from.y, y - size.y - 2 * look.scale)};
  list->AddText(font, font->FontSize, at, ink(look.greys.type), words.c_str());
}

/// An arrow up, and how far up.
void drawBeyond(ImDrawList* list, float x, float y, double value, ImFont* font, float thick, const Look& look) {
  const float tip = y - (kAtTheEdge - 2) * look.scale, wing = 4 * look.scale;
  list->AddLine({x, y}, {x, tip}, ink(look.greys.type), thick);
  list->AddLine({x, tip}, {x - wing, tip + wing}, ink(look.greys.type), thick);
  list->AddLine({x, tip}, {x + wing, tip + wing}, ink(look.greys.type), thick);
  list->AddText(font, font->FontSize, {x + 14 * look.scale, y - font->FontSize / 2}, ink(look.greys.type), fmt::format("{:.1f}", value).c_str());
}

void drawPoint(ImDrawList* list, const PlotPlace& place, const PlotPoint& point, ImFont* font, const Look& look) {
  const float x = whole(place.x(point.x)), y = place.markY(point, kAtTheEdge * look.scale), thick = std::max(1.0f, std::round(1.3f * look.scale)), cap = 4 * look.scale;
  if (point.y > place.spec.y_high) {
    drawBeyond(list, x, y, point.y, font, thick, look);
  } else if (point.high > point.low) {
    const float top = whole(place.y(point.high)), end = whole(place.y(point.low));
    list->AddLine({x, top}, {x, end}, ink(look.greys.type), thick);
    for (const float at : {top, end}) list->AddLine({x - cap, at}, {x + cap, at}, ink(look.greys.type), thick);
  }
  drawMark(list, point.mark, x, y, point.fill, point.selected, look);
}

std::string valueOf(const PlotSpec& spec, const PlotBand& band, double x) {
  const auto after = std::ranges::lower_bound(band.x, x);
  if (after == band.x.begin() || after == band.x.end()) return {};
  const auto i = static_cast<std::size_t>(after - band.x.begin());
  const double part = (x - band.x[i - 1]) / (band.x[i] - band.x[i - 1]);
  const auto between = [&](const std::vector<double>& v) { return v[i - 1] + part * (v[i] - v[i - 1]); };
  return fmt::format("{}: {:.1f} ({:.1f} to {:.1f})", spec.x_tick ? spec.x_tick(x) : fmt::format("{:.3g}", x), between(band.line), between(band.low), between(band.high));
}

/// The point under the pointer, or nullptr.
const PlotPoint* pointed(const PlotPlace& place, ImVec2 mouse, const Look& look) {
  float reach = kReachOfPointer * look.scale;
  const PlotPoint* nearest = nullptr;
  for (const PlotPoint& p : place.spec.points) {
    const float distance = std::hypot(place.x(p.x) - mouse.x, place.markY(p, kAtTheEdge * look.scale) - mouse.y);
    if (distance <= reach) nearest = &p, reach = distance;
  }
  return nearest;
}

}  // namespace

std::vector<double> ticks(double low, double high, int most) {
  const TickStep step = tickStep(low, high, most);
  std::vector<double> out;
  for (double i = step.first(low); i <= step.last(high); ++i) out.push_back(step.at(i) + 0.0);
  return out;
}

std::string tickWords(double value, double step) {
  const int digits = std::clamp(-static_cast<int>(std::floor(std::log10(step) + kOnTick)), 0, 12);
  std::string out = fmt::format("{:.{}f}", std::abs(value), digits);
  if (value < 0 && out.find_first_not_of("0.") != std::string::npos) out.insert(0, "\u2212");
  return out;
}

int drawPlot(const char* name, const PlotSpec& spec, float width, float height, const Look& look) {
  ImFont* font = look.type.small ? look.type.small : ImGui::GetFont();
  const float em = font->FontSize, space = 5 * look.scale, thick = std::max(1.0f, std::round(look.scale));
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const bool clicked = ImGui::InvisibleButton(name, {width, height});
  const auto size = [&](const std::string& words, float wrap = 0) { return font->CalcTextSizeA(em, 1e6f, wrap, words.c_str()); };

  const auto y_most = std::max(2, static_cast<int>(height / (3 * em)));
  const std::vector<double> y_ticks = ticks(spec.y_low, spec.y_high, y_most);
  const double y_step = tickStep(spec.y_low, spec.y_high, y_most).at(1);
  float left = 0;
  for (const double t : y_ticks) left = std::max(left, size(tickWords(t, y_step)).x);
  const float head = size(spec.y_words, width).y, foot = size(spec.x_words, width).y;
  const PlotPlace place{spec, {whole(at.x + left + 2 * space), whole(at.y + head + 2 * space)}, {whole(at.x + width - 2 * em), whole(at.y + height - foot - em - 3 * space)}};
  if (place.to.x - place.from.x < 2 * em || place.to.y - place.from.y < 2 * em) return -1;

  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddRectFilled(place.from, place.to, ink(look.greys.panel));
  for (const double t : y_ticks) {
    const std::string words = tickWords(t, y_step);
    const float y = whole(place.y(t));
    list->AddLine({place.from.x, y}, {place.to.x, y}, ink(look.greys.surround), thick);
    list->AddText(font, em, {place.from.x - space - size(words).x, y - em / 2}, ink(look.greys.type), words.c_str());
  }
  const auto x_most = std::max(2, static_cast<int>((place.to.x - place.from.x) / (5 * em)));
  const double x_step = tickStep(spec.x_low, spec.x_high, x_most).at(1);
  for (const double t : ticks(spec.x_low, spec.x_high, x_most)) {
    const std::string words = spec.x_tick ? spec.x_tick(t) : tickWords(t, x_step);
    const float x = whole(place.x(t));
    list->AddLine({x, place.to.y}, {x, place.to.y + space}, ink(look.greys.type), thick);
    list->AddText(font, em, {std::clamp(x - size(words).x / 2, at.x, std::max(at.x, at.x + width - size(words).x)), place.to.y + space}, ink(look.greys.type), words.c_str());
  }
  list->AddText(font, em, at, ink(look.greys.type), spec.y_words.c_str(), nullptr, width);
  list->AddText(font, em, {std::max(at.x, place.to.x - size(spec.x_words, width).x), place.to.y + 2 * space + em}, ink(look.greys.type), spec.x_words.c_str(), nullptr, width);

  list->PushClipRect(place.from, place.to, true);
  for (const PlotBand& band : spec.bands) drawBand(list, place, band, look);
  for (const auto& [value, words] : spec.levels) drawLevel(list, place, value, words, font, look);
  list->PopClipRect();
  list->AddLine({place.from.x, place.from.y}, {place.from.x, place.to.y}, ink(look.greys.type), thick);
  list->AddLine({place.from.x, place.to.y}, {place.to.x, place.to.y}, ink(look.greys.type), thick);
  list->PushClipRect({place.from.x - 2 * em, place.from.y - em}, {place.to.x + 2 * em, place.to.y + em}, true);
  for (const PlotPoint& point : spec.points) drawPoint(list, place, point, font, look);
  list->PopClipRect();

  if (!ImGui::IsItemHovered()) return -1;
  const ImVec2 mouse = ImGui::GetIO().MousePos;
  const PlotPoint* point = pointed(place, mouse, look);
  if (point) {
    ImGui::SetTooltip("%s", point->words.c_str());
    return clicked ? point->id : -1;
  }
  if (mouse.x <= place.from.x || mouse.x >= place.to.x || mouse.y <= place.from.y || mouse.y >= place.to.y) return -1;
  std::string words;
  for (const PlotBand& band : spec.bands)
    if (const std::string one = valueOf(spec, band, place.xOf(mouse.x)); !one.empty()) words += (words.empty() ? "" : "\n") + one;
  if (!words.empty()) {
    list->AddLine({whole(mouse.x), place.from.y}, {whole(mouse.x), place.to.y}, ink(look.greys.type), thick);
    ImGui::SetTooltip("%s", words.c_str());
  }
  return -1;
}

}  // namespace huewright::desk
