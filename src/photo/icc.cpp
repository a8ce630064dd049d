#include "photo/icc.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <lcms2.h>
#include <limits>
#include <utility>

#include "colour/white.hpp"

namespace huewright {
namespace {

struct CloseProfile {
  void operator()(void* profile) const { cmsCloseProfile(profile); }
};
using Profile = std::unique_ptr<void, CloseProfile>;

struct DeleteTransform {
  void operator()(void* transform) const { cmsDeleteTransform(transform); }
};
using Transform = std::unique_ptr<void, DeleteTransform>;

/// Factors that carry what the profile calls white to kWhite<D50>. A white near the ICC's D50 is taken for D50 itself (it
/// differs by rounding only); any other white is the profile's own affair, and only the two D50s are levelled.
Vec3 whiteScale(const Vec3& white) {
  const Vec3 icc_d50{cmsD50_XYZ()->X, cmsD50_XYZ()->Y, cmsD50_XYZ()->Z};
  bool is_d50 = true;
  for (std::size_t i = 0; i < 3; ++i) is_d50 = is_d50 && std::abs(white[i] - icc_d50[i]) < 1e-3;
  const Vec3& from = is_d50 ? white : icc_d50;
  return {kWhite<D50>[0] / from[0], kWhite<D50>[1] / from[1], kWhite<D50>[2] / from[2]};
}

/// A table profile, followed by the colour engine's float pipeline.
class TablePath final : public ColourPath {
 public:
  TablePath(Transform transform, int bits) : transform_(std::move(transform)), most_(static_cast<float>((1 << bits) - 1)) {
    const Vec3 white = xyzOf({1, 1, 1});
    scale_ = whiteScale(white);
  }

  Vec3 xyzOf(std::array<float, 3> rgb) const {
    Vec3 xyz{};
    cmsDoTransform(transform_.get(), rgb.data(), xyz.data(), 1);
    return xyz;
  }

  void convert(const StoredRow& row, int from, int count, float* xyz) const override {
    constexpr int kBlock = 256;
    std::array<float, 3 * kBlock> rgb{};
    std::array<double, 3 * kBlock> out{};
    for (int done = 0; done < count; done += kBlock) {
      const int n = std::min(kBlock, count - done);
      for (int i = 0; i < n; ++i)
        for (int c = 0; c < 3; ++c) {
          const int code = row.sample == Sample::Code8 ? row.code8(from + done + i)[c] : row.code16(from + done + i)[c];
          rgb[static_cast<std::size_t>(3 * i + c)] = static_cast<float>(code) / most_;
        }
      cmsDoTransform(transform_.get(), rgb.data(), out.data(), static_cast<cmsUInt32Number>(n));
      for (std::size_t i = 0; i < std::size_t{3} * static_cast<std::size_t>(n); ++i)
        *xyz++ = static_cast<float>(scale_[i % 3] * out[i]);
    }
  }

