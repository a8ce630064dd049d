#include "sitting/sitting.hpp"

#include <gtest/gtest.h>

#include "cli/run.hpp"
#include "session/report_json.hpp"
#include "sitting_case.hpp"

namespace huewright {
namespace {

using SittingTest = fixtures::SittingCase;

TEST_F(SittingTest, GivesTheNumbersOfTheCommandLine) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  apply(sitting, act::SetChoices{sprayed(sitting)});
  ASSERT_TRUE(sitting.state().judged) << sitting.state().judge_trouble;
  const Outcome told = run({"judge", (mat_photo).string(), "--mix", "1:5", "--mix", "1:4", "--mix", "1:2", "--coats", "4", "--carrier", "5", "--card-kind", "same", "--json", "--explain"}, false);
  ASSERT_EQ(told.exit, 0) << told.err;
  EXPECT_EQ(toJson(*sitting.state().judged->report, true), told.out);
}

}  // namespace
}  // namespace huewright
