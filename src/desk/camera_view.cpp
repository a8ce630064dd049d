#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <imgui.h>

#include "desk/chart_patches.hpp"
#include "desk/flow.hpp"
#include "desk/signs.hpp"

namespace huewright::desk {
namespace {

constexpr float kPhotoBeside = 52;  // em of room

void cameraButtons(DeskState& desk, Drawing& d) {
  const CameraShown& camera = d.state.camera;
  const auto count = static_cast<int>(d.state.plan.chart_photos.size());
  const bool usable = camera.health && *camera.health != Health::NotUsable;
  Flow flow;
  if (flow.button(Do::AddChart)) askForFile(desk, Asking::Chart, d.out);
  if (flow.button(Do::RemoveChart, count > 0)) d.out.push_back(act::DropChartPhoto{static_cast<std::size_t>(desk.camera.photo)});
  if (flow.button(Do::NextChart, count > 1)) desk.camera.photo = (desk.camera.photo + 1) % count;
  if (flow.button(Do::SaveProfile, usable)) askForFile(desk, Asking::SaveProfile, d.out);
  const bool in_use = d.state.plan.choices.profile.has_value();
  if (flow.button(Do::UseProfile, true, in_use, in_use ? "No kept profile" : nullptr)) {
    if (in_use) d.out.push_back(act::UseProfile{});
    else askForFile(desk, Asking::Profile, d.out);
  }
}

std::string healthWord(const CameraShown& camera) {
  switch (*camera.health) {
    case Health::Good: return "Good";
    case Health::Usable: return "Usable";
    case Health::NotUsable: break;
  }
  return "Not usable";
}

void profileWords(const SittingState& state, const Look& look) {
  const CameraShown& camera = state.camera;
  if (state.profiling) wrapped("Reading the chart \u2026");
  if (!camera.trouble.empty()) cautionLine(camera.trouble.c_str(), look);
  if (camera.health) {
    if (look.type.large) ImGui::PushFont(look.type.large);
    wrapped(healthWord(camera).c_str());
    if (look.type.large) ImGui::PopFont();
  }
  for (const std::string& one : camera.sentences) wrapped(one);
  if (!camera.cautions.empty()) {
    heading("Mind", look);
    for (const std::string& one : camera.cautions) cautionLine(one.c_str(), look);
  }
  if (camera.written) wrapped("The profile is kept.");
}

void profileInUse(const SittingState& state, const Look& look) {
  heading("In use", look);
  if (state.plan.choices.profile) wrapped(("Photos without a chart are judged by the profile " + state.plan.choices.profile->filename().string() + ".").c_str());
  else wrapped("No kept profile is in use: a photo without a chart is taken as the file itself says, which is less sure.");
  wrapped(state.plan.choices.use_chart ? "A chart in a panel's photo comes before any kept profile." : "Charts in panels' photos are not looked for.");
}

void noCharts(const Look& look) {
  heading("Teach the program your camera", look);
  wrapped("A camera sees colours its own way. From a photo of a 24-patch colour chart the program learns how, and can then take that off every panel's photo.");
  ImGui::Spacing();
  itemLine("Lay the chart flat where you photograph panels, in the same light, with nothing shining on it.", look);
  itemLine("Photograph it whole, straight from above, with the camera's settings that you use for panels; raw files are best.", look);
  itemLine("Add the photo here (A), or drop it on the window. Two or three photos are surer than one.", look);
  itemLine("Once the profile is good or usable, keep it (Ctrl+S) and use it (U).", look);
}

void chartSide(DeskState& desk, Drawing& d, ImVec2 room) {
  const CameraShown& camera = d.state.camera;
  const auto& files = d.state.plan.chart_photos;
  const auto place = static_cast<std::size_t>(desk.camera.photo);
  wrapped(fmt::format("Chart photo {} of {}: {}", place + 1, files.size(), files[place].filename().string()));
  if (place >= camera.photos.size()) {
    wrapped("Opening it \u2026");
    return;
  }
  const ChartPhotoShown& photo = camera.photos[place];
  if (!photo.trouble.empty()) cautionLine(photo.trouble.c_str(), d.look);
  if (photo.preview && photo.size.width > 0) drawChartPhoto(photo, d.textures, room.x, std::max(room.y - 6 * ImGui::GetFontSize(), 0.4f * room.x), d.look);
  patchesKey(photo, d.look);
}

}  // namespace

void drawCamera(DeskState& desk, Drawing& d) {
  const auto count = static_cast<int>(d.state.plan.chart_photos.size());
  desk.camera.photo = std::clamp(desk.camera.photo, 0, std::max(0, count - 1));
  ImGui::BeginChild("camera", ImGui::GetContentRegionAvail());  // the buttons scroll too: large type leaves little room
  cameraButtons(desk, d);
  const ImVec2 room = ImGui::GetContentRegionAvail();
  if (count == 0) {
    noCharts(d.look);
    ImGui::Spacing();
    profileInUse(d.state, d.look);
  } else if (room.x < kPhotoBeside * ImGui::GetFontSize()) {
    profileWords(d.state, d.look);
    const float width = ImGui::GetContentRegionAvail().x;
    chartSide(desk, d, {width, 2 * width});  // it scrolls: as wide as there is room
    profileInUse(d.state, d.look);
  } else {
    const float left = std::floor(0.58f * room.x);
    ImGui::BeginChild("chart photo", {left, room.y});
    chartSide(desk, d, ImGui::GetContentRegionAvail());
    ImGui::EndChild();
    ImGui::SameLine(0, 2 * ImGui::GetStyle().ItemSpacing.x);
    ImGui::BeginChild("profile", {0, room.y});
    profileWords(d.state, d.look);
    profileInUse(d.state, d.look);
    ImGui::EndChild();
  }
  ImGui::EndChild();
}

}  // namespace huewright::desk
