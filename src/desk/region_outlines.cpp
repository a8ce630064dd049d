#include "desk/region_outlines.hpp"

#include <algorithm>
#include <cmath>
#include <imgui.h>
#include <numeric>
#include <span>

namespace huewright::desk {
namespace {

ImVec2 vec(Point p) { return {static_cast<float>(p.x), static_cast<float>(p.y)}; }

/// The share of a segment that lies in a field, grown by a margin; from > to: none. Liang and Barsky's way.
std::pair<double, double> shareInside(Point a, Point b, const Field& f, double margin) {
  double from = 0, to = 1;
  const auto cut = [&](double delta, double room) {
    if (delta == 0) {
      if (room < 0) to = -1;
    } else if (delta < 0) from = std::max(from, room / delta);
    else to = std::min(to, room / delta);
  };
  cut(a.x - b.x, a.x - (f.left - margin));
  cut(b.x - a.x, f.left + f.width + margin - a.x);
  cut(a.y - b.y, a.y - (f.top - margin));
  cut(b.y - a.y, f.top + f.height + margin - a.y);
  return {from, to};
}

/// Lengths of line and gap in turn, at scale 1; empty: no gaps.
std::span<const float> patternOf(LineStyle style) {
  static constexpr float kLong[]{15, 9}, kDots[]{3, 5}, kBoth[]{13, 5, 3, 5};
  switch (style) {
    case LineStyle::LongDashes: return kLong;
    case LineStyle::Dots: return kDots;
    case LineStyle::DashDot: return kBoth;
    case LineStyle::Solid:
    case LineStyle::Thin: break;
  }
  return {};
}

struct ScreenBox {
  double left, top, right, bottom;
};

ScreenBox screenBox(const PhotoPlace& place, const Quad& quad) {
  ScreenBox box{1e30, 1e30, -1e30, -1e30};
  for (const Point& c : quad.corners) {
    const Point p = place.toScreen(c);
    box = {std::min(box.left, p.x), std::min(box.top, p.y), std::max(box.right, p.x), std::max(box.bottom, p.y)};
  }
  return box;
}

bool meet(const Field& a, const Field& b) { return a.left < b.left + b.width && b.left < a.left + a.width && a.top < b.top + b.height && b.top < a.top + a.height; }

}  // namespace

LineStyle lineOf(PartKind kind) {
  switch (kind) {
    case PartKind::Card: return LineStyle::LongDashes;
    case PartKind::Grey: return LineStyle::Dots;
    case PartKind::Black: return LineStyle::DashDot;
    case PartKind::Panel: break;
  }
  return LineStyle::Solid;
}

void drawOutline(const PhotoPlace& place, const Quad& quad, LineStyle style, bool chosen, const Look& look) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float scale = overlayScale(place.field, look.scale);
  const bool thin = style == LineStyle::Thin;
  const float width = (thin ? 1.0f : chosen ? 3.0f : 1.8f) * scale;
  const std::uint8_t strong = thin ? 150 : 235;
  const auto pattern = patternOf(style);
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = place.toScreen(quad.corners[i]), b = place.toScreen(quad.corners[(i + 1) % 4]);
    const auto [from, to] = shareInside(a, b, place.field, 20);
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    if (from >= to || length < 1) continue;
    const auto at = [&](double run) { return vec({a.x + (b.x - a.x) * run / length, a.y + (b.y - a.y) * run / length}); };
    const double first = from * length, last = to * length;
    list->AddLine(at(first), at(last), ink(0, thin ? 110 : 190), width + (thin ? 1.0f : 2.0f) * scale);
    if (pattern.empty()) {
      list->AddLine(at(first), at(last), ink(255, strong), width);
      continue;
    }
    const double period = std::accumulate(pattern.begin(), pattern.end(), 0.0) * scale;
    for (double run = std::floor(first / period) * period; run < last;)
      for (std::size_t k = 0; k < pattern.size(); ++k) {
        const double next = run + pattern[k] * scale;
        if (k % 2 == 0 && next > first && run < last) list->AddLine(at(std::max(run, first)), at(std::min(next, last)), ink(255, strong), width);
        run = next;
      }
  }
}

