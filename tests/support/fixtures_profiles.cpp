// ICC profiles made by the colour engine.
#include <cmath>
#include <lcms2.h>
#include <memory>
#include <stdexcept>

#include "support/fixtures.hpp"

namespace huewright::fixtures {
namespace {

struct Close {
  void operator()(void* profile) const { cmsCloseProfile(profile); }
};
struct DeleteTransform {
  void operator()(void* transform) const { cmsDeleteTransform(transform); }
};
struct FreeCurve {
  void operator()(cmsToneCurve* curve) const { cmsFreeToneCurve(curve); }
};
using Curve = std::unique_ptr<cmsToneCurve, FreeCurve>;

Bytes save(cmsHPROFILE raw, const char* name) {
  const std::unique_ptr<void, Close> profile(raw);
  if (!profile) throw std::runtime_error("no profile");
  cmsMLU* text = cmsMLUalloc(nullptr, 1);
  cmsMLUsetASCII(text, "en", "US", name);
  cmsWriteTag(raw, cmsSigProfileDescriptionTag, text);
  cmsMLUfree(text);
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(raw, nullptr, &size);
  Bytes bytes(size);
  if (size == 0 || !cmsSaveProfileToMem(raw, bytes.data(), &size)) throw std::runtime_error("no profile bytes");
  return bytes;
}

Curve srgbCurve() {
  const cmsFloat64Number p[] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  return Curve(cmsBuildParametricToneCurve(nullptr, 4, p));
}

Bytes matrixProfile(const char* name, cmsCIExyY white, cmsCIExyYTRIPLE primaries, const Curve& curve) {
  cmsToneCurve* curves[] = {curve.get(), curve.get(), curve.get()};
  return save(cmsCreateRGBProfile(&white, &primaries, curves), name);
}

constexpr cmsCIExyY kD65{0.3127, 0.3290, 1};
constexpr cmsCIExyYTRIPLE kSrgb{{0.64, 0.33, 1}, {0.30, 0.60, 1}, {0.15, 0.06, 1}};

}  // namespace

Bytes srgbProfile() { return matrixProfile("sRGB, made for a test", kD65, kSrgb, srgbCurve()); }

Bytes displayP3Profile() {
  return matrixProfile("Display P3, made for a test", kD65, {{0.680, 0.320, 1}, {0.265, 0.690, 1}, {0.150, 0.060, 1}}, srgbCurve());
}

Bytes adobeRgbProfile() {
  return matrixProfile("Adobe RGB, made for a test", kD65, {{0.64, 0.33, 1}, {0.21, 0.71, 1}, {0.15, 0.06, 1}},
                       Curve(cmsBuildGamma(nullptr, 563.0 / 256.0)));
}

Bytes proPhotoProfile() {
  return matrixProfile("ProPhoto, made for a test", {0.345704, 0.358540, 1},
                       {{0.734699, 0.265301, 1}, {0.159597, 0.840403, 1}, {0.036598, 0.000105, 1}}, Curve(cmsBuildGamma(nullptr, 1.8)));
}

Bytes linearSrgbProfile() { return matrixProfile("linear, made for a test", kD65, kSrgb, Curve(cmsBuildGamma(nullptr, 1.0))); }

Bytes swapProfile() {
  return matrixProfile("channels swapped, made for a test", kD65, {kSrgb.Green, kSrgb.Blue, kSrgb.Red}, srgbCurve());
}

std::array<double, 3> tableProfileLab(double red, double green, double blue) {
  const double r = red * red, g = std::pow(green, 1.5), b = blue;
  return {20 * r + 70 * g + 10 * b, 60 * (r - g), 50 * (g - b)};
}

Bytes tableProfile() {
  cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
  cmsSetProfileVersion(profile, 4.3);
  cmsSetDeviceClass(profile, cmsSigInputClass);
  cmsSetColorSpace(profile, cmsSigRgbData);
  cmsSetPCS(profile, cmsSigLabData);
  const Curve square(cmsBuildGamma(nullptr, 2.0)), half(cmsBuildGamma(nullptr, 1.5)), straight(cmsBuildGamma(nullptr, 1.0));
  cmsToneCurve* before[] = {square.get(), half.get(), straight.get()};
  cmsToneCurve* after[] = {straight.get(), straight.get(), straight.get()};
  // The map behind the curves is linear, so that two nodes a side hold it exactly, to 16 bits.
  const auto sampler = [](const cmsUInt16Number in[], cmsUInt16Number out[], void*) -> cmsInt32Number {
    const double r = in[0] / 65535.0, g = in[1] / 65535.0, b = in[2] / 65535.0;
    const auto code = [](double v) { return static_cast<cmsUInt16Number>(std::lround(v)); };
    out[0] = code((20 * r + 70 * g + 10 * b) * 655.35);
    out[1] = code((60 * (r - g) + 128) * 257);
    out[2] = code((50 * (g - b) + 128) * 257);
    return TRUE;
  };
  cmsStage* table = cmsStageAllocCLut16bit(nullptr, 2, 3, 3, nullptr);
  cmsStageSampleCLut16bit(table, sampler, nullptr, 0);
  cmsPipeline* steps = cmsPipelineAlloc(nullptr, 3, 3);
  cmsPipelineInsertStage(steps, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, before));
  cmsPipelineInsertStage(steps, cmsAT_END, table);
  cmsPipelineInsertStage(steps, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, after));
  const bool written = cmsWriteTag(profile, cmsSigAToB0Tag, steps) != FALSE;
  cmsPipelineFree(steps);
  cmsWriteTag(profile, cmsSigMediaWhitePointTag, cmsD50_XYZ());
  Bytes bytes = save(profile, "tables, made for a test");
  if (!written) throw std::runtime_error("no table profile");
  return bytes;
}

std::array<double, 3> engineXyz(const Bytes& bytes, double red, double green, double blue) {
  // Making a transform takes far longer than using it: the last one is kept.
  static Bytes kept_for;
  static std::unique_ptr<void, DeleteTransform> transform;
  if (!transform || kept_for != bytes) {
    const std::unique_ptr<void, Close> profile(cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size())));
    const std::unique_ptr<void, Close> xyz(cmsCreateXYZProfile());
    transform.reset(
        cmsCreateTransform(profile.get(), TYPE_RGB_DBL, xyz.get(), TYPE_XYZ_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE));
    if (!transform) throw std::runtime_error("no reference transform");
    kept_for = bytes;
  }
  const double in[] = {red, green, blue, 1, 1, 1};
  double out[6] = {};
  cmsDoTransform(transform.get(), in, out, 2);
  const double d50[] = {0.3457 / 0.3585, 1.0, (1 - 0.3457 - 0.3585) / 0.3585};
  return {out[0] * d50[0] / out[3], out[1] * d50[1] / out[4], out[2] * d50[2] / out[5]};
}

Bytes brokenProfile() {
  Bytes bytes(400);
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(i * 37 + 11);
  return bytes;
}

Bytes cmykProfile() {
  Bytes bytes = srgbProfile();
  const char space[] = {'C', 'M', 'Y', 'K'};
  for (std::size_t i = 0; i < 4; ++i) bytes[16 + i] = static_cast<std::uint8_t>(space[i]);
  return bytes;
}

}  // namespace huewright::fixtures
