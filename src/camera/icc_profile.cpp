#include "camera/icc_profile.hpp"

#include <lcms2.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

constexpr std::size_t kEntries = 4096;
constexpr Vec3 kPcsWhite{0.9642, 1.0, 0.8249};  // ICC.1:2022, 7.2.16
constexpr double kMostColorant = 32767;         // s15Fixed16Number
constexpr std::size_t kDateAt = 24;             // ICC.1:2022, table 17
constexpr std::array<std::uint8_t, 12> kDate{0x07, 0xD0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};

struct Close {
  void operator()(void* p) const { cmsCloseProfile(p); }
};
using Profile = std::unique_ptr<void, Close>;
struct Free {
  void operator()(cmsToneCurve* c) const { cmsFreeToneCurve(c); }
  void operator()(cmsMLU* m) const { cmsMLUfree(m); }
};
using IccCurve = std::unique_ptr<cmsToneCurve, Free>;
using Text = std::unique_ptr<cmsMLU, Free>;

std::vector<std::uint8_t> bytesOf(cmsHPROFILE profile) {
  cmsUInt32Number size = 0;
  if (!cmsSaveProfileToMem(profile, nullptr, &size)) return {};
  std::vector<std::uint8_t> out(size);
  if (!cmsSaveProfileToMem(profile, out.data(), &size)) return {};
  return out;
}

/// One channel: light for a code, 0..1 at code 1, and what light 1 stands for.
struct Channel {
  IccCurve curve;
  double top = 1;
};
Channel channelOf(const ColourMap& map, IccCodes codes, std::size_t c) {
  const auto light = [&](double code) { return map.curve(codes == IccCodes::Srgb ? srgbToLinear(code) : code) - map.veil[c]; };
  Channel out{nullptr, light(1)};
  if (!(out.top > 0)) return out;
  if (map.curve.isStraight() && codes == IccCodes::Linear) {
    // y = a·x + b above zero
    const cmsFloat64Number p[] = {1, 1 / out.top, -map.veil[c] / out.top};
    out.curve.reset(cmsBuildParametricToneCurve(nullptr, 2, p));
  } else if (map.curve.isStraight() && map.veil[c] == 0) {
    const cmsFloat64Number p[] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};  // IEC 61966-2-1
    out.curve.reset(cmsBuildParametricToneCurve(nullptr, 4, p));
  } else {
    std::vector<cmsUInt16Number> table(kEntries);
    for (std::size_t i = 0; i < kEntries; ++i) {
      const double v = light(static_cast<double>(i) / (kEntries - 1)) / out.top;
      table[i] = static_cast<cmsUInt16Number>(std::lround(65535 * std::clamp(v, 0.0, 1.0)));
    }
    out.curve.reset(cmsBuildTabulatedToneCurve16(nullptr, kEntries, table.data()));
  }
  return out;
}

bool writeText(cmsHPROFILE profile, cmsTagSignature tag, const std::string& text) {
  const Text mlu(cmsMLUalloc(nullptr, 1));
  return mlu && cmsMLUsetASCII(mlu.get(), "en", "US", text.c_str()) && cmsWriteTag(profile, tag, mlu.get());
}

bool fill(cmsHPROFILE profile, const std::array<Channel, 3>& channels, const Mat3& colorants, const std::string& description) {
  cmsSetProfileVersion(profile, 4.3);
  cmsSetDeviceClass(profile, cmsSigInputClass);
  cmsSetColorSpace(profile, cmsSigRgbData);
  cmsSetPCS(profile, cmsSigXYZData);
  cmsSetHeaderRenderingIntent(profile, INTENT_RELATIVE_COLORIMETRIC);
  constexpr cmsTagSignature kColorants[] = {cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag};
  constexpr cmsTagSignature kCurves[] = {cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag};
  for (std::size_t c = 0; c < 3; ++c) {
    const cmsCIEXYZ xyz{colorants(0, c), colorants(1, c), colorants(2, c)};
    if (!cmsWriteTag(profile, kColorants[c], &xyz) || !cmsWriteTag(profile, kCurves[c], channels[c].curve.get())) return false;
  }
  const cmsCIEXYZ white{kPcsWhite[0], kPcsWhite[1], kPcsWhite[2]};
  const cmsCIEXYZ identity[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  return cmsWriteTag(profile, cmsSigMediaWhitePointTag, &white) && cmsWriteTag(profile, cmsSigChromaticAdaptationTag, identity) &&
         writeText(profile, cmsSigProfileDescriptionTag, description) && writeText(profile, cmsSigCopyrightTag, "No copyright, use freely");
}

}  // namespace

std::expected<std::vector<std::uint8_t>, std::string> iccProfile(const ColourMap& map, IccCodes codes, const std::string& description) {
  const std::unexpected<std::string> refused("The camera profile does not fit into an ICC profile. Use the profile's own file.");
  std::array<Channel, 3> channels;
  Mat3 colorants;
  for (std::size_t c = 0; c < 3; ++c) {
    channels[c] = channelOf(map, codes, c);
    if (!channels[c].curve) return refused;
    for (std::size_t r = 0; r < 3; ++r) {
      // Ours is relative to the white of D50 by its chromaticity, the PCS to its own rounded one.
      colorants(r, c) = map.matrix(r, c) * map.balance[c] * channels[c].top * kPcsWhite[r] / kWhite<D50>[r];
      if (!(std::abs(colorants(r, c)) < kMostColorant)) return refused;
    }
  }
  const Profile first(cmsCreateProfilePlaceholder(nullptr));
  if (!first || !fill(first.get(), channels, colorants, description)) return refused;
  std::vector<std::uint8_t> bytes = bytesOf(first.get());
  if (bytes.size() < 128) return refused;
  // The library puts today's date there. Opened again, it keeps the date it finds, so that the ID covers it.
  std::ranges::copy(kDate, bytes.begin() + kDateAt);
  const Profile second(cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size())));
  if (!second || !cmsMD5computeID(second.get())) return refused;
  bytes = bytesOf(second.get());
  if (bytes.size() < 128) return refused;
  return bytes;
}

}  // namespace huewright
