#include "session/data_folder.hpp"

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

}  // namespace
}  // namespace huewright
