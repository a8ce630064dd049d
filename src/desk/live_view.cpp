#include <algorithm>
#include <array>
#include <cmath>
#include <imgui.h>

#include "base/text.hpp"
#include "desk/arrivals_list.hpp"
#include "desk/band.hpp"
#include "desk/flow.hpp"
#include "desk/key_cap.hpp"
#include "desk/live_picture.hpp"
#include "desk/short_name.hpp"
#include "desk/signs.hpp"
#include "desk/swatch_row.hpp"
#include "desk/toolbar.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

constexpr float kVerdictBeside = 46;  // em of room
constexpr const char* kVapourWords = "Ordinary electronics, cameras and computers among them, are ignition sources near solvent vapour. Photograph outside the spray area, after venting, and keep this "
                                     "computer out of it too. Follow your local codes.";

std::string chosenSource(const DeskState& desk, const SittingState& s) {
  if (!desk.live.source.empty()) return desk.live.source;
  if (!s.live.source.empty()) return s.live.source;
  return s.live.cameras.empty() ? std::string() : s.live.cameras.front();
}

/// "camera 0", "/dev/video-top", "film.mkv".
std::string sourceWords(const std::string& source) {
  if (source.empty()) return "none is plugged in";
  if (std::ranges::all_of(source, isDigit)) return "camera " + source;
  return source.starts_with("/dev/") ? source : std::filesystem::path(source).filename().string();
}

void nextCamera(DeskState& desk, Drawing& d) {
  const SittingState& s = d.state;
  d.out.push_back(act::ListCameras{});
  if (s.live.cameras.empty()) return;
  const auto at = std::ranges::find(s.live.cameras, chosenSource(desk, s));
  desk.live.source = at == s.live.cameras.end() || at + 1 == s.live.cameras.end() ? s.live.cameras.front() : *(at + 1);
  if (s.live.running) d.out.push_back(act::StartCamera{desk.live.source, s.live.by_marks});
}

void nextArrival(DeskState& desk, const SittingState& s) {
  const auto at = std::ranges::find(s.arrivals, desk.live.arrival, &Arrival::id);
  desk.live.arrival = at == s.arrivals.end() || at + 1 == s.arrivals.end() ? s.arrivals.front().id : (at + 1)->id;
}

void smallButtons(DeskState& desk, Drawing& d) {
  const SittingState& s = d.state;
  const bool follows = s.followed.running;
  const std::array items{ToolItem{Do::NextCamera},
                         ToolItem{Do::OpenFilm},
                         ToolItem{Do::UseMarks, true, s.live.by_marks},
                         ToolItem{Do::LiveSprayed, true, desk.sprayed},
                         ToolItem{Do::FollowFolder, true, follows, follows ? "Stop following" : nullptr},
                         ToolItem{Do::FileByTags, true, s.followed.by_tags},
                         ToolItem{Do::NextArrival, !s.arrivals.empty()},
                         ToolItem{Do::OpenArrival, chosenArrival(desk.live, s) != nullptr},
                         ToolItem{Do::StillsFolder}};
  for (const Do what : drawToolbar("live", items, 2)) {
    switch (what) {
      case Do::NextCamera: nextCamera(desk, d); break;
      case Do::OpenFilm:
        askForFile(desk, Asking::Film, d.out);
        desk.browser.marks = s.live.by_marks;
        desk.live.source.clear();
        break;
      case Do::UseMarks: d.out.push_back(act::UseMarks{!s.live.by_marks}); break;
      case Do::LiveSprayed: desk.sprayed = !desk.sprayed; break;
      case Do::FollowFolder:
        if (follows) {
          d.out.push_back(act::UnfollowFolder{});
        } else {
          askForFile(desk, Asking::Follow, d.out);
          if (!s.followed.folder.empty()) d.out.push_back(act::ListFolder{s.followed.folder});
        }
        break;
      case Do::FileByTags: d.out.push_back(act::FileByTags{!s.followed.by_tags}); break;
      case Do::NextArrival: nextArrival(desk, s); break;
      case Do::OpenArrival:
        d.out.push_back(openingOf(*chosenArrival(desk.live, s)));
        desk.look.page = Page::Panel;
        break;
      default: askForFile(desk, Asking::Stills, d.out); break;
    }
  }
}

void largeButtons(DeskState& desk, Drawing& d) {
  const LiveShown& live = d.state.live;
  const std::string source = chosenSource(desk, d.state);
  const std::array caps{KeyCap{Do::StartStop, live.running || !source.empty(), live.running ? "Stop" : "Start"}, KeyCap{Do::TakeStill, live.now.frame != nullptr}, KeyCap{Do::BeginAnew, live.running}};
  switch (keyCaps(caps, 2.2f * d.look.type.head->FontSize, d.look)) {
    case Do::StartStop:
      if (live.running) d.out.push_back(act::StopCamera{});
      else d.out.push_back(act::StartCamera{source, live.by_marks});
      break;
    case Do::TakeStill: d.out.push_back(act::TakeStill{}); break;
    case Do::BeginAnew: d.out.push_back(act::BeginAnew{}); break;
    default: break;
  }
}

void vapour(DeskState& desk, Drawing& d) {
  if (desk.look.vapour_told) return;
  cautionLine(kVapourWords, d.look);
  if (button(Do::VapourTold)) desk.look.vapour_told = true;
  ImGui::Spacing();
}

