#include "camera/icc_profile.hpp"

#include <lcms2.h>

#include <cmath>
#include <gtest/gtest.h>
#include <memory>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"
#include "photo/icc.hpp"
#include "profile_sim.hpp"

namespace huewright {
namespace {

using Opened = std::unique_ptr<void, decltype([](void* p) { cmsCloseProfile(p); })>;
using Transform = std::unique_ptr<void, decltype([](void* p) { cmsDeleteTransform(p); })>;

Opened openProfile(const std::vector<std::uint8_t>& bytes) { return Opened(cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size()))); }

ColourMap fittedMap(double veil, const RampCurve& curve = {}) {
  auto patches = sim::chartPatches(render::Sensor('a', render::illuminant("D65")), 0.8);
  for (FitPatch& p : patches) p.device = p.device + Vec3{veil, veil, veil};
  ColourMap map = *fitProfile(sim::Photos{patches}, {DeviceKind::CameraRgb})->profile.map;
  map.curve = curve;
  return map;
}

struct IccRow {
  const char* what;
  double veil;
  RampCurve curve;
  IccCodes codes;
};
const IccRow kIccRows[] = {
    {"raw", 0, {}, IccCodes::Linear},
    {"raw under a veil", 0.02, {}, IccCodes::Linear},
    {"sRGB codes", 0, {}, IccCodes::Srgb},
    {"sRGB codes under a veil", 0.02, {}, IccCodes::Srgb},
    {"a styled picture", 0, {RampCurve::Before::Nothing, 0.2, 1.25, -0.05, 0.01, 0.01, 0.95}, IccCodes::Srgb},
    {"linear values read as sRGB", 0, {RampCurve::Before::UndoSrgb}, IccCodes::Srgb},
};

TEST(IccProfile, OtherProgramsGetOurMatrix) {
  for (const IccRow& r : kIccRows) {
    const ColourMap map = fittedMap(r.veil, r.curve);
    const auto bytes = iccProfile(map, r.codes, "a camera");
    ASSERT_TRUE(bytes) << r.what;
    const Opened profile = openProfile(*bytes), lab(cmsCreateLab4Profile(nullptr));
    ASSERT_TRUE(profile) << r.what;
    const Transform transform(cmsCreateTransform(profile.get(), TYPE_RGB_FLT, lab.get(), TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE));
    ASSERT_TRUE(transform) << r.what;
    double worst = 0;
    for (const double red : {0.06, 0.1, 0.2, 0.45, 0.9})
      for (const double green : {0.06, 0.1, 0.2, 0.45, 0.9})
        for (const double blue : {0.06, 0.1, 0.2, 0.45, 0.9}) {
          const Vec3 device{red, green, blue};
          const Xyz<D50> want = map.applyMatrix(device);
          // What no surface can be is not compared: there lcms2's Lab and ours differ in how they go on.
          if (want.X < 0.005 || want.Y < 0.005 || want.Z < 0.005 || want.Y > 1.2) continue;
          float codes[3];
          for (std::size_t c = 0; c < 3; ++c) codes[c] = static_cast<float>(r.codes == IccCodes::Srgb ? srgbFromLinear(device[c]) : device[c]);
          double out[3];
          cmsDoTransform(transform.get(), codes, out, 1);
          worst = std::max(worst, deltaE2000(toLab(want), Lab<D50>{out[0], out[1], out[2]}));
        }
    EXPECT_GT(worst, 0) << r.what;
    EXPECT_LT(worst, 0.1) << r.what;
  }
}

TEST(IccProfile, OurOwnReaderGetsItToo) {
  const ColourMap map = fittedMap(0);
  const auto read = readProfile(*iccProfile(map, IccCodes::Linear, "a camera"), 16);
  ASSERT_TRUE(read);
  EXPECT_EQ(read->name, "a camera");
  EXPECT_TRUE(read->linear);
  ASSERT_TRUE(read->to_xyz);
  for (const Vec3& d : {Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}}) EXPECT_LT(length(*read->to_xyz * d - toVec(map.applyMatrix(d))), 1e-4);
}

