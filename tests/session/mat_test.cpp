#include "session/mat.hpp"

#include <fstream>
#include <gtest/gtest.h>
#include <iterator>

#include "support/calib.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

using fixtures::kCalib;

std::string contents(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::ptrdiff_t entries(const std::filesystem::path& folder) { return std::distance(std::filesystem::directory_iterator(folder), {}); }

TEST(WriteMat, WritesEverySheet) {
  const fixtures::TempDir folder;
  const auto out = folder.path() / "mat.PDF";
  std::string before;
  for (const char* paper : {"a4", "letter"})
    for (const auto& [small, strip] : {std::pair{false, false}, std::pair{true, false}, std::pair{false, true}}) {
      const auto written = writeMat({out, paper, small, strip}, kCalib);
      ASSERT_TRUE(written) << paper << small << strip;
      EXPECT_EQ(written->paper, std::string(paper) == "a4" ? "A4" : "Letter");
      EXPECT_EQ(written->cut_out, small || strip);
      const std::string bytes = contents(out);  // the one before is replaced
      EXPECT_TRUE(bytes.starts_with("%PDF-") && bytes.ends_with("%%EOF\n")) << paper << small << strip;
      EXPECT_NE(bytes, before);
      before = bytes;
    }
  EXPECT_EQ(entries(folder.path()), 1);
}

TEST(WriteMat, RefusesWrongRequestsBeforeItLooksForAnyFile) {
  const std::filesystem::path nowhere = "/no/such/folder";
  for (const MatRequest& request : {MatRequest{}, MatRequest{nowhere / "photo.jpg"}, MatRequest{nowhere / "pdf"}, MatRequest{nowhere},
                                    MatRequest{nowhere / "x.pdf", "a3"}, MatRequest{nowhere / "x.pdf", ""}, MatRequest{nowhere / "x.pdf", "a4-small"},
                                    MatRequest{nowhere / "x.pdf", "a4", true, true}}) {
    const auto written = writeMat(request, nowhere);
    ASSERT_FALSE(written) << request.out;
    EXPECT_EQ(written.error().code, Code::BadChoice) << request.out;
  }
}

TEST(WriteMat, LeavesNothingBehindWhenItFails) {
  const fixtures::TempDir folder;
  EXPECT_EQ(writeMat({folder.path() / "missing" / "x.pdf"}, kCalib).error().code, Code::WriteFailed);
  std::filesystem::create_directory(folder.path() / "folder.pdf");
  EXPECT_EQ(writeMat({folder.path() / "folder.pdf"}, kCalib).error().code, Code::WriteFailed);
  EXPECT_EQ(writeMat({folder.path() / "x.pdf"}, folder.path()).error().code, Code::DataMissing);
  EXPECT_EQ(entries(folder.path()), 1);
}

}  // namespace
}  // namespace huewright