 private:
  Transform transform_;
  float most_;
  Vec3 scale_{};
};

/// A wide string's text in UTF-8, without control characters.
std::string utf8(const wchar_t* wide) {
  std::string text;
  for (; *wide != 0; ++wide) {
    const auto c = static_cast<std::uint32_t>(*wide);
    const auto put = [&](std::uint32_t byte) { text.push_back(static_cast<char>(byte)); };
    if (c < 0x20 || (c >= 0x7F && c < 0xA0) || (c >= 0xD800 && c < 0xE000) || c > 0x10FFFF) continue;
    if (c < 0x80) {
      put(c);
    } else if (c < 0x800) {
      put(0xC0 | (c >> 6));
      put(0x80 | (c & 0x3F));
    } else if (c < 0x10000) {
      put(0xE0 | (c >> 12));
      put(0x80 | ((c >> 6) & 0x3F));
      put(0x80 | (c & 0x3F));
    } else {
      put(0xF0 | (c >> 18));
      put(0x80 | ((c >> 12) & 0x3F));
      put(0x80 | ((c >> 6) & 0x3F));
      put(0x80 | (c & 0x3F));
    }
  }
  return text;
}

std::string nameOf(cmsHPROFILE profile) {
  std::array<wchar_t, 128> wide{};
  cmsGetProfileInfo(profile, cmsInfoDescription, "en", "US", wide.data(), wide.size() * sizeof(wchar_t));
  wide.back() = 0;
  const std::string name = utf8(wide.data());
  return name.empty() ? "embedded profile" : name;
}

bool finite(const CurveTable& table) {
  return std::all_of(table->begin(), table->end(), [](float v) { return std::isfinite(v); });
}

/// Curves and colorants, or nothing when they are no use.
std::optional<ProfileColour> readMatrix(cmsHPROFILE profile, int bits) {
  constexpr std::array kCurves{cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag};
  constexpr std::array kColorants{cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag};
  CurveTables curves;
  Mat3 to_xyz;
  for (std::size_t i = 0; i < 3; ++i) {
    const auto* curve = static_cast<const cmsToneCurve*>(cmsReadTag(profile, kCurves[i]));
    const auto* colorant = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile, kColorants[i]));
    if (curve == nullptr || colorant == nullptr) return std::nullopt;
    // Many profiles share one curve: its table is made once.
    const bool same = i > 0 && curve == cmsReadTag(profile, kCurves[i - 1]);
    curves[i] = same ? curves[i - 1] : tabulate([&](double code) {
      return static_cast<double>(cmsEvalToneCurveFloat(curve, static_cast<float>(code)));
    }, bits);
    if (!finite(curves[i]) || !(curves[i]->back() > curves[i]->front())) return std::nullopt;
    to_xyz(0, i) = colorant->X;
    to_xyz(1, i) = colorant->Y;
    to_xyz(2, i) = colorant->Z;
  }
  const double volume = determinant(to_xyz);
  if (!std::isfinite(volume) || std::abs(volume) < 1e-6) return std::nullopt;
  const Vec3 scale = whiteScale(to_xyz * Vec3{1, 1, 1});
  to_xyz = Mat3::diagonal(scale) * to_xyz;

  ProfileColour colour;
  colour.linear = isLinear(curves);
  colour.path = curvesAndMatrix(std::move(curves), to_xyz);
  colour.to_xyz = to_xyz;
  return colour;
}

std::optional<ProfileColour> readTables(cmsHPROFILE profile, int bits) {
  const Profile xyz(cmsCreateXYZProfile());
  if (!xyz) return std::nullopt;
  Transform transform(cmsCreateTransform(profile, TYPE_RGB_FLT, xyz.get(), TYPE_XYZ_DBL, INTENT_RELATIVE_COLORIMETRIC,
                                         cmsFLAGS_NOCACHE | cmsFLAGS_NOOPTIMIZE));
  if (!transform) return std::nullopt;
  auto path = std::make_shared<TablePath>(std::move(transform), bits);
  const Vec3 black = path->xyzOf({0, 0, 0}), white = path->xyzOf({1, 1, 1});
  for (const Vec3& v : {black, white})
    if (!std::all_of(v.begin(), v.end(), [](double c) { return std::isfinite(c); })) return std::nullopt;
  if (!(white[1] > black[1])) return std::nullopt;
  ProfileColour colour;
  colour.path = std::move(path);
  return colour;
}

}  // namespace

std::optional<ProfileColour> readProfile(std::span<const std::uint8_t> icc, int bits) {
  if (icc.empty() || icc.size() > std::numeric_limits<cmsUInt32Number>::max()) return std::nullopt;
  const Profile profile(cmsOpenProfileFromMem(icc.data(), static_cast<cmsUInt32Number>(icc.size())));
  if (!profile || cmsGetColorSpace(profile.get()) != cmsSigRgbData) return std::nullopt;
  const cmsProfileClassSignature kind = cmsGetDeviceClass(profile.get());
  if (kind != cmsSigInputClass && kind != cmsSigDisplayClass && kind != cmsSigColorSpaceClass && kind != cmsSigOutputClass)
    return std::nullopt;
  const cmsColorSpaceSignature pcs = cmsGetPCS(profile.get());
  if (pcs != cmsSigXYZData && pcs != cmsSigLabData) return std::nullopt;

  // The same choice as the engine makes for relative colorimetry: tables go before curves and colorants.
  const bool tables = cmsIsTag(profile.get(), cmsSigAToB1Tag) || cmsIsTag(profile.get(), cmsSigDToB1Tag) ||
                      cmsIsTag(profile.get(), cmsSigAToB0Tag);
  std::optional<ProfileColour> colour = tables ? readTables(profile.get(), bits) : readMatrix(profile.get(), bits);
  if (colour) colour->name = nameOf(profile.get());
  return colour;
}

}  // namespace huewright
