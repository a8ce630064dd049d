#include "frames/camera_settings.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <map>
#include <vector>

namespace huewright::frames {
namespace {

/// A camera that does what webcams' drivers do: values of a setting can be set only while its automatic is off, and some jump when it is turned off.
class FakeSettings : public CameraSettings {
 public:
  std::map<Setting, double> values{{Setting::AutoExposure, 3}, {Setting::Exposure, 157}, {Setting::AutoWhiteBalance, 1}, {Setting::Temperature, 4600},
                                   {Setting::AutoFocus, 1},    {Setting::Focus, 40}};
  std::map<Setting, double> when_off;        ///< what the value jumps to
  std::map<Setting, double> clamped;         ///< it says yes, and goes there instead
  std::vector<Setting> refused;

  std::optional<double> value(Setting setting) override {
    const auto at = values.find(setting);
    return at == values.end() ? std::optional<double>{} : at->second;
  }
  bool set(Setting setting, double value) override {
    if (!values.contains(setting) || std::ranges::find(refused, setting) != refused.end()) return false;
    if ((setting == Setting::Exposure && values[Setting::AutoExposure] != 1) || (setting == Setting::Temperature && values[Setting::AutoWhiteBalance] != 0)) return false;
    values[setting] = clamped.contains(setting) ? clamped[setting] : value;
    if (setting == Setting::AutoExposure && when_off.contains(Setting::Exposure)) values[Setting::Exposure] = when_off[Setting::Exposure];
    return true;
  }
};

TEST(HoldSettings, EverythingStaysAtWhatTheCameraChose) {
  FakeSettings camera;
  camera.when_off[Setting::Exposure] = 250;
  const HuewrightCameraHolds holds = holdSettings(camera);
  EXPECT_EQ(holds.exposure, HuewrightStays);
  EXPECT_EQ(holds.white_balance, HuewrightStays);
  EXPECT_EQ(holds.focus, HuewrightStays);
  EXPECT_EQ(camera.values, (std::map<Setting, double>{{Setting::AutoExposure, 1}, {Setting::Exposure, 157}, {Setting::AutoWhiteBalance, 0}, {Setting::Temperature, 4600},
                                                      {Setting::AutoFocus, 0}, {Setting::Focus, 40}}));
}

TEST(HoldSettings, TheAutomaticsAreGivenBack) {
  FakeSettings camera;
  camera.values.erase(Setting::AutoFocus);
  const auto before = automaticSettings(camera);
  EXPECT_FALSE(before.focus);
  holdSettings(camera);
  EXPECT_EQ(camera.values[Setting::AutoExposure], 1);
  EXPECT_TRUE(giveBack(camera, before));
  EXPECT_EQ(camera.values[Setting::AutoExposure], 3);
  EXPECT_EQ(camera.values[Setting::AutoWhiteBalance], 1);
  EXPECT_FALSE(camera.values.contains(Setting::AutoFocus));
  holdSettings(camera);
  camera.refused = {Setting::AutoExposure};
  EXPECT_FALSE(giveBack(camera, before));
  EXPECT_EQ(camera.values[Setting::AutoWhiteBalance], 1);  // the others are given back all the same
}

TEST(HoldSettings, WhatTheDriverRefusesOrChangesIsRefused) {
  struct Case {
    const char* what;
    Setting setting;
    bool said_no;
  };
  for (const Case& c : {Case{"automatic refused", Setting::AutoExposure, true}, Case{"value refused", Setting::Exposure, true}, Case{"stays automatic", Setting::AutoExposure, false},
                        Case{"another value", Setting::Exposure, false}}) {
    FakeSettings camera;
    if (c.said_no) camera.refused.push_back(c.setting);
    else camera.clamped[c.setting] = 3;
    const HuewrightCameraHolds holds = holdSettings(camera);
    EXPECT_EQ(holds.exposure, HuewrightRefused) << c.what;
    EXPECT_EQ(holds.white_balance, HuewrightStays) << c.what;
  }
}

TEST(HoldSettings, WhatTheCameraDoesNotHave) {
  FakeSettings fixed_focus;
  fixed_focus.values.erase(Setting::AutoFocus);
  fixed_focus.values.erase(Setting::Focus);
  EXPECT_EQ(holdSettings(fixed_focus).focus, HuewrightNoSuch);
  FakeSettings switch_alone;
  switch_alone.values.erase(Setting::Temperature);
  EXPECT_EQ(holdSettings(switch_alone).white_balance, HuewrightStays);
}

}  // namespace
}  // namespace huewright::frames
