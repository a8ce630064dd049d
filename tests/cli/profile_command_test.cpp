#include "cli/profile_command.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

Result<ProfileRequest> profileRequest(std::vector<std::string> words) {
  words.insert(words.begin(), "profile");
  const auto arguments = parseArguments(words);
  if (!arguments) return std::unexpected(arguments.error());
  return profileRequest(*arguments);
}

TEST(ProfileRequestOf, ReadsEveryValue) {
  const auto r = profileRequest({"a.dng", "b.dng", "--out", "c.json", "--icc", "c.icc", "--chart", "1,1,90,60", "--chart-data", "mine.txt", "--encoding", "linear"});
  ASSERT_TRUE(r);
  ASSERT_EQ(r->photos.size(), 2u);
  EXPECT_EQ(r->photos[1], "b.dng");
  EXPECT_EQ(r->out, "c.json");
  EXPECT_EQ(*r->icc, "c.icc");
  EXPECT_EQ(r->chart_use, ChartUse::Here);
  EXPECT_EQ(*r->chart, toQuad({1, 1, 90, 60}));
  EXPECT_EQ(*r->chart_data, "mine.txt");
  EXPECT_EQ(r->encoding, Encoding::Linear);
}

TEST(ProfileRequestOf, LeavesOutWhatWasNotSaidAndRefusesWhatItCannotRead) {
  const auto r = profileRequest({"a.dng"});
  ASSERT_TRUE(r);
  EXPECT_TRUE(r->out.empty() && !r->icc && !r->chart && !r->chart_data);
  EXPECT_EQ(r->chart_use, ChartUse::Auto);
  EXPECT_EQ(profileRequest({"a.dng", "--chart", "1,2"}).error().code, Code::BadRegion);
  EXPECT_FALSE(profileRequest({"a.dng", "--encoding", "log"}));
}

TEST(ProfileText, SaysTheHealthAndWhereTheProfileIs) {
  ProfileRequest request;
  request.out = "c.json";
  ProfileReport report;
  report.health.sentences = {"The profile is good.", "Keep it."};
  report.written = true;
  EXPECT_EQ(profileText(request, report), "The profile is good.\nKeep it.\nThe profile is in c.json.\n");
  report.written = false;
  EXPECT_NE(profileText(request, report).find("Nothing was written."), std::string::npos);
}

}  // namespace
}  // namespace huewright
