#include "judge/trust.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <set>

#include "support/textured.hpp"

namespace huewright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::StartsWith;

/// A camera's own JPEG, and what a case changes in it.
struct Case {
  PhotoFacts facts;
  Traces traces;
  std::vector<Caution> cautions;

  Case() {
    facts.format = "JPEG";
    facts.size = {4000, 3000};
    facts.tagged = facts.camera_data = true;
    facts.jpeg_quality = 95;
    traces.exif = {true, true, false, Size{4000, 3000}, Size{160, 120}};
  }
  Trust trust() const { return trustOf(facts, traces, cautions); }
};

Case with(const std::function<void(Case&)>& change) {
  Case c;
  change(c);
  return c;
}

std::vector<TrustCode> codes(const Trust& trust) {
  std::vector<TrustCode> all;
  for (const TrustReason& r : trust.reasons) all.push_back(r.code);
  return all;
}

void strip(Case& c) {
  c.facts.camera_data = false;
  c.traces.exif = {};
  c.traces.jfif = true;
}

TEST(Trust, theCamerasOwnFileIsGood) {
  const Trust trust = Case().trust();
  EXPECT_EQ(trust.grade, Grade::Good);
  EXPECT_EQ(trust.sentence, "The photo can be trusted: nothing speaks against its being the camera's own file.");
  EXPECT_TRUE(trust.reasons.empty());
  EXPECT_TRUE(trust.better.empty());
  for (const char* format : {"DNG", "RAW", "HEIF"}) EXPECT_EQ(with([&](Case& c) { c.facts.format = format; }).trust().grade, Grade::Good) << format;
  const auto linear = with([](Case& c) { c.facts.format = "TIFF", c.facts.bits = 16, c.facts.linear = true, c.traces = {}; });
  EXPECT_EQ(linear.trust().grade, Grade::Good);
}

// Each sign alone.
TEST(Trust, eachSignIsSaid) {
  struct Row {
    TrustCode code;
    Grade grade;
    std::function<void(Case&)> change;
  };
  const auto png = [](Case& c) { c.facts.format = "PNG", c.facts.camera_data = false, c.facts.jpeg_quality.reset(), c.traces = {}; };
  for (const Row& row : std::vector<Row>{
           {TrustCode::PhotoUntagged, Grade::Fair, [](Case& c) { c.facts.tagged = false; }},
           {TrustCode::CameraDataMissing, Grade::Fair, strip},
           {TrustCode::CameraDataMissing, Grade::Fair, [](Case& c) { c.facts.format = "DNG", strip(c); }},
           {TrustCode::Converted, Grade::Fair, png},
           {TrustCode::Converted, Grade::Fair, [](Case& c) { c.facts.format = "AVIF", strip(c); }},
           {TrustCode::SavedByProgram, Grade::Fair, [](Case& c) { c.traces.jfif = c.traces.scaled_tables = true, c.traces.exif.thumbnail.reset(); }},
           {TrustCode::SavedByProgram, Grade::Fair, [](Case& c) { c.traces.jfif = c.traces.progressive = true; }},
           {TrustCode::ChangedLater, Grade::Fair, [](Case& c) { c.traces.exif.changed_later = true; }},
           {TrustCode::CompressedTwice, Grade::Fair, [](Case& c) { c.traces.compressed_twice = true; }},
           {TrustCode::OnceJpeg, Grade::Fair, [&](Case& c) { png(c), c.traces.codes.block_grid = true; }},
           {TrustCode::Resized, Grade::Fair, [](Case& c) { c.facts.size = {2000, 1500}; }},
           {TrustCode::Cropped, Grade::Fair, [](Case& c) { c.traces.exif.told_size = c.facts.size = {3000, 3000}, c.traces.exif.thumbnail = Size{320, 240}; }},
           {TrustCode::StronglyCompressed, Grade::Fair, [](Case& c) { c.facts.jpeg_quality = 60; }},
           {TrustCode::Screenshot, Grade::Poor, [&](Case& c) { png(c), c.traces.alpha = true; }},
           {TrustCode::Screenshot, Grade::Poor, [&](Case& c) { png(c), c.facts.size = {1080, 1920}; }},
           {TrustCode::Screenshot, Grade::Poor, [&](Case& c) { png(c), c.traces.codes.bar_above = 90, c.traces.codes.bar_below = 60; }},
           {TrustCode::LevelsStretched, Grade::Poor, [](Case& c) { c.facts.format = "TIFF", c.traces.codes.gaps = true; }},
           {TrustCode::LiveFrame, Grade::Fair, [&](Case& c) { png(c), c.facts.size = {1920, 1080}, c.facts.tagged = false, c.traces.live = c.traces.codes.block_grid = true; }},
           {TrustCode::ToneLocal, Grade::Fair, [](Case& c) { c.cautions = {{CautionCode::ToneLocal, "6"}}; }}}) {
    const Trust trust = with(row.change).trust();
    EXPECT_THAT(codes(trust), ElementsAre(row.code)) << trustCodeName(row.code);
    EXPECT_EQ(trust.grade, row.grade) << trustCodeName(row.code);
    ASSERT_FALSE(trust.reasons.empty());
    EXPECT_THAT(trust.reasons[0].sentence, testing::MatchesRegex("[A-Z].*[^.]\\.")) << trustCodeName(row.code);
    EXPECT_EQ(trust.reasons[0].sentence.find('{'), std::string::npos);
    EXPECT_EQ(trust.better.size(), 1U);
    EXPECT_THAT(trust.sentence, StartsWith(row.grade == Grade::Fair ? "The photo can be trusted fairly: " : "The photo can be trusted poorly: "));
  }
}

