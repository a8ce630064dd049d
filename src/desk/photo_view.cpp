#include <algorithm>
#include <array>
#include <imgui.h>

#include "desk/free_corner.hpp"
#include "desk/magnifier.hpp"
#include "desk/photo_hand.hpp"
#include "desk/photo_overlays.hpp"
#include "desk/photo_words.hpp"
#include "desk/region_outlines.hpp"
#include "desk/toolbar.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

constexpr double kKeyZoom = 1.5;          // factor of one press; chosen by hand
constexpr double kSquarePixels = 2.0;     // from so many screen pixels a photo pixel is drawn as a square
constexpr double kPanStep = 40.0;         // screen pixels at scale 1 that an arrow key pulls the photo along

const PhotoShown* photoOnShow(const SittingState& state) {
  const auto at = std::ranges::find(state.photos, state.shown, &PhotoShown::id);
  return at == state.photos.end() ? nullptr : &*at;
}

PhotoRole roleOnShow(const SittingState& state) {
  const PlannedPhoto* planned = photoOf(state.plan, state.shown);
  return planned ? planned->role : PhotoRole::First;
}

/// Another photo: what was chosen on the old one is let go.
void forgetPlace(PhotoViewState& view, int photo) {
  const PhotoViewState old = view;
  view = {};
  view.photo = photo;
  view.magnifier = old.magnifier;
  view.map = old.map;
  view.marks = old.marks;
  view.hidden = old.hidden;
}

void setAdding(PhotoViewState& view, PartKind kind) {
  const int number = static_cast<int>(kind) + 1;
  view.adding = view.adding == number ? 0 : number;
  view.drawn_from.reset();
  view.hidden = false;
}

void doTool(Do what, PhotoViewState& view, PhotoPlace& place, const PhotoShown& photo, Actions& out) {
  const Field& f = place.field;
  const Point middle{f.left + 0.5 * f.width, f.top + 0.5 * f.height};
  const auto parts = partsOf(photo.regions);
  const int count = static_cast<int>(parts.size());
  switch (what) {
    case Do::ZoomIn: place = zoomed(place, kKeyZoom, middle); break;
    case Do::ZoomOut: place = zoomed(place, 1 / kKeyZoom, middle); break;
    case Do::ZoomWhole: place = placeOf(f, place.photo, 0, {}); break;
    case Do::ZoomPixels: place = zoomed(place, 1 / place.zoom, middle); break;
    case Do::AddPanel: setAdding(view, PartKind::Panel); break;
    case Do::AddCard: setAdding(view, PartKind::Card); break;
    case Do::AddGrey: setAdding(view, PartKind::Grey); break;
    case Do::AddBlack: setAdding(view, PartKind::Black); break;
    case Do::NextRegion: view.selected = count == 0 ? -1 : (view.selected + 2) % (count + 1) - 1; break;
    case Do::RemoveRegion:
      out.push_back(act::SetRegions{photo.id, withoutPart(photo.regions, static_cast<std::size_t>(view.selected)), "removing a region", false});
      view.selected = -1;
      break;
    case Do::FindRegions: out.push_back(act::FindRegions{photo.id}); view.selected = -1; break;
    case Do::Magnifier: view.magnifier = !view.magnifier; view.probed = {-1, -1}; break;
    case Do::ShowMap: view.map = !view.map; out.push_back(act::WantMap{view.map}); break;
    case Do::ShowMarks: view.marks = !view.marks; out.push_back(act::WantMarks{view.marks}); break;
    case Do::HideRegions: view.hidden = !view.hidden; break;
    default: return;
  }
  keepPlace(view, place);
}

