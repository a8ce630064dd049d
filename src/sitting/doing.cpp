// One line for each thing that a person can do.
#include "sitting/camera_list.hpp"
#include "sitting/inside.hpp"

namespace huewright {
namespace {

template <class... Ts>
struct Overloaded : Ts... {
  using Ts::operator()...;
};

/// What is kept must be found again from any folder.
std::vector<fs::path> absolute(std::vector<fs::path> files) {
  std::error_code ignored;
  for (fs::path& file : files) file = fs::absolute(file, ignored).lexically_normal();
  return files;
}

}  // namespace

void Sitting::Inside::apply(const Action& action) {
  // What was done is told until the next thing is; what went wrong stays until it is put away.
  const bool looking = std::holds_alternative<act::KeepWindow>(action) || std::holds_alternative<act::Probe>(action) || std::holds_alternative<act::LookClosely>(action) ||
                       std::holds_alternative<act::WantMap>(action) || std::holds_alternative<act::WantMarks>(action) || std::holds_alternative<act::ShowPhoto>(action) ||
                       std::holds_alternative<act::ListFolder>(action) || std::holds_alternative<act::WorkOutPour>(action) || std::holds_alternative<act::ListCameras>(action);
  if (!looking && !state.notice.bad) state.notice.sentence.clear();
  std::visit(
      Overloaded{
          [&](const act::OpenPhotos& a) { open({absolute(a.files), a.role, a.same_panel, a.by_hand}); },
          [&](const act::ClosePhoto& a) { closePhoto(a.id); },
          [&](const act::SetRole& a) { setRole(a); },
          [&](const act::ShowPhoto& a) {
            if (planned(a.id)) state.shown = a.id;
          },
          [&](const act::SetRegions& a) { setRegions(a); },
          [&](const act::FindRegions& a) { findRegions(a.id); },
          [&](const act::SetChoices& a) {
            remember("changing how it was sprayed or is judged", a.joins);
            state.plan.choices = a.choices;
            follow();
          },
          [&](const act::Stop&) { stop(); },
          [&](const act::LookClosely& a) { lookClosely(a.id); },
          [&](const act::Probe& a) { probe(a); },
          [&](const act::WantMap& a) { wantMap(a); },
          [&](const act::WantMarks& a) { want_marks = a.on, look(); },
          [&](const act::AddToSeries&) { addReading(); },
          [&](const act::UseAsGround&) { useAsGround(); },
          [&](const act::NewSeries&) { newSeries(); },
          [&](const act::OpenSeries& a) { openSeries(absolute({a.file}).front()); },
          [&](const act::SaveSeries& a) { saveSeries(a.file.empty() ? a.file : absolute({a.file}).front()); },
          [&](const act::SetSeries& a) { setSeries(a); },
          [&](const act::UseTints& a) {
            remember("using known tints");
            state.plan.tints = a.file;
            follow();
          },
          [&](const act::SetPart& a) {
            remember("saying the part's coats", true);
            state.plan.part_coats = a.coats;
            follow();
          },
          [&](const act::AddChartPhotos& a) { addCharts(absolute(a.files)); },
          [&](const act::DropChartPhoto& a) { dropChart(a.index); },
          [&](const act::SaveProfile& a) { saveProfile(absolute({a.file}).front()); },
          [&](const act::UseProfile& a) {
            remember("using a profile");
            state.plan.choices.profile = a.file;
            follow();
          },
          [&](const act::WorkOutPour& a) { workOutPour(a.request); },
          [&](const act::StartCamera& a) { startCamera(a); },
          [&](const act::StopCamera&) { stopCamera(); },
          [&](const act::UseMarks& a) { state.live.by_marks = a.on; },
          [&](const act::BeginAnew&) {
            if (state.live.running) live->beginAnew();
          },
          [&](const act::TakeStill&) { takeStill(); },
          [&](const act::KeepStills& a) {
            state.live.stills = absolute({a.folder}).front();
            say("Stills go into " + state.live.stills.string() + ".");
            keep();
          },
          [&](const act::ListCameras&) { state.live.cameras = camerasIn(devices.devices); },
          [&](const act::FollowFolder& a) { followFolder(absolute({a.folder}).front()); },
          [&](const act::UnfollowFolder&) { unfollow(); },
          [&](const act::FileByTags& a) {
            state.followed.by_tags = a.on;
            keep();
          },
          [&](const act::ListFolder& a) { listFolder(a.folder); },
          [&](const act::Undo&) { step(past, future, "There is nothing to undo."); },
          [&](const act::Redo&) { step(future, past, "There is nothing to do again."); },
          [&](const act::HideNotice&) { state.notice.sentence.clear(); },
          [&](const act::Demo& a) { demo(a.step); },
          [&](const act::KeepWindow& a) {
            if (window == a.numbers) return;
            window = a.numbers;
            keep();
          },
      },
      action);
}

}  // namespace huewright
