#include "frames/video_source.hpp"

#include <cmath>
#include <csignal>
#include <cstdarg>
#include <cstdint>
#include <dlfcn.h>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <mutex>
#include <opencv2/core.hpp>
#include <opencv2/core/utils/logger.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <opencv2/videoio.hpp>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "frames/camera_settings.hpp"
#include "frames/jpeg_picture.hpp"
#include "frames/source_kind.hpp"

namespace huewright::frames {
namespace {

const int kJpegCode = cv::VideoWriter::fourcc('M', 'J', 'P', 'G');

/// What FFmpeg has to say goes nowhere. Its av_log_set_level would not do, as OpenCV sets that anew for every film.
void unheard(void*, int, const char*, std::va_list) {}

/// Neither OpenCV nor FFmpeg may write to the terminal.
void silence() {
  static std::once_flag once;
  std::call_once(once, [] {
    cv::utils::logging::setLogLevel(cv::utils::logging::LOG_LEVEL_SILENT);
    using SetCallback = void (*)(void (*)(void*, int, const char*, std::va_list));  // of FFmpeg's libavutil/log.h, which videoio brings
    if (const auto set = reinterpret_cast<SetCallback>(::dlsym(RTLD_DEFAULT, "av_log_set_callback"))) set(unheard);
  });
}

int codeOf(const cv::VideoCapture& capture) { return static_cast<int>(capture.get(cv::CAP_PROP_FOURCC)); }

int propertyOf(Setting setting) {
  switch (setting) {
    case Setting::AutoExposure: return cv::CAP_PROP_AUTO_EXPOSURE;
    case Setting::Exposure: return cv::CAP_PROP_EXPOSURE;
    case Setting::AutoWhiteBalance: return cv::CAP_PROP_AUTO_WB;
    case Setting::Temperature: return cv::CAP_PROP_WB_TEMPERATURE;
    case Setting::AutoFocus: return cv::CAP_PROP_AUTOFOCUS;
    case Setting::Focus: return cv::CAP_PROP_FOCUS;
  }
  return -1;
}

class CaptureSettings : public CameraSettings {
 public:
  explicit CaptureSettings(cv::VideoCapture& capture) : capture_(capture) {}
  std::optional<double> value(Setting setting) override {
    const double told = capture_.get(propertyOf(setting));  // -1 when it has none; none of these values is negative
    return told < 0 ? std::optional<double>{} : told;
  }
  bool set(Setting setting, double value) override { return capture_.set(propertyOf(setting), value); }

 private:
  cv::VideoCapture& capture_;
};

/// Signals come to this thread only when it ends: Ctrl-C would break off the library's waiting, which it takes for a lost camera and writes to the terminal.
class SignalsLater {
 public:
  SignalsLater() {
    sigset_t all;
    ::sigfillset(&all);
    ::pthread_sigmask(SIG_BLOCK, &all, &before_);
  }
  SignalsLater(const SignalsLater&) = delete;
  SignalsLater& operator=(const SignalsLater&) = delete;
  ~SignalsLater() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }

 private:
  sigset_t before_{};
};

/// What cameras had switched to automatic that were lost while they were held, by their devices. Most forget what they were told when they lose their power; the others get it back when
/// they are opened again, and settle anew.
class OwedSettings {
 public:
  void owe(const std::string& device, const AutomaticSettings& before) {
    const std::scoped_lock hold(lock_);
    owed_[device] = before;
  }
  std::optional<AutomaticSettings> take(const std::string& device) {
    const std::scoped_lock hold(lock_);
    const auto at = owed_.extract(device);
    return at.empty() ? std::optional<AutomaticSettings>{} : at.mapped();
  }