std::vector<Do> photoTools(const PhotoViewState& view, const PhotoShown& photo, bool usable, bool editable, bool first, float height) {
  const auto adding = [&](PartKind kind) { return view.adding == static_cast<int>(kind) + 1; };
  const auto parts = static_cast<int>(partsOf(photo.regions).size());
  const std::array<ToolItem, 15> items{{{Do::ZoomWhole, usable, view.zoom == 0},
                                        {Do::ZoomPixels, usable, view.zoom == 1},
                                        {Do::ZoomIn, usable},
                                        {Do::ZoomOut, usable},
                                        {Do::AddPanel, editable, adding(PartKind::Panel)},
                                        {Do::AddCard, editable, adding(PartKind::Card)},
                                        {Do::AddGrey, editable, adding(PartKind::Grey)},
                                        {Do::AddBlack, editable, adding(PartKind::Black)},
                                        {Do::FindRegions, editable},
                                        {Do::ShowMap, usable && first, view.map},
                                        {Do::ShowMarks, usable && first, view.marks},
                                        {Do::Magnifier, usable, view.magnifier},
                                        {Do::HideRegions, usable, view.hidden},
                                        {Do::NextRegion, editable && parts > 0},
                                        {Do::RemoveRegion, editable && view.selected >= 0 && view.selected < parts}}};
  const int rows = std::clamp(static_cast<int>(0.3f * height / ImGui::GetFrameHeightWithSpacing()), 1, 3);
  return drawToolbar("photo", items, rows);
}

void arrowKeys(PhotoViewState& view, PhotoPlace& place, const PhotoShown& photo, bool editable, double step, Actions& out) {
  struct Arrow {
    Do what;
    Point by;
  };
  constexpr std::array<Arrow, 4> arrows{{{Do::NudgeLeft, {-1, 0}}, {Do::NudgeRight, {1, 0}}, {Do::NudgeUp, {0, -1}}, {Do::NudgeDown, {0, 1}}}};
  const double far = ImGui::GetIO().KeyShift ? 10 : 1;
  for (const Arrow& arrow : arrows)
    if (keyPressed(arrow.what)) nudge(view, place, photo, editable, {arrow.by.x * far, arrow.by.y * far}, step, !ImGui::IsKeyPressed(keyLine(arrow.what).key, false), out);
}

Hand handNow(const Look& look) {
  const ImGuiIO& io = ImGui::GetIO();
  Hand hand;
  hand.pointer = {io.MousePos.x, io.MousePos.y};
  hand.pulled = {io.MouseDelta.x, io.MouseDelta.y};
  hand.over = ImGui::IsItemHovered();
  hand.wheel = io.MouseWheel;
  const bool active = ImGui::IsItemActive();
  hand.pressed = ImGui::IsItemActivated() && ImGui::IsMouseClicked(ImGuiMouseButton_Left);
  hand.held = active && ImGui::IsMouseDown(ImGuiMouseButton_Left);
  hand.released = ImGui::IsItemDeactivated() && ImGui::IsMouseReleased(ImGuiMouseButton_Left);
  hand.middle = active && (ImGui::IsMouseDown(ImGuiMouseButton_Middle) || ImGui::IsMouseDown(ImGuiMouseButton_Right));
  hand.reach = 12 * look.scale;
  hand.dead = 3 * look.scale;
  return hand;
}

void drawPicture(const PhotoPlace& place, const PhotoShown& photo, Textures& textures) {
  const bool close = photo.full && photo.preview && place.zoom * photo.size.width > photo.preview->size.width;
  const PictureRef& picture = close || !photo.preview ? photo.full : photo.preview;
  if (!picture) return;
  const double across = static_cast<double>(photo.size.width) / picture->size.width, down = static_cast<double>(photo.size.height) / picture->size.height;
  for (const Textures::Tile& tile : textures.tiles(picture, place.shown(picture->size), place.zoom <= kSquarePixels)) {
    const Point from = place.toScreen({tile.rect.x * across, tile.rect.y * down}), to = place.toScreen({(tile.rect.x + tile.rect.width) * across, (tile.rect.y + tile.rect.height) * down});
    ImGui::GetWindowDrawList()->AddImage(tile.id, {static_cast<float>(from.x), static_cast<float>(from.y)}, {static_cast<float>(to.x), static_cast<float>(to.y)});
  }
}

