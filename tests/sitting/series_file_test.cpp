#include <gtest/gtest.h>

#include <fstream>

#include "cli/run.hpp"
#include "session/advise_json.hpp"
#include "sitting_case.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;

using SeriesFile = fixtures::SittingCase;

TEST_F(SeriesFile, ASeriesIsSavedAndNotOverAnother) {
  const fixtures::TempDir dir;
  Sitting sitting = open();
  apply(sitting, act::SaveSeries{dir.path() / "none"});
  EXPECT_TRUE(sitting.state().notice.bad);
  apply(sitting, act::OpenSeries{samples / "teal-series.json"});
  std::ofstream(dir.path() / "mine.json") << "mine";
  apply(sitting, act::SaveSeries{dir.path() / "mine.json"});
  EXPECT_TRUE(sitting.state().notice.bad);
  EXPECT_EQ(fs::file_size(dir.path() / "mine.json"), 4u);
  apply(sitting, act::SaveSeries{dir.path() / "job"});
  EXPECT_FALSE(sitting.state().notice.bad) << sitting.state().notice.sentence;
  Series series = *sitting.state().plan.series;
  series.panels[0].coats += 0.5;
  apply(sitting, act::SetSeries{series});
  EXPECT_FALSE(sitting.state().plan.series_saved);
  apply(sitting, act::SaveSeries{});
  EXPECT_TRUE(sitting.state().plan.series_saved);
  const Outcome told = run({"advise", (dir.path() / "job.json").string(), "--json"}, false);
  EXPECT_EQ(told.exit, 0) << told.err;
  EXPECT_EQ(adviseJson(*sitting.state().series.advice), told.out);
}

}  // namespace
}  // namespace huewright
