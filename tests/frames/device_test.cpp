// Cameras of the operating system, through the video library's own V4L2 code and a made-up device.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <gtest/gtest.h>
#include <linux/videodev2.h>
#include <map>
#include <opencv2/core.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <string>
#include <vector>

#include "capture/camera_door.hpp"
#include "frames/jpeg_picture.hpp"
#include "frames/made_up_device.hpp"
#include "frames/read_frame.hpp"
#include "support/moving_picture.hpp"

extern "C" const HuewrightCameraDoor* huewright_camera_door();

namespace huewright::frames {
namespace {

std::vector<std::uint8_t> jpegOf(int number) {
  std::vector<std::uint8_t> rgb = fixtures::movingPicture(number), bytes;
  cv::Mat bgr;
  cv::cvtColor(cv::Mat(fixtures::kMovingSize.height, fixtures::kMovingSize.width, CV_8UC3, rgb.data()), bgr, cv::COLOR_RGB2BGR);
  cv::imencode(".jpg", bgr, bytes, {cv::IMWRITE_JPEG_QUALITY, 95});
  return bytes;
}

/// Luma of every pixel, colour of every second one, as BT.601 has them in its narrow range.
std::vector<std::uint8_t> yuyvOf(int number) {
  const std::vector<std::uint8_t> rgb = fixtures::movingPicture(number);
  std::vector<std::uint8_t> out;
  const auto code = [](double v) { return static_cast<std::uint8_t>(std::lround(v)); };
  for (std::size_t i = 0; i + 5 < rgb.size(); i += 6) {
    const auto luma = [&](std::size_t at) { return 16 + (65.481 * rgb[at] + 128.553 * rgb[at + 1] + 24.966 * rgb[at + 2]) / 255; };
    const double r = 0.5 * (rgb[i] + rgb[i + 3]), g = 0.5 * (rgb[i + 1] + rgb[i + 4]), b = 0.5 * (rgb[i + 2] + rgb[i + 5]);
    out.insert(out.end(), {code(luma(i)), code(128 + (-37.797 * r - 74.203 * g + 112 * b) / 255), code(luma(i + 3)), code(128 + (112 * r - 93.786 * g - 18.214 * b) / 255)});
  }
  return out;
}

double furthestFrom(const std::vector<std::uint8_t>& a, const std::vector<std::uint8_t>& b) {
  if (a.size() != b.size()) return INFINITY;
  int most = 0;
  for (std::size_t i = 0; i < a.size(); ++i) most = std::max(most, std::abs(a[i] - b[i]));
  return most;
}

/// A camera behind the module's door, where everything that the library throws must end.
class OpenCamera {
 public:
  explicit OpenCamera(const char* name = kMadeUpDevice) : camera_(door().open(name, reason_.data(), reason_.size())) {}
  OpenCamera(const OpenCamera&) = delete;
  OpenCamera& operator=(const OpenCamera&) = delete;
  ~OpenCamera() { close(); }

  explicit operator bool() const { return camera_ != nullptr; }
  std::string reason() const { return reason_.data(); }
  /// Waits as long as a frame may take on a busy machine.
  HuewrightRead read(ReadFrame& frame) {
    std::int32_t came = HuewrightWaiting;
    for (int i = 0; i < 50 && came == HuewrightWaiting; ++i) came = door().read(camera_, 100, roomInRead, &frame);
    return static_cast<HuewrightRead>(came);
  }
  HuewrightRead readAtOnce(ReadFrame& frame) { return static_cast<HuewrightRead>(door().read(camera_, 1, roomInRead, &frame)); }
  HuewrightCameraFacts facts() {
    HuewrightCameraFacts facts{};
    door().facts(camera_, &facts);
    return facts;
  }
  HuewrightSteps steps() {
    HuewrightSteps steps{};
    door().steps(camera_, &steps);
    return steps;
  }
  HuewrightCameraHolds hold() {
    HuewrightCameraHolds holds{};
    door().hold(camera_, &holds);
    return holds;
  }
  void close() {
    if (camera_ != nullptr) door().close(camera_);
    camera_ = nullptr;
  }