TEST(Trust, whatCamerasDoTooIsNoSign) {
  const std::vector<std::function<void(Case&)>> changes{
      [](Case& c) { c.facts.size = {3000, 4000}; },                                     // turned upright
      [](Case& c) { c.facts.chroma_subsampled = true, c.facts.jpeg_quality = 70; },
      [](Case& c) { c.traces.jfif = c.traces.scaled_tables = true; },
      [](Case& c) { c.traces.progressive = true; },
      [](Case& c) { c.facts.size = {6000, 4000}, c.traces.exif.told_size = Size{6000, 4000}; },  // with a thumbnail of 4:3
      [](Case& c) { c.facts.size = {600, 400}, c.traces.exif.told_size.reset(); },      // small, but with the camera's data
      [](Case& c) { c.facts.software = "Firmware 1.0"; },
      [](Case& c) { c.facts.format = "PNG", c.facts.size = {1080, 1920}, c.traces = {}; },  // a screen's size, with the camera's data
      [](Case& c) { c.facts.tagged = false, c.facts.linear = true; },                   // the user said so
      [](Case& c) { c.facts.format = "DNG", c.facts.camera_rgb = true, c.traces.exif.told_size = Size{160, 120}; }};
  for (std::size_t i = 0; i < changes.size(); ++i) {
    const Trust trust = with(changes[i]).trust();
    EXPECT_EQ(trust.grade, Grade::Good) << i << trust.sentence;
  }
}

TEST(Trust, signsOfOneKindCountOnceAndOfSeveralAddUp) {
  EXPECT_EQ(with([](Case& c) { strip(c), c.traces.compressed_twice = true; }).trust().grade, Grade::Fair);
  EXPECT_EQ(with([](Case& c) { strip(c), c.facts.tagged = false; }).trust().grade, Grade::Fair);
  const Trust messenger = with([](Case& c) { strip(c), c.facts.tagged = false, c.facts.size = {960, 720}; }).trust();
  EXPECT_EQ(messenger.grade, Grade::Poor);
  EXPECT_THAT(codes(messenger), ElementsAre(TrustCode::PhotoUntagged, TrustCode::CameraDataMissing, TrustCode::Small));
  EXPECT_EQ(messenger.better.size(), 1U) << "one action for all three";
  EXPECT_EQ(with([](Case& c) { strip(c), c.facts.tagged = false, c.traces.compressed_twice = true; }).trust().grade, Grade::Poor);
}

TEST(Trust, theSentenceNamesTwoReasonsOfTwoKindsAtMost) {
  const Trust trust = with([](Case& c) { strip(c), c.facts.tagged = false, c.traces.compressed_twice = true, c.facts.jpeg_quality = 50; }).trust();
  EXPECT_EQ(trust.sentence,
            "The photo can be trusted poorly: it was compressed twice, so something saved it again, and it does not say what its colours mean.");
}

TEST(Trust, whatTheDotsShowComesLastBecauseACautionSaysIt) {
  const Trust trust = with([](Case& c) { c.facts.tagged = false, c.cautions = {{CautionCode::Glare, "the panel"}, {CautionCode::ToneLocal, "6"}}; }).trust();
  EXPECT_THAT(codes(trust), ElementsAre(TrustCode::PhotoUntagged, TrustCode::ToneLocal));
  EXPECT_EQ(trust.grade, Grade::Poor);
  EXPECT_THAT(trust.better.front(), HasSubstr("original file"));
}

TEST(Trust, longPicturesOfAScreensSizeInOtherFormats) {
  EXPECT_EQ(with([](Case& c) { strip(c), c.facts.size = {1080, 2400}; }).trust().reasons.front().code, TrustCode::Screenshot);
  EXPECT_EQ(with([](Case& c) { strip(c), c.facts.size = {1920, 1080}; }).trust().grade, Grade::Fair) << "a messenger's size for a photo of 16:9";
}

