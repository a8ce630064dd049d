#include "capture/hold_words.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(HoldWords, EachCase) {
  struct Case {
    CameraHolds holds;
    bool free;
    const char* said;
  };
  using enum Hold;
  for (const Case& c : {
           Case{{Held, Held, Held}, false, "Exposure, white balance and focus are held"},
           Case{{Held, Held, NoSuch}, false, "Exposure and white balance are held"},
           Case{{Held, Refused, Held}, true, "Exposure and focus are held; this camera does not let its white balance be held, so keep the light as it is"},
           Case{{Held, NoSuch, NoSuch}, true, "Exposure is held; this camera does not let its white balance be held, so keep the light as it is"},
           Case{{Held, Held, Refused}, true, "Exposure and white balance are held; this camera does not let its focus be held, so keep the camera where it is"},
           Case{{Refused, Refused, Refused}, true,
                "This camera does not let its exposure, white balance and focus be held, so keep the light as it is and the camera where it is"},
           Case{{Refused, NoSuch, NoSuch}, true, "This camera does not let its exposure and white balance be held, so keep the light as it is"},
       }) {
    EXPECT_EQ(holdWords(c.holds), c.said);
    EXPECT_EQ(somethingIsFree(c.holds), c.free) << c.said;
  }
}

}  // namespace
}  // namespace huewright