 private:
  std::mutex lock_;
  std::map<std::string, AutomaticSettings> owed_;
};

OwedSettings& owedSettings() {
  static OwedSettings owed;
  return owed;
}

/// By asking for no room; 0 × 0 when it cannot be read.
cv::Size sizeOfJpeg(std::span<const std::uint8_t> bytes) {
  cv::Size size;
  HuewrightSteps steps{};
  const HuewrightRoom noted = [](void* owner, std::int32_t width, std::int32_t height) -> std::uint8_t* {
    *static_cast<cv::Size*>(owner) = {width, height};
    return nullptr;
  };
  unpackJpeg(bytes, noted, &size, steps);
  return size;
}

/// One rate in frames a second; 0 when it is not told or cannot be.
double plainRate(double rate) { return std::isfinite(rate) && rate > 0 && rate <= 1000 ? rate : 0; }

}  // namespace

struct VideoSource::State {
  SourceName name;
  std::vector<cv::VideoCapture> capture{1};  // as the library's waitAny wants it
  cv::Mat picture;                           // B, G, R, or a JPEG picture's bytes; a file's first one is read on opening
  bool is_jpeg = false, is_read = false, is_started = false;
  int next_picture = 0;                      // of a sequence
  HuewrightSteps steps{};                    // of the last frame
  int width = 0, height = 0;
  std::optional<AutomaticSettings> before;   // of a device that was held

  bool live() const { return name.kind == SourceKind::Device; }
  bool openFile();
  void openDevice();
  HuewrightRead readDevice(int wait_ms);
  HuewrightRead readFile();
};

bool VideoSource::State::openFile() {
  cv::VideoCapture& film = capture[0];
  const std::vector<int> plain{cv::CAP_PROP_HW_ACCELERATION, cv::VIDEO_ACCELERATION_NONE};
  constexpr int kAsItIsKept = -1;  // of CAP_PROP_FORMAT: not unpacked
  if (name.kind == SourceKind::Pictures) {
    next_picture = firstPicture(name.path).value_or(0);
  } else {
    film.open(name.path, cv::CAP_FFMPEG, {plain[0], plain[1], cv::CAP_PROP_FORMAT, kAsItIsKept});
    is_jpeg = codeOf(film) == kJpegCode;
    if (!is_jpeg && film.isOpened()) film.open(name.path, cv::CAP_FFMPEG, plain);
  }
  is_read = readFile() == HuewrightGot;
  return is_read && !picture.empty();
}

void VideoSource::State::openDevice() {
  cv::VideoCapture& camera = capture[0];
  if (!camera.open(name.path, cv::CAP_V4L2)) return;
  camera.set(cv::CAP_PROP_BUFFERSIZE, 1);
  camera.set(cv::CAP_PROP_FOURCC, kJpegCode);
  camera.set(cv::CAP_PROP_FRAME_WIDTH, 1920);
  camera.set(cv::CAP_PROP_FRAME_HEIGHT, 1080);
  camera.set(cv::CAP_PROP_FPS, 30);
  is_jpeg = codeOf(camera) == kJpegCode && camera.set(cv::CAP_PROP_CONVERT_RGB, 0);
  if (const auto owed = owedSettings().take(name.path)) {
    CaptureSettings settings(camera);
    giveBack(settings, *owed);
  }
}

HuewrightRead VideoSource::State::readDevice(int wait_ms) {
  const SignalsLater later;
  cv::VideoCapture& camera = capture[0];
  if (is_started) {  // the first frame starts the stream: there is nothing to wait on before it
    std::vector<int> ready;
    constexpr std::int64_t kNanoseconds = 1'000'000;
    if (!cv::VideoCapture::waitAny(capture, ready, wait_ms * kNanoseconds) || ready.empty()) return HuewrightWaiting;
  }
  if (!camera.grab()) return HuewrightLost;
  is_started = true;
  if (!camera.retrieve(picture)) picture.release();  // it came, and could not be unpacked
  return HuewrightGot;
}

HuewrightRead VideoSource::State::readFile() {
  if (name.kind != SourceKind::Pictures) return capture[0].read(picture) && !picture.empty() ? HuewrightGot : HuewrightEnd;
  // Not through the library's CAP_IMAGES, which takes a damaged picture for the end.
  const std::string file = pictureNumbered(name.path, next_picture);
  std::error_code error;
  if (!std::filesystem::exists(file, error)) return HuewrightEnd;
  ++next_picture;
  std::ifstream stream(file, std::ios::binary);
  std::vector<std::uint8_t> bytes{std::istreambuf_iterator<char>(stream), {}};
  is_jpeg = bytes.size() > 2 && bytes[0] == 0xFF && bytes[1] == 0xD8;
  picture = is_jpeg ? cv::Mat(bytes, true) : bytes.empty() ? cv::Mat() : cv::imdecode(bytes, cv::IMREAD_COLOR);
  return HuewrightGot;
}

