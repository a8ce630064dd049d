#include "session/data_folder.hpp"

#include <algorithm>
#include <cstdlib>
#include <gtest/gtest.h>

#include "temp_dir.hpp"

namespace huewright {
namespace {

TEST(FindCalib, TheEnvironmentComesFirst) {
  const fixtures::TempDir folder;
  setenv("HUEWRIGHT_DATA", folder.path().c_str(), 1);
  EXPECT_EQ(findCalib().value(), folder.path());
  setenv("HUEWRIGHT_DATA", (folder.path() / "none").c_str(), 1);
  EXPECT_EQ(findCalib().error().code, Code::DataMissing);
  unsetenv("HUEWRIGHT_DATA");
}

TEST(FindCalib, ElseItLooksBesideTheProgram) {
  unsetenv("HUEWRIGHT_DATA");
  const auto found = findCalib();
  if (found) EXPECT_EQ(found->filename(), "calib");
  else EXPECT_NE(found.error().detail.find("share/huewright/calib"), std::string::npos);
}

TEST(FindSamples, TheyLieBesideTheDataAndNothingOverridesThat) {
  if (!std::filesystem::exists(HUEWRIGHT_SOURCE_DIR "/sample-images/on-the-mat.jpg")) GTEST_SKIP() << "skipped: no sample photos in this tree";
  const fixtures::TempDir folder;
  setenv("HUEWRIGHT_DATA", folder.path().c_str(), 1);
  const auto found = findSamples();
  unsetenv("HUEWRIGHT_DATA");
  ASSERT_TRUE(found) << sentence(found.error());
  EXPECT_EQ(*found, std::filesystem::path(HUEWRIGHT_BINARY_DIR) / "share/huewright/samples");
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(*found)) names.push_back(entry.path().filename());
  std::ranges::sort(names);
  EXPECT_EQ(names, (std::vector<std::string>{"on-the-mat.jpg", "teal-series.json", "with-chart.jpg"}));
}

}  // namespace
}  // namespace huewright