TEST(Trust, everyCodeHasANameOfItsOwn) {
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < kTrustCodeCount; ++i) names.insert(trustCodeName(static_cast<TrustCode>(i)));
  EXPECT_EQ(names.size(), kTrustCodeCount);
  EXPECT_EQ(trustCodeName(TrustCode::ToneLocal), cautionName(CautionCode::ToneLocal));
  EXPECT_EQ(gradeName(Grade::Good), "good");
  EXPECT_EQ(gradeName(Grade::Fair), "fair");
  EXPECT_EQ(gradeName(Grade::Poor), "poor");
}

TEST(Trust, TheLesserOfTwo) {
  Trust good, fair, poor;
  fair.grade = Grade::Fair;
  poor.grade = Grade::Poor;
  EXPECT_EQ(lesser(good, poor).grade, Grade::Poor);
  EXPECT_EQ(lesser(poor, fair).grade, Grade::Poor);
}

TEST(Trust, OnlyWhatBendsTonesWidensThem) {
  Trust trust;
  EXPECT_EQ(renderingFactor(trust), 1.0);
  const auto with_reason = [](TrustCode code) {
    Trust t;
    t.reasons.push_back({code, {}});
    return renderingFactor(t);
  };
  for (const TrustCode code : {TrustCode::CameraDataMissing, TrustCode::CompressedTwice, TrustCode::Resized, TrustCode::StronglyCompressed, TrustCode::ToneLocal})
    EXPECT_EQ(with_reason(code), 1.0) << trustCodeName(code);
  EXPECT_GT(with_reason(TrustCode::PhotoUntagged), 1.0);
  EXPECT_GT(with_reason(TrustCode::LevelsStretched), with_reason(TrustCode::PhotoUntagged));
  EXPECT_GT(with_reason(TrustCode::Screenshot), with_reason(TrustCode::PhotoUntagged));
}

// Files of a made-up photo: as the camera wrote it, and as others passed it on.
TEST(TrustOfFiles, reEncodedOnesAreFound) {
  using namespace fixtures;
  const TempDir folder;
  const Picture taken = textured({1280, 960});
  const Bytes data = exif({.make = "Simulated", .model = "Camera", .colour_space = 1, .interoperability = "R98", .exposure = true, .told = {1280, 960},
                           .thumbnail = jpeg(flat({160, 120}, {90, 90, 90}))});
  const Bytes original = jpeg(taken, {.quality = 80, .exif = data});
  const Picture seen = decodeJpeg(original);
  Picture half = flat({640, 480}, {0, 0, 0}), stretched = seen;
  for (int y = 0; y < 480; ++y)
    for (int x = 0; x < 640; ++x)
      for (int c = 0; c < 3; ++c)
        half.at(x, y)[c] = static_cast<std::uint16_t>((seen.at(2 * x, 2 * y)[c] + seen.at(2 * x + 1, 2 * y)[c] + seen.at(2 * x, 2 * y + 1)[c] +
                                                       seen.at(2 * x + 1, 2 * y + 1)[c] + 2) / 4);
  for (auto& code : stretched.rgb) code = static_cast<std::uint16_t>(std::clamp((code - 20) * 6 / 5, 0, 255));
  struct Row {
    const char* what;
    Bytes bytes;
    Grade grade;
    TrustCode first;
  };
  const std::vector<Row> rows{{"the camera's own", original, Grade::Good, {}},
                              {"saved again with its data", jpeg(seen, {.quality = 92, .exif = data}), Grade::Fair, TrustCode::CompressedTwice},
                              {"stripped", jpeg(taken, {.quality = 80, .profile = srgbProfile()}), Grade::Fair, TrustCode::CameraDataMissing},
                              {"made smaller with its data", jpeg(half, {.quality = 92, .exif = data}), Grade::Fair, TrustCode::Resized},
                              {"a messenger's", jpeg(half, {.quality = 75}), Grade::Poor, TrustCode::PhotoUntagged},
                              {"saved again and stripped", jpeg(seen, {.quality = 92}), Grade::Poor, TrustCode::CompressedTwice},
                              {"turned into a PNG", png(seen, {.srgb = true}), Grade::Fair, TrustCode::OnceJpeg},
                              {"stretched, as a PNG", png(stretched, {.srgb = true}), Grade::Poor, TrustCode::LevelsStretched},
                              {"a screen's picture", png(seen, {.alpha = true, .srgb = true}), Grade::Poor, TrustCode::Screenshot}};
  for (const Row& row : rows) {
    auto photo = Photo::open(folder.put("photo", row.bytes));
    ASSERT_TRUE(photo && photo->preview(600)) << row.what;
    const Trust trust = trustOf(photo->facts(), photo->traces(), {});
    EXPECT_EQ(trust.grade, row.grade) << row.what << ": " << trust.sentence;
    EXPECT_EQ(trust.reasons.empty(), row.grade == Grade::Good) << row.what;
    if (!trust.reasons.empty()) {
      EXPECT_EQ(trust.reasons.front().code, row.first) << row.what << ": " << trust.sentence;
    }
  }
}

}  // namespace
}  // namespace huewright
