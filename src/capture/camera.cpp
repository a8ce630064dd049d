#include "capture/camera.hpp"

#include <array>
#include <chrono>
#include <new>

#include "capture/camera_door.hpp"
#include "capture/camera_module.hpp"

namespace huewright {
namespace {

constexpr std::chrono::milliseconds kWaitSlice{100};  // a stop is seen after so long at the latest
constexpr std::chrono::seconds kLostAfter{2};
constexpr double kPictureRate = 30;                   // of a sequence, which has no rate: that of the cameras it stands for

/// The door's HuewrightRoom: a frame's pixels. Nothing may be thrown through it.
std::uint8_t* roomInFrame(void* owner, std::int32_t width, std::int32_t height) {
  Frame& frame = *static_cast<Frame*>(owner);
  try {
    frame.rgb.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3);
  } catch (const std::bad_alloc&) {
    return nullptr;
  }
  frame.size = {width, height};
  return frame.rgb.data();
}

Hold holdOf(std::int32_t held) {
  switch (held) {
    case HuewrightStays: return Hold::Held;
    case HuewrightRefused: return Hold::Refused;
    case HuewrightNoSuch: return Hold::NoSuch;
    default: return Hold::Free;
  }
}

class ModuleCamera : public Camera {
 public:
  ModuleCamera(const HuewrightCameraDoor& door, void* camera, std::string name) : door_(door), camera_(camera) {
    HuewrightCameraFacts told{};
    door_.facts(camera_, &told);
    facts_ = {.name = std::move(name), .size = {told.width, told.height}, .rate = told.rate, .compressed = told.compressed != 0, .live = told.live != 0};
  }
  ModuleCamera(const ModuleCamera&) = delete;
  ModuleCamera& operator=(const ModuleCamera&) = delete;
  ~ModuleCamera() override { door_.close(camera_); }

  const CameraFacts& facts() const override { return facts_; }

  Result<std::optional<Frame>> next(const std::stop_token& stop) override {
    const auto begun = Clock::now();
    while (!stop.stop_requested()) {
      Frame frame;
      switch (door_.read(camera_, static_cast<std::int32_t>(kWaitSlice.count()), roomInFrame, &frame)) {
        case HuewrightGot:
          frame.number = next_number_++;
          frame.seconds = secondsNow(frame.number);
          frame.rounding = roundingNow();
          return frame;
        case HuewrightEnd: return std::nullopt;
        case HuewrightNoRoom: return fail(Code::OutOfMemory, "the pictures of a camera");
        case HuewrightWaiting:
          if (Clock::now() - begun >= kLostAfter) return fail(Code::CameraLost, facts_.name);
          break;
        default:
          if (facts_.live) return fail(Code::CameraLost, facts_.name);
          return fail(Code::CameraUnusable, "\"" + facts_.name + "\" is damaged and cannot be read on. Make the film again");
      }
    }
    return std::nullopt;
  }

  CameraHolds hold() override {
    HuewrightCameraHolds told{};
    door_.hold(camera_, &told);
    return {holdOf(told.exposure), holdOf(told.white_balance), holdOf(told.focus)};
  }

 private:
  using Clock = std::chrono::steady_clock;

  double secondsNow(std::uint64_t number) const {
    if (facts_.live) return std::chrono::duration<double>(Clock::now() - opened_).count();
    return static_cast<double>(number) / (facts_.rate > 0 ? facts_.rate : kPictureRate);
  }

  FrameRounding roundingNow() const {
    HuewrightSteps told{};
    door_.steps(camera_, &told);
    if (!(told.luma > 0 && told.blue > 0 && told.red > 0)) return {};
    return {Vec3{told.luma, told.blue, told.red}, told.subsampled != 0};
  }

  const HuewrightCameraDoor& door_;
  void* camera_;
  CameraFacts facts_;
  Clock::time_point opened_ = Clock::now();
  std::uint64_t next_number_ = 0;
};

}  // namespace

Result<std::unique_ptr<Camera>> openCamera(const std::string& source) {
  const auto door = cameraModule();
  if (!door) return std::unexpected(door.error());
  std::array<char, 1024> reason{};
  void* camera = (*door)->open(source.c_str(), reason.data(), reason.size());
  if (camera == nullptr) return fail(Code::CameraUnusable, reason.data());
  return std::make_unique<ModuleCamera>(**door, camera, source);
}

}  // namespace huewright
