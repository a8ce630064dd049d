#include "camera/profile_file.hpp"

#include <cmath>
#include <fstream>
#include <functional>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "profile_sim.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

using Json = nlohmann::ordered_json;

const CameraProfile& profile() {
  static const CameraProfile p = [] {
    auto patches = sim::chartPatches(render::Sensor('a', render::illuminant("D65")), 0.6, 0.002);
    for (FitPatch& patch : patches) patch.device = patch.device + Vec3{0.01, 0.01, 0.01};
    CameraProfile made = fitProfile(sim::Photos{patches}, {DeviceKind::CameraRgb, "maker \"model\" é"})->profile;
    made.map->curve = {RampCurve::Before::UndoSrgb, 0.2, 1.1, -0.01, 0.002, 0.01, 0.95};
    return made;
  }();
  return p;
}

std::string changed(const std::function<void(Json&)>& change) {
  Json j = Json::parse(profileText(profile()));
  change(j);
  return j.dump();
}

TEST(ProfileFile, ComesBackBitByBit) {
  const std::string text = profileText(profile());
  const auto back = parseProfile(text);
  ASSERT_TRUE(back) << back.error();
  EXPECT_EQ(back->kind, ProfileKind::File);
  EXPECT_EQ(profileText(*back), text);
  EXPECT_EQ(*back->loo_de00, *profile().loo_de00);
  EXPECT_EQ(back->map->camera, "maker \"model\" é");
  for (const Vec3& d : {Vec3{0.1, 0.2, 0.3}, Vec3{0.5, 0.1, 0.02}}) {
    EXPECT_EQ(back->apply(d), profile().apply(d));
    EXPECT_EQ(back->derivative(d), profile().derivative(d));
    EXPECT_EQ(back->extrapolation(d), profile().extrapolation(d));
    EXPECT_EQ(back->shifts(d), profile().shifts(d));
  }
}

TEST(ProfileFile, ThroughTheDiskToo) {
  const fixtures::TempDir dir;
  const auto path = dir.path() / "camera.json";
  ASSERT_TRUE(writeProfile(profile(), path));
  EXPECT_TRUE(readProfileFile(path));
  EXPECT_FALSE(readProfileFile(dir.path() / "none.json"));
  EXPECT_FALSE(readProfileFile(dir.path()));
  EXPECT_FALSE(writeProfile(profile(), dir.path() / "no" / "folder.json"));
  std::ofstream(path, std::ios::app) << std::string(2 << 20, ' ');
  EXPECT_FALSE(readProfileFile(path));
}

TEST(ProfileFile, EveryFieldMustBeThereOnceAndNoOther) {
  const Json whole = Json::parse(profileText(profile()));
  for (const auto& [field, value] : whole.items()) {
    EXPECT_FALSE(parseProfile(changed([&](Json& j) { j.erase(field); }))) << field;
    EXPECT_FALSE(parseProfile(changed([&](Json& j) { j[field] = nullptr; }))) << field;
    EXPECT_FALSE(parseProfile(changed([&](Json& j) { j[field] = Json::object(); }))) << field;
    std::string twice = whole.dump();
    twice.insert(1, "\"" + field + "\":" + value.dump() + ",");
    const auto refused = parseProfile(twice);
    ASSERT_FALSE(refused) << field;
    EXPECT_NE(refused.error().find("twice"), std::string::npos);
  }
  for (const auto& [field, value] : whole["curve"].items()) EXPECT_FALSE(parseProfile(changed([&](Json& j) { j["curve"].erase(field); }))) << field;
  EXPECT_FALSE(parseProfile(changed([](Json& j) { j["more"] = 1; })));
}

struct DamagedRow {
  const char* what;
  std::function<void(Json&)> change;
  const char* words;
};

TEST(ProfileFile, RefusalsSayWhy) {
  const DamagedRow rows[] = {
      {"newer", [](Json& j) { j["format"] = 2; }, "format is another than 1"},
      {"format 1.0", [](Json& j) { j["format"] = 1.0; }, "format is another than 1"},
      {"other thing", [](Json& j) { j["what"] = "swatches"; }, "something else"},
      {"device", [](Json& j) { j["device"] = "cmyk"; }, "\"device\" holds a word"},
      {"negative balance", [](Json& j) { j["balance"][1] = -1; }, "\"balance\" is out of range"},
      {"negative veil", [](Json& j) { j["veil"][1] = -1e-3; }, "\"veil\" is out of range"},
      {"short row", [](Json& j) { j["terms"][2].erase(0); }, "\"terms\" does not hold 6 numbers"},
      {"short matrix", [](Json& j) { j["matrix"].erase(0); }, "\"matrix\" does not hold 3 rows"},
      {"text for a number", [](Json& j) { j["unsure"][3][1][2] = "0"; }, "\"unsure\" is not a number"},
      {"huge", [](Json& j) { j["terms"][0][0] = 1e300; }, "out of range"},
      {"not a number", [](Json& j) { j["misfit"] = std::nan(""); }, "\"misfit\" is not a number"},
      {"falling curve", [](Json& j) { j["curve"]["bend"] = -9; }, "curve falls"},
      {"range of the curve", [](Json& j) { j["curve"]["high"] = 0.001; }, "curve falls"},
  };
  for (const DamagedRow& r : rows) {
    const auto refused = parseProfile(changed(r.change));
    ASSERT_FALSE(refused) << r.what;
    EXPECT_NE(refused.error().find(r.words), std::string::npos) << r.what << ": " << refused.error();
    EXPECT_TRUE(refused.error().starts_with("The camera profile cannot be used: "));
  }
  for (const char* text : {"", "{", "[]", "null", "1e999", "{\"format\":1}", "\xff\xfe"}) EXPECT_FALSE(parseProfile(text)) << text;
}

// Any damage either is refused or leaves a profile that is whole and finite.
TEST(ProfileFile, DamageIsNeverHalfRead) {
  const std::string text = profileText(profile());
  for (std::size_t end = 0; end + 2 < text.size(); end += 13) EXPECT_FALSE(parseProfile(text.substr(0, end)));
  render::Random random(9);
  int read = 0;
  for (int i = 0; i < 3000; ++i) {
    std::string damaged = text;
    const int hits = 1 + random.below(3);
    for (int k = 0; k < hits; ++k) {
      const auto at = static_cast<std::size_t>(random.below(static_cast<int>(text.size())));
      switch (random.below(3)) {
        case 0: damaged[std::min(at, damaged.size() - 1)] = static_cast<char>(random.below(256)); break;
        case 1: damaged.erase(std::min(at, damaged.size() - 1), 1 + static_cast<std::size_t>(random.below(40))); break;
        default: damaged.insert(std::min(at, damaged.size()), 1, "0123456789eE-+.,[]{}\""[random.below(21)]); break;
      }
    }
    const auto back = parseProfile(damaged);
    if (!back) continue;
    ++read;
    ASSERT_TRUE(back->map);
    const Vec3 d{0.2, 0.3, 0.1};
    EXPECT_TRUE(std::isfinite(length(toVec(back->apply(d)))));
    EXPECT_TRUE(std::isfinite(back->extrapolation(d)));
    EXPECT_TRUE(std::isfinite(trace(back->map->covariance(d))));
    EXPECT_TRUE(parseProfile(profileText(*back)));
  }
  EXPECT_GT(read, 0);  // some change a digit only
}

}  // namespace
}  // namespace huewright