void drawRegions(const PhotoViewState& view, const PhotoPlace& place, const PhotoShown& photo, const Regions& regions, bool editable, const Grip& under, Drawing& d) {
  std::vector<Field> taken;
  const auto thin = [&](const Quad& quad) { drawOutline(place, quad, LineStyle::Thin, false, d.look); };
  const JudgedShown* judged = d.state.judged && roleOnShow(d.state) == PhotoRole::First ? &*d.state.judged : nullptr;
  const bool stepped = judged && judged->report && judged->report->stepped;
  if (photo.mat) thin(*photo.mat);
  if (photo.chart) thin(*photo.chart);
  if (stepped)
    for (const Quad& strip : judged->report->regions.panels) thin(strip);
  const auto parts = partsOf(regions);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const bool chosen = static_cast<int>(i) == view.selected;
    drawOutline(place, parts[i].quad, lineOf(parts[i].kind), chosen, d.look);
    if (editable) drawHandles(place, parts[i].quad, chosen, under.part == static_cast<int>(i) ? under.grip : -1, d.look);
  }
  for (std::size_t i = 0; i < parts.size(); ++i) drawNameTag(place, parts[i].quad, parts[i].name, TagAt::Above, static_cast<int>(i) == view.selected, taken, d.look);
  if (stepped)
    for (std::size_t i = 0; i < judged->report->regions.panels.size() && i < judged->panels.size(); ++i) {
      const Quad& strip = judged->report->regions.panels[i];
      const bool card_right = regions.card && centre(*regions.card).x > centre(strip).x;  // the tags keep off the card
      drawNameTag(place, strip, judged->panels[i].name, card_right ? TagAt::Left : TagAt::Right, false, taken, d.look);
    }
  if (photo.chart) drawNameTag(place, *photo.chart, "chart", TagAt::Above, false, taken, d.look);
  if (photo.mat) drawNameTag(place, *photo.mat, "mat", TagAt::Above, false, taken, d.look);
}

/// Cross lines through the pointer, and the rectangle so far.
void drawAdding(const PhotoViewState& view, const PhotoPlace& place, const Hand& hand, const Look& look) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const Field& f = place.field;
  if (hand.over) {
    const auto x = static_cast<float>(hand.pointer.x), y = static_cast<float>(hand.pointer.y);
    for (const bool white : {false, true}) {
      const float width = (white ? 1.0f : 3.0f) * look.scale;
      const std::uint32_t colour = white ? ink(255, 220) : ink(0, 130);
      list->AddLine({x, static_cast<float>(f.top)}, {x, static_cast<float>(f.top + f.height)}, colour, width);
      list->AddLine({static_cast<float>(f.left), y}, {static_cast<float>(f.left + f.width), y}, colour, width);
    }
  }
  if (!view.drawn_from) return;
  if (const auto quad = quadBetween(*view.drawn_from, place.toPhoto(hand.pointer), place.photo)) drawOutline(place, *quad, lineOf(static_cast<PartKind>(view.adding - 1)), true, look);
}

std::string keyOf(Do what) { return keyWords(keyLine(what)); }

std::string wordsOfAdding(int adding) {
  constexpr std::array<const char*, 4> what{"the panel", "the wanted colour's card", "a grey patch", "the glossy black chip"};
  return std::string("Draw a rectangle over ") + what[static_cast<std::size_t>(adding - 1)] + ": press at one corner and pull to the opposite one. " + keyOf(Do::StopWork) + " leaves it.";
}

/// What to say at the foot: nothing where all is well.
std::string wordsOfState(const PhotoViewState& view, const PhotoShown& photo, PhotoRole role, const SittingState& state) {
  if (role != PhotoRole::First) return {};
  const bool none = photo.regions.panels.empty() && !photo.regions.card;
  if (state.judging) return none ? "Looking for the mat …" : "";
  std::string words = state.judge_trouble;
  if (photo.regions.panels.empty() || (!photo.regions.card && !state.plan.choices.card_lab)) {
    if (words.empty() && none) words = "Panel and card are not marked yet.";
    words += (words.empty() ? "Press " : "\nPress ") + keyOf(Do::AddPanel) + ", then draw a rectangle over the panel. " + keyOf(Do::AddCard) + " does the card, " + keyOf(Do::AddGrey) + " a grey patch.";
  }
  if (words.empty() && view.map && !state.map) words = "The map of differences is being made …";
  return words;
}

}  // namespace