 private:
  static const HuewrightCameraDoor& door() { return *huewright_camera_door(); }
  std::array<char, 500> reason_{};
  void* camera_;
};

class Device : public testing::Test {
 protected:
  Device() {
    device() = {};
    device().there = true;
    for (int i = 0; i < 3; ++i) device().pictures.push_back(jpegOf(i));
    device().controls = {{V4L2_CID_EXPOSURE_AUTO, V4L2_EXPOSURE_APERTURE_PRIORITY}, {V4L2_CID_EXPOSURE_ABSOLUTE, 157}, {V4L2_CID_AUTO_WHITE_BALANCE, 1},
                         {V4L2_CID_WHITE_BALANCE_TEMPERATURE, 4600}, {V4L2_CID_FOCUS_AUTO, 1}, {V4L2_CID_FOCUS_ABSOLUTE, 30}};
  }
  ~Device() override { device() = {}; }

  static MadeUpDevice& device() { return madeUpDevice(); }
  static bool wasSaid(const std::string& what) { return std::ranges::find(device().said, what) != device().said.end(); }
};

TEST_F(Device, MotionJpegOfFullSizeIsAskedForAndComesAsItWasSent) {
  OpenCamera camera;
  ASSERT_TRUE(camera) << camera.reason();
  EXPECT_TRUE(wasSaid("format MJPG 1920 x 1080"));
  const HuewrightCameraFacts facts = camera.facts();
  EXPECT_EQ(facts.width, 96);
  EXPECT_EQ(facts.height, 64);
  EXPECT_EQ(facts.rate, 30);
  EXPECT_EQ(facts.live, 1);
  EXPECT_EQ(facts.compressed, 1);
  std::vector<std::vector<std::uint8_t>> sent;
  HuewrightSteps steps{};
  for (const auto& picture : device().pictures) {
    ReadFrame frame;
    unpackJpeg(picture, roomInRead, &frame, steps);
    sent.push_back(frame.rgb);
  }
  std::size_t first = 0;  // the library may leave out what came while it opened the camera
  for (std::size_t i = 0; i < 5; ++i) {
    ReadFrame frame;
    ASSERT_EQ(camera.read(frame), HuewrightGot);
    if (i == 0) first = static_cast<std::size_t>(std::ranges::find(sent, frame.rgb) - sent.begin());
    ASSERT_LT(first, sent.size());
    EXPECT_EQ(frame.rgb, sent[(first + i) % sent.size()]) << i;
    EXPECT_EQ(camera.steps().luma, steps.luma);
    EXPECT_GT(camera.steps().luma, 0);
  }
}

TEST_F(Device, ACameraWithoutMotionJpegGivesItsColoursToo) {
  device().only_format = V4L2_PIX_FMT_YUYV;
  device().pictures = {yuyvOf(0)};
  OpenCamera camera;
  ASSERT_TRUE(camera) << camera.reason();
  EXPECT_EQ(camera.facts().compressed, 0);
  ReadFrame frame;
  ASSERT_EQ(camera.read(frame), HuewrightGot);
  EXPECT_LE(furthestFrom(frame.rgb, fixtures::movingPicture(0)), 4);  // the narrow range, and colour of every second pixel
  EXPECT_EQ(camera.steps().luma, 0);
}

TEST_F(Device, SettingsAreHeldAsTheyAreAndGivenBackAtTheEnd) {
  OpenCamera camera;
  ASSERT_TRUE(camera) << camera.reason();
  ReadFrame frame;
  ASSERT_EQ(camera.read(frame), HuewrightGot);
  device().controls[V4L2_CID_EXPOSURE_ABSOLUTE] = 212;  // the automatic went on
  const HuewrightCameraHolds holds = camera.hold();
  EXPECT_EQ(holds.exposure, HuewrightStays);
  EXPECT_EQ(holds.white_balance, HuewrightStays);
  EXPECT_EQ(holds.focus, HuewrightStays);
  EXPECT_EQ(device().controls, (std::map<std::uint32_t, std::int32_t>{{V4L2_CID_EXPOSURE_AUTO, V4L2_EXPOSURE_MANUAL}, {V4L2_CID_EXPOSURE_ABSOLUTE, 212}, {V4L2_CID_AUTO_WHITE_BALANCE, 0},
                                                                      {V4L2_CID_WHITE_BALANCE_TEMPERATURE, 4600}, {V4L2_CID_FOCUS_AUTO, 0}, {V4L2_CID_FOCUS_ABSOLUTE, 30}}));
  EXPECT_EQ(camera.read(frame), HuewrightGot);
  camera.close();
  EXPECT_EQ(device().controls[V4L2_CID_EXPOSURE_AUTO], V4L2_EXPOSURE_APERTURE_PRIORITY);
  EXPECT_EQ(device().controls[V4L2_CID_AUTO_WHITE_BALANCE], 1);
  EXPECT_EQ(device().controls[V4L2_CID_FOCUS_AUTO], 1);
  EXPECT_EQ(device().said.back(), "close");
}

TEST_F(Device, WhatADriverRefusesOrLacksIsTold) {
  device().refused = {V4L2_CID_AUTO_WHITE_BALANCE};
  device().controls.erase(V4L2_CID_FOCUS_AUTO);
  device().controls.erase(V4L2_CID_FOCUS_ABSOLUTE);
  OpenCamera camera;
  ASSERT_TRUE(camera) << camera.reason();
  ReadFrame frame;
  ASSERT_EQ(camera.read(frame), HuewrightGot);
  const HuewrightCameraHolds holds = camera.hold();
  EXPECT_EQ(holds.exposure, HuewrightStays);
  EXPECT_EQ(holds.white_balance, HuewrightRefused);
  EXPECT_EQ(holds.focus, HuewrightNoSuch);
}

TEST_F(Device, PulledOutItIsLostAndPluggedInAgainItCanBeOpenedAgain) {
  OpenCamera camera;
  ASSERT_TRUE(camera) << camera.reason();
  ReadFrame frame;
  ASSERT_EQ(camera.read(frame), HuewrightGot);
  camera.hold();
  testing::internal::CaptureStderr();
  device().there = false;
  const HuewrightRead came = camera.read(frame);
  camera.close();
  const OpenCamera away;
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
  EXPECT_EQ(came, HuewrightLost);
  EXPECT_EQ(device().said.back(), "close");  // else it could not come back under its name
  ASSERT_FALSE(away);
  EXPECT_EQ(away.reason(), "There is no camera \"/dev/video97\". Plug it in, or name another: the first is 0, the second often 2");
  device().there = true;
  OpenCamera again;
  ASSERT_TRUE(again) << again.reason();
  EXPECT_EQ(again.read(frame), HuewrightGot);
  // It had kept what it was told: now it may settle anew.
  EXPECT_EQ(device().controls[V4L2_CID_EXPOSURE_AUTO], V4L2_EXPOSURE_APERTURE_PRIORITY);
  EXPECT_EQ(device().controls[V4L2_CID_AUTO_WHITE_BALANCE], 1);
  EXPECT_EQ(again.hold().exposure, HuewrightStays);
  again.close();
  EXPECT_EQ(device().controls[V4L2_CID_EXPOSURE_AUTO], V4L2_EXPOSURE_APERTURE_PRIORITY);
}

TEST_F(Device, WithoutPicturesItIsWaitedForNoLongerThanAsked) {
  OpenCamera camera;
  ASSERT_TRUE(camera) << camera.reason();
  ReadFrame frame;
  ASSERT_EQ(camera.read(frame), HuewrightGot);
  device().sends = false;
  for (int i = 0; i < 3 && camera.readAtOnce(frame) == HuewrightGot; ++i) {}  // what was under way
  EXPECT_EQ(camera.readAtOnce(frame), HuewrightWaiting);
  device().sends = true;
  EXPECT_EQ(camera.read(frame), HuewrightGot);
}

TEST_F(Device, APictureThatCannotBeUnpackedIsAFrameWithoutPixels) {
  device().pictures = {std::vector<std::uint8_t>(200, 0xAA)};
  OpenCamera camera;
  ASSERT_TRUE(camera) << camera.reason();
  ReadFrame frame;
  ASSERT_EQ(camera.read(frame), HuewrightGot);
  EXPECT_EQ(frame.width, 0);
  device().pictures = {jpegOf(0)};
  for (int i = 0; i < 3; ++i) ASSERT_EQ(camera.read(frame), HuewrightGot);
  EXPECT_EQ(frame.width, 96);
}

TEST_F(Device, OneThatCannotBeUsedIsToldInOneSentenceAndNothingElse) {
  testing::internal::CaptureStderr();
  device().in_use = true;
  const OpenCamera used;
  device().in_use = false;
  device().permitted = false;
  const OpenCamera forbidden("97");
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
  ASSERT_FALSE(used);
  EXPECT_EQ(used.reason(), "The camera \"/dev/video97\" cannot be opened: it gives no pictures, or another program uses it. Close that, or name another camera");
  ASSERT_FALSE(forbidden);
  EXPECT_EQ(forbidden.reason(), "The camera \"/dev/video97\" may not be used by you. Become a member of the group video, log in again, and try again");
}

}  // namespace
}  // namespace huewright::frames