void howItWorks(const Look& look) {
  heading("A verdict while you look", look);
  itemLine("A webcam on an arm over the mat: panel, card and grey in their windows, nothing shining on them.", look);
  itemLine("Choose the camera (C) and start it (S). Hold still: the frames are averaged, and the longer it stands still, the surer it gets.", look);
  itemLine("Space takes a still: a photo like any other, to keep as a reading.", look);
  itemLine("F4 shows the verdict large, to be read from three metres.", look);
  ImGui::Spacing();
}

/// What is known of the frames, in words.
void ofTheFrames(const LiveNow& now) {
  for (const std::string* words : {&now.state_words, &now.noise_words, &now.places, &now.held})
    if (!words->empty()) wrapped(*words);
}

void liveVerdict(DeskState& desk, Drawing& d, float height) {
  const JudgedShown& judged = *d.state.live.now.judged;
  const PanelShown& panel = judged.panels[judged.main];
  const SwatchPiece card{&judged.card, "card"}, one{&panel.swatch, panel.name};
  const std::array fields{desk.look.swapped ? card : one, desk.look.swapped ? one : card};
  const float width = ImGui::GetContentRegionAvail().x;
  const bool several = judged.panels.size() > 1;
  namedSwatches("live colours", fields, width, several ? 0.7f * height : height, d.look);
  if (several) {
    std::vector<SwatchPiece> all;
    for (const PanelShown& each : judged.panels) all.push_back({&each.swatch, each.name});
    namedSwatches("live panels", all, width, 0.3f * height, d.look);
  }
  ImFont* large = d.look.type.large->FontSize > 0.08f * ImGui::GetIO().DisplaySize.y ? d.look.type.head : d.look.type.large;
  drawBand(panel.band, 1.05f * large->FontSize, d.look);
  ImGui::SameLine();
  wrapped(panel.headline, large);
  wrapped(panel.line, large == d.look.type.large ? d.look.type.head : d.look.type.body);
  wrapped(panel.sentence);
  if (!judged.ranking.empty()) wrapped(judged.ranking);
  if (!panel.actions.empty()) itemLine(panel.actions.front().c_str(), d.look);
  for (const std::string& caution : judged.cautions) cautionLine(caution.c_str(), d.look);
}

/// As high as the frame is at that width, but leaving room for the words below it.
float pictureHeight(const LiveNow& now, float width, float room) {
  const float most = std::max(0.5f * room, room - 11 * ImGui::GetTextLineHeightWithSpacing());
  return now.frame && now.frame->size.width > 0 ? std::min(most, width * static_cast<float>(now.frame->size.height) / static_cast<float>(now.frame->size.width)) : 0.5f * room;
}

/// Photos that came are of interest before any verdict's small print.
bool hasArrivals(const SittingState& s) { return s.followed.running || !s.arrivals.empty(); }

void pictureSide(DeskState& desk, Drawing& d, float width, float height) {
  const LiveNow& now = d.state.live.now;
  drawLivePicture(now, width, height, d);
  ofTheFrames(now);
  if (!hasArrivals(d.state)) return;
  ImGui::Spacing();
  drawArrivals(desk.live, d);
}

/// picture: the photos that came are beside it.
void saidSide(DeskState& desk, Drawing& d, bool picture, float height) {
  vapour(desk, d);
  const LiveNow& now = d.state.live.now;
  if (now.judged) liveVerdict(desk, d, height);
  else if (!d.state.live.running && !now.frame && now.trouble.empty()) howItWorks(d.look);
  else if (!now.trouble.empty()) wrapped(now.trouble, d.look.type.head);
  ImGui::Spacing();
  if (!picture || !hasArrivals(d.state)) drawArrivals(desk.live, d);
  ImGui::Spacing();
  if (!d.state.live.stills.empty()) wrapped("Stills go into " + d.state.live.stills.string() + ".");
}

}  // namespace

void drawLive(DeskState& desk, Drawing& d) {
  ImGui::BeginChild("live", ImGui::GetContentRegionAvail());  // the buttons scroll too: large type leaves little room
  largeButtons(desk, d);
  smallButtons(desk, d);
  const LiveShown& live = d.state.live;
  const std::string source = chosenSource(desk, d.state);
  wrapped((live.running ? "Running: " : "Chosen: ") + sourceWords(live.running ? live.source : source));
  const ImVec2 room = ImGui::GetContentRegionAvail();
  const bool picture = live.running || live.now.frame || !live.now.trouble.empty();
  if (!picture) {
    saidSide(desk, d, false, 0);
  } else if (room.x < kVerdictBeside * ImGui::GetFontSize()) {
    const float width = ImGui::GetContentRegionAvail().x;
    pictureSide(desk, d, width, pictureHeight(live.now, width, 2 * width));  // it scrolls: as wide as there is room
    saidSide(desk, d, true, 0.3f * width);
  } else {
    const float left = std::floor(0.58f * room.x);
    ImGui::BeginChild("live picture", {left, room.y});
    pictureSide(desk, d, ImGui::GetContentRegionAvail().x, pictureHeight(live.now, left, room.y));
    ImGui::EndChild();
    ImGui::SameLine(0, 2 * ImGui::GetStyle().ItemSpacing.x);
    ImGui::BeginChild("live verdict", {0, room.y});
    saidSide(desk, d, true, std::clamp(room.y - 19 * d.look.type.body->FontSize, 0.2f * room.y, 0.36f * room.y));
    ImGui::EndChild();
  }
  ImGui::EndChild();
}

}  // namespace huewright::desk
