#include <gtest/gtest.h>

#include "cli/run.hpp"
#include "session/report_json.hpp"
#include "sitting_case.hpp"

namespace huewright {
namespace {

using Judging = fixtures::SittingCase;

TEST_F(Judging, GivesTheNumbersOfTheCommandLineWithMarksByHandAndMorePhotos) {
  Sitting sitting = open();
  const auto quad = [](const char* text) { return *parseQuad(text); };
  apply(sitting, act::OpenPhotos{{samples / "there.jpg", samples / "there.jpg"}, PhotoRole::First});
  EXPECT_FALSE(sitting.state().judged);
  EXPECT_NE(sitting.state().judge_trouble, "");  // there is no mat in it
  apply(sitting, act::SetRegions{sitting.state().plan.photos[0].id, {{quad("149,110,316,400")}, quad("579,126,228,229"), {quad("614,453,156,89")}, {}}});
  ASSERT_TRUE(sitting.state().judged) << sitting.state().judge_trouble;
  const std::string photo = (samples / "there.jpg").string();
  const Outcome told = run({"judge", photo, photo, "--panel", "149,110,316,400", "--card", "579,126,228,229", "--grey", "614,453,156,89", "--json"}, false);
  ASSERT_EQ(told.exit, 0) << told.err;
  EXPECT_EQ(toJson(*sitting.state().judged->report, false), told.out);
  EXPECT_EQ(sitting.state().photos[1].trouble, "");
}

}  // namespace
}  // namespace huewright