void drawHandles(const PhotoPlace& place, const Quad& quad, bool chosen, int held, const Look& look) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float scale = overlayScale(place.field, look.scale);
  // On a small region they must not hide it.
  const ScreenBox box = screenBox(place, quad);
  const float most = std::max(2.5f * scale, 0.12f * static_cast<float>(std::min(box.right - box.left, box.bottom - box.top)));
  for (int i = 0; i < 4; ++i) {
    const ImVec2 p = vec(place.toScreen(quad.corners[static_cast<std::size_t>(i)]));
    const float half = i == held ? 8.0f * scale : std::min((chosen ? 6.5f : 4.0f) * scale, chosen ? 1.6f * most : most);
    list->AddRectFilled({p.x - half, p.y - half}, {p.x + half, p.y + half}, ink(0, 220));
    const float inner = half - std::min(1.6f * scale, 0.4f * half);
    list->AddRectFilled({p.x - inner, p.y - inner}, {p.x + inner, p.y + inner}, ink(255));
    if (i == held) list->AddRectFilled({p.x - 0.4f * half, p.y - 0.4f * half}, {p.x + 0.4f * half, p.y + 0.4f * half}, ink(0));
  }
}

void drawNameTag(const PhotoPlace& place, const Quad& quad, const std::string& name, TagAt at, bool chosen, std::vector<Field>& taken, const Look& look) {
  const Field& view = place.field;
  const ScreenBox box = screenBox(place, quad);
  if (box.right < view.left || box.bottom < view.top || box.left > view.left + view.width || box.top > view.top + view.height) return;
  ImFont* font = look.type.small ? look.type.small : ImGui::GetFont();
  const float scale = overlayScale(view, look.scale), type = font->FontSize * scale / look.scale;
  const ImVec2 size = font->CalcTextSizeA(type, 1e6f, 0, name.c_str());
  const double pad = 4 * scale, away = 8 * scale, width = size.x + 2 * pad, height = size.y + pad;
  const double above = box.top - height - away, below = box.bottom + away, row = height + 0.5 * pad;
  const double middle = 0.5 * (box.top + box.bottom - height), right = box.right - width;
  std::vector<Point> corners;
  if (at == TagAt::Left) corners = {{box.left - width - away, middle}, {box.right + away, middle}};
  if (at == TagAt::Right) corners = {{box.right + away, middle}, {box.left - width - away, middle}};
  for (const double top : {above, below, box.top + away, above - row, below + row, above - 2 * row, below + 2 * row}) corners.insert(corners.end(), {{box.left, top}, {right, top}});
  Field tag{};
  bool free = false;
  for (std::size_t k = 0; k < corners.size() && !free; ++k) {
    tag = {std::clamp(corners[k].x, view.left, std::max(view.left, view.left + view.width - width)), corners[k].y, width, height};
    free = tag.top >= view.top && tag.top + height <= view.top + view.height && std::ranges::none_of(taken, [&](const Field& other) { return meet(tag, other); });
  }
  if (!free) tag = {std::clamp(box.left + away, view.left, std::max(view.left, view.left + view.width - width)), std::clamp(box.top + away, view.top, std::max(view.top, view.top + view.height - height)), width, height};
  if (!free && !chosen && std::ranges::any_of(taken, [&](const Field& other) { return meet(tag, other); })) return;  // one on another, neither can be read
  taken.push_back(tag);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const ImVec2 from = vec({tag.left, tag.top}), to = vec({tag.left + width, tag.top + height});
  list->AddRectFilled(from, to, chosen ? ink(255, 240) : ink(0, 190), 3 * scale);
  list->AddText(font, type, {from.x + static_cast<float>(pad), from.y + static_cast<float>(0.5 * pad)}, chosen ? ink(0) : ink(255), name.c_str());
}

Grip gripAt(const PhotoPlace& place, const std::vector<RegionPart>& parts, int chosen, Point screen, double reach) {
  std::vector<int> order(parts.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::stable_sort(order, [&](int a, int b) {
    if ((a == chosen) != (b == chosen)) return a == chosen;
    return signedArea(parts[static_cast<std::size_t>(a)].quad) < signedArea(parts[static_cast<std::size_t>(b)].quad);
  });
  for (const int part : order) {
    int best = -1;
    double nearest = reach;
    for (int i = 0; i < 4; ++i) {
      const Point p = place.toScreen(parts[static_cast<std::size_t>(part)].quad.corners[static_cast<std::size_t>(i)]);
      const double far = std::max(std::abs(p.x - screen.x), std::abs(p.y - screen.y));
      if (far <= nearest) nearest = far, best = i;
    }
    if (best >= 0) return {part, best};
  }
  std::ranges::stable_sort(order, {}, [&](int part) { return signedArea(parts[static_cast<std::size_t>(part)].quad); });
  for (const int part : order)
    if (contains(parts[static_cast<std::size_t>(part)].quad, place.toPhoto(screen))) return {part, 4};
  return {};
}

}  // namespace huewright::desk
