#include "sitting/sitting.hpp"

#include "photo/write.hpp"
#include "session/user_data.hpp"
#include "sitting/camera_list.hpp"
#include "sitting/inside.hpp"

namespace huewright {

Sitting::Sitting(std::unique_ptr<Inside> in) : in_(std::move(in)) {}
Sitting::Sitting(Sitting&&) noexcept = default;
Sitting& Sitting::operator=(Sitting&&) noexcept = default;

Sitting::~Sitting() {
  if (!in_) return;
  in_->quick.close();  // it may be writing what was kept before
  if (!in_->memory.file().empty()) static_cast<void>(writeWhole(in_->memory.file(), in_->text()));  // kept after every change already
}

Result<Sitting> Sitting::open(SittingPlaces places, std::function<void()> wake) {
  SittingDevices usual;
  return open(std::move(places), std::move(wake), std::move(usual));
}

Result<Sitting> Sitting::open(SittingPlaces places, std::function<void()> wake, SittingDevices devices) {
  auto session = Session::open(places.calib);
  if (!session) return std::unexpected(session.error());
  std::error_code ignored;
  if (!places.memory.empty()) fs::create_directories(places.memory.parent_path(), ignored);
  auto in = std::make_unique<Inside>(std::move(places), std::move(*session), std::move(wake), std::move(devices));
  in->state.situations = in->session.standards().situations;
  in->state.plan.choices.tolerance = in->state.situations.front().tolerance;
  if (const auto stills = stillsPath()) in->state.live.stills = *stills;
  in->state.live.cameras = camerasIn(in->devices.devices);
  in->recall();
  in->state.window = in->window;
  in->follow();
  return Sitting(std::move(in));
}

void Sitting::apply(const Action& action) {
  in_->apply(action);
  in_->judgeLive();
  in_->state.work = in_->slow.now().what.empty() ? in_->quick.now() : in_->slow.now();
}

bool Sitting::poll() {
  const bool quick = in_->quick.poll(), slow = in_->slow.poll();
  if (quick || slow) in_->judgeLive();  // a photo's size may be known now
  const bool live = in_->pollLive(), followed = in_->pollFollowed();
  const WorkNow now = in_->slow.now().what.empty() ? in_->quick.now() : in_->slow.now();
  const bool other = now.what != in_->state.work.what || now.share != in_->state.work.share || now.waiting != in_->state.work.waiting;
  in_->state.work = now;
  return quick || slow || live || followed || other;
}

void Sitting::settle() {
  while (!in_->quick.idle() || !in_->slow.idle()) {
    in_->quick.settle();
    in_->slow.settle();
  }
  poll();
}

const SittingState& Sitting::state() const { return in_->state; }

std::optional<JudgeRequest> Sitting::judgeRequest() const { return in_->request(); }

}  // namespace huewright