VideoSource::VideoSource(std::unique_ptr<State> state) : state_(std::move(state)) {}
VideoSource::~VideoSource() {
  if (!state_->before) return;
  try {
    CaptureSettings settings(state_->capture[0]);
    if (giveBack(settings, *state_->before)) return;
  } catch (const std::exception&) {  // it was pulled out
  }
  owedSettings().owe(state_->name.path, *state_->before);
}

std::expected<std::unique_ptr<VideoSource>, std::string> VideoSource::open(const std::string& source) {
  silence();
  auto name = sourceNamed(source);
  if (!name) return std::unexpected(name.error());
  auto state = std::make_unique<State>();
  state->name = *name;
  cv::VideoCapture& capture = state->capture[0];
  if (state->live()) {
    state->openDevice();
    if (!capture.isOpened())
      return std::unexpected("The camera \"" + name->path + "\" cannot be opened: it gives no pictures, or another program uses it. Close that, or name another camera");
  } else if (!state->openFile()) {
    return std::unexpected("\"" + source + "\" holds no pictures that can be read here. Make it again, as Motion JPEG (.avi), FFV1 (.mkv) or numbered pictures");
  }
  const bool told = name->kind != SourceKind::Pictures;
  if (told) {
    state->width = static_cast<int>(capture.get(cv::CAP_PROP_FRAME_WIDTH));
    state->height = static_cast<int>(capture.get(cv::CAP_PROP_FRAME_HEIGHT));
  } else if (state->is_jpeg) {
    const cv::Size size = sizeOfJpeg({state->picture.data, state->picture.total()});
    state->width = size.width;
    state->height = size.height;
  } else {
    state->width = state->picture.cols;
    state->height = state->picture.rows;
  }
  return std::unique_ptr<VideoSource>(new VideoSource(std::move(state)));
}

HuewrightRead VideoSource::read(int wait_ms, HuewrightRoom room, void* owner) {
  State& my = *state_;
  if (!my.is_read) {
    const HuewrightRead came = my.live() ? my.readDevice(wait_ms) : my.readFile();
    if (came != HuewrightGot) return came;
  }
  my.is_read = false;
  my.steps = {};
  if (my.is_jpeg) return unpackJpeg({my.picture.data, my.picture.total() * my.picture.elemSize()}, room, owner, my.steps);
  std::uint8_t* rgb = room(owner, my.picture.cols, my.picture.rows);
  if (my.picture.empty()) return HuewrightGot;
  if (rgb == nullptr) return HuewrightNoRoom;
  cv::Mat to(my.picture.rows, my.picture.cols, CV_8UC3, rgb);
  cv::cvtColor(my.picture, to, cv::COLOR_BGR2RGB);
  return HuewrightGot;
}

HuewrightSteps VideoSource::steps() const { return state_->steps; }

HuewrightCameraFacts VideoSource::facts() const {
  const cv::VideoCapture& capture = state_->capture[0];
  HuewrightCameraFacts facts{};
  facts.width = state_->width;
  facts.height = state_->height;
  facts.live = state_->live() ? 1 : 0;
  if (state_->name.kind == SourceKind::Pictures) return facts;  // pictures know no rate
  facts.rate = plainRate(capture.get(cv::CAP_PROP_FPS));
  facts.compressed = codeOf(capture) == kJpegCode ? 1 : 0;
  return facts;
}

HuewrightCameraHolds VideoSource::hold() {
  if (!state_->live()) return {HuewrightNoSuch, HuewrightNoSuch, HuewrightNoSuch};
  CaptureSettings settings(state_->capture[0]);
  if (!state_->before) state_->before = automaticSettings(settings);
  return holdSettings(settings);
}

}  // namespace huewright::frames
