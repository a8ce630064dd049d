#include "session/kept_grey.hpp"

#include <fstream>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sys/stat.h>
#include <unistd.h>

#include "temp_dir.hpp"

namespace huewright {
namespace {

KeptGrey example() { return {{{49.6, 0.12, -1.2}, {0.25, 0.21, 0.2}}, "Maker One", "2024-05-17", "24-patch chart, published values", "grey.jpg", toQuad({10, 20, 30, 40})}; }

TEST(KeptGrey, ComesBackFromItsText) {
  const std::string text = keptGreyText(example());
  const auto back = parseKeptGrey(text);
  ASSERT_TRUE(back) << back.error();
  EXPECT_EQ(keptGreyText(*back), text);
  EXPECT_EQ(back->camera, "Maker One");
  EXPECT_EQ(back->day, "2024-05-17");
  EXPECT_EQ(back->region, example().region);
  const auto json = nlohmann::json::parse(text);
  for (const char* key : {"format", "what", "lab", "lab_sd", "y", "y_sd", "camera", "date", "chart", "photo", "region"}) EXPECT_TRUE(json.contains(key)) << key;
  EXPECT_TRUE(nlohmann::json::parse(keptGreyText({example().colour, "", "", "", "", {}}))["date"].is_null());
}

TEST(KeptGrey, OtherTextIsRefused) {
  const auto with = [](const char* field, const nlohmann::json& value) {
    auto json = nlohmann::json::parse(keptGreyText(example()));
    if (value.is_discarded()) json.erase(field);
    else json[field] = value;
    return json.dump();
  };
  const nlohmann::json gone(nlohmann::json::value_t::discarded);
  for (const std::string& text : {std::string(), std::string("{"), std::string("[1]"), std::string("null"), with("format", 2), with("format", gone), with("what", "a profile"),
                                  with("lab", {49.6, 0.1}), with("lab", {49.6, 0.1, "x"}), with("lab", {149.6, 0.1, 0}), with("lab", {49.6, 80, 0}), with("lab", gone),
                                  with("lab_sd", {0, 0.1, 0.1}), with("lab_sd", {-1, 0.1, 0.1}), with("lab_sd", gone), with("y", 0.5), with("y", gone), with("y", "0.18")})
    EXPECT_FALSE(parseKeptGrey(text)) << text;
  EXPECT_TRUE(parseKeptGrey(with("later", 5)));
  EXPECT_TRUE(parseKeptGrey(with("camera", gone)));
}

TEST(KeptGrey, IsKeptWithItsFoldersReadAndForgotten) {
  const fixtures::TempDir folder;
  const auto path = folder.path() / "a/b/grey.json";
  EXPECT_EQ(readKeptGrey(path).error().code, Code::KeptGreyUnusable);
  EXPECT_FALSE(forgetGrey(path).value());
  ASSERT_TRUE(keepGrey(example(), path));
  EXPECT_EQ(keptGreyText(readKeptGrey(path).value()), keptGreyText(example()));
  KeptGrey other = example();
  other.day = "2025-01-01";
  ASSERT_TRUE(keepGrey(other, path));  // replaced
  EXPECT_EQ(readKeptGrey(path)->day, "2025-01-01");
  EXPECT_TRUE(forgetGrey(path).value());
  EXPECT_FALSE(std::filesystem::exists(path));
}

TEST(KeptGrey, WhereItCannotBeKeptThatIsSaid) {
  const fixtures::TempDir folder;
  std::ofstream(folder.path() / "file") << "x";
  EXPECT_EQ(keepGrey(example(), folder.path() / "file/grey.json").error().code, Code::WriteFailed);
  EXPECT_EQ(readKeptGrey(folder.path()).error().code, Code::KeptGreyUnusable);
  EXPECT_EQ(forgetGrey(folder.path()).error().code, Code::RemoveFailed);
}

TEST(KeptGrey, AFolderThatMayNotBeWrittenToIsSaid) {
  const fixtures::TempDir folder;
  const auto path = folder.path() / "closed/grey.json";
  ASSERT_TRUE(keepGrey(example(), path));
  ASSERT_EQ(::chmod((folder.path() / "closed").c_str(), 0555), 0);
  ASSERT_EQ(::chmod(folder.path().c_str(), 0755), 0);
  const bool root = ::geteuid() == 0;  // the superuser may write anywhere: be somebody else for a moment
  constexpr uid_t kNobody = 65534;
  ASSERT_EQ(root ? ::seteuid(kNobody) : 0, 0);
  const auto kept = keepGrey(example(), path);
  const auto forgotten = forgetGrey(path);
  ASSERT_EQ(root ? ::seteuid(0) : 0, 0);
  ASSERT_FALSE(kept || forgotten);
  EXPECT_EQ(kept.error().code, Code::WriteFailed);
  EXPECT_EQ(forgotten.error().code, Code::RemoveFailed);
  EXPECT_TRUE(std::filesystem::exists(path));
}

TEST(GreyWords, SayOnlyATintThatIsSure) {
  EXPECT_EQ(greyWords({{49.6, 0.1, -1.2}, {0.25, 0.2, 0.2}}), "L* 49.6 ± 0.5, as a share of white 0.181 ± 0.004; it is slightly bluish (b* −1.2 ± 0.4)");
  EXPECT_EQ(greyWords({{49.6, 0.1, -0.2}, {0.25, 0.2, 0.2}}),
            "L* 49.6 ± 0.5, as a share of white 0.181 ± 0.004; no tint of its own can be seen (a* 0.1 ± 0.4, b* −0.2 ± 0.4)");
  EXPECT_NE(greyWords({{50, -1, 1}, {0.2, 0.2, 0.2}}).find("slightly greenish and yellowish (a* −1.0 ± 0.4, b* 1.0 ± 0.4)"), std::string::npos);
  EXPECT_NE(greyWords({{50, 4, 0}, {0.2, 0.2, 0.2}}).find("it is reddish (a* 4.0 ± 0.4)"), std::string::npos);
}

}  // namespace
}  // namespace huewright