void drawPhoto(PhotoViewState& view, Drawing& d) {
  const PhotoShown* photo = photoOnShow(d.state);
  const ImVec2 room = ImGui::GetContentRegionAvail();
  const auto fieldNow = [] {
    const ImVec2 at = ImGui::GetCursorScreenPos(), size = ImGui::GetContentRegionAvail();
    return Field{at.x, at.y, std::max(1.0f, size.x), std::max(1.0f, size.y)};
  };
  if (!photo) {
    Field field = fieldNow();
    drawSentence(field, "Drop a photo here, or open one (" + keyOf(Do::OpenPhoto) + ").\n" + keyOf(Do::Demo) + " shows three first steps with an invented job.", WordsAt::Middle, d.look);
    return;
  }
  if (view.photo != photo->id) forgetPlace(view, photo->id);
  const PhotoRole role = roleOnShow(d.state);
  const bool usable = photo->trouble.empty() && photo->size.width > 0 && photo->size.height > 0, editable = usable && takesRegions(role);
  const auto tools = photoTools(view, *photo, usable, editable, role == PhotoRole::First, room.y);
  const Field whole = fieldNow();
  Field field = whole;
  if (!usable) {
    drawSentence(field, !photo->trouble.empty() ? photo->trouble : "Opening the photo …", WordsAt::Middle, d.look);
    return;
  }

  PhotoPlace place = placeOf(whole, photo->size, view.zoom, view.centre);
  ImGui::InvisibleButton("canvas", {static_cast<float>(whole.width), static_cast<float>(whole.height)}, ImGuiButtonFlags_MouseButtonLeft | ImGuiButtonFlags_MouseButtonMiddle | ImGuiButtonFlags_MouseButtonRight);
  const Hand hand = handNow(d.look);
  for (const Do what : tools) doTool(what, view, place, *photo, d.out);
  arrowKeys(view, place, *photo, editable, kPanStep * d.look.scale, d.out);
  if (view.adding > 0 && (keyPressed(Do::StopWork) || !editable)) view.adding = 0, view.drawn_from.reset();
  const Regions regions = moveHand(view, place, *photo, editable, hand, d.out);
  const bool beyond = !photo->preview || place.zoom * photo->size.width > photo->preview->size.width;
  if (beyond && !photo->full && view.looked != photo->id && !photo->opening) {
    view.looked = photo->id;
    d.out.push_back(act::LookClosely{photo->id});
  }

  ImGui::PushClipRect({static_cast<float>(whole.left), static_cast<float>(whole.top)}, {static_cast<float>(whole.left + whole.width), static_cast<float>(whole.top + whole.height)}, true);
  drawPicture(place, *photo, d.textures);
  if (role == PhotoRole::First && view.map) drawMap(place, d);
  if (role == PhotoRole::First && view.marks) drawMarks(place, d);
  const Grip under = view.dragging >= 0 ? Grip{view.selected, view.dragging} : editable && hand.over && view.adding == 0 ? gripAt(place, partsOf(regions), view.selected, hand.pointer, hand.reach) : Grip{};
  if (!view.hidden) {
    drawRegions(view, place, *photo, regions, editable, under, d);
    if (under.grip >= 0) ImGui::SetMouseCursor(under.grip == 4 ? ImGuiMouseCursor_ResizeAll : ImGuiMouseCursor_Hand);
  }
  if (view.adding > 0) {
    drawAdding(view, place, hand, d.look);
    drawSentence(field, wordsOfAdding(view.adding), WordsAt::Top, d.look);
  }
  if (const std::string words = wordsOfState(view, *photo, role, d.state); !words.empty()) drawSentence(field, words, WordsAt::Foot, d.look);
  std::vector<Taken> taken = boxesOf(place, partsOf(regions));
  if (role == PhotoRole::First && view.map) drawMapLegend(field, taken, d);
  if (role == PhotoRole::First && view.marks) drawMarksLegend(field, taken, d);
  if (view.magnifier && hand.over) drawMagnifier(view, place, photo->id, hand.pointer, taken, d);
  ImGui::PopClipRect();
}

}  // namespace huewright::desk