std::uint32_t big(const std::vector<std::uint8_t>& b, std::size_t at) {
  return (std::uint32_t{b[at]} << 24) | (std::uint32_t{b[at + 1]} << 16) | (std::uint32_t{b[at + 2]} << 8) | b[at + 3];
}
constexpr std::uint32_t sign(const char (&t)[5]) {
  return (std::uint32_t(t[0]) << 24) | (std::uint32_t(t[1]) << 16) | (std::uint32_t(t[2]) << 8) | std::uint32_t(t[3]);
}

// ICC.1:2022, table 17 (header) and 8.3.2 (tags of a matrix input profile); places in the header from memory.
TEST(IccProfile, HeaderAndTagsAreInOrder) {
  const auto bytes = *iccProfile(fittedMap(0.02), IccCodes::Srgb, "a camera");
  EXPECT_EQ(big(bytes, 0), bytes.size());
  EXPECT_EQ(bytes[8], 4);
  EXPECT_EQ(big(bytes, 12), sign("scnr"));
  EXPECT_EQ(big(bytes, 16), sign("RGB "));
  EXPECT_EQ(big(bytes, 20), sign("XYZ "));
  EXPECT_EQ(big(bytes, 24), 0x07D00001u);  // 2000, January
  EXPECT_EQ(big(bytes, 28), 0x00010000u);
  EXPECT_EQ(big(bytes, 32), 0u);
  EXPECT_EQ(big(bytes, 36), sign("acsp"));
  EXPECT_EQ(big(bytes, 64), 1u);           // relative colorimetric
  EXPECT_EQ(big(bytes, 68), 0x0000F6D6u);  // the PCS white, 0.9642 1 0.8249
  EXPECT_EQ(big(bytes, 72), 0x00010000u);
  EXPECT_EQ(big(bytes, 76), 0x0000D32Du);
  EXPECT_NE(big(bytes, 84) | big(bytes, 88) | big(bytes, 92) | big(bytes, 96), 0u);

  const Opened profile = openProfile(bytes);
  for (const auto tag : {cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag, cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag,
                         cmsSigMediaWhitePointTag, cmsSigChromaticAdaptationTag, cmsSigProfileDescriptionTag, cmsSigCopyrightTag})
    EXPECT_TRUE(cmsIsTag(profile.get(), tag)) << tag;
  const auto* chad = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile.get(), cmsSigChromaticAdaptationTag));
  ASSERT_NE(chad, nullptr);
  EXPECT_EQ(chad[0].X, 1);
  EXPECT_EQ(chad[0].Y, 0);
  EXPECT_EQ(chad[2].Z, 1);
  cmsUInt8Number kept[16], computed[16];
  cmsGetHeaderProfileID(profile.get(), kept);
  ASSERT_TRUE(cmsMD5computeID(profile.get()));
  cmsGetHeaderProfileID(profile.get(), computed);
  EXPECT_TRUE(std::equal(std::begin(kept), std::end(kept), std::begin(computed)));
}

TEST(IccProfile, TheSameMapGivesTheSameBytes) {
  const ColourMap map = fittedMap(0.02);
  EXPECT_EQ(*iccProfile(map, IccCodes::Srgb, "a camera"), *iccProfile(map, IccCodes::Srgb, "a camera"));
}

TEST(IccProfile, WhatDoesNotFitIsRefused) {
  ColourMap map = fittedMap(0);
  map.matrix(0, 0) = 1e6;
  EXPECT_FALSE(iccProfile(map, IccCodes::Linear, "a camera"));
  map = fittedMap(0);
  map.veil[1] = 1;
  EXPECT_FALSE(iccProfile(map, IccCodes::Linear, "a camera"));
}

}  // namespace
}  // namespace huewright
