#include "photo/encoding.hpp"

#include <cmath>
#include <utility>

#include "photo/icc.hpp"

namespace huewright {
namespace {

constexpr double kAdobePower = 563.0 / 256.0;  // IEC 61966-2-5, 4.3.1.2

std::shared_ptr<const ColourPath> pathOf(const NamedColour& named, int bits, bool& linear) {
  const double power = named.power;
  const CurveTable table =
      power == 0 ? tabulate(srgbToLinear, bits) : tabulate([power](double code) { return std::pow(code, power); }, bits);
  const CurveTables curves{table, table, table};
  linear = isLinear(curves);
  return curvesAndMatrix(curves, rgbToXyzD50(named.primaries));
}

std::shared_ptr<const ColourPath> straight(const Mat3& to_xyz, int bits) {
  const CurveTable table = tabulate([](double code) { return code; }, bits);
  return curvesAndMatrix({table, table, table}, to_xyz);
}

/// Linear, as the user says.
std::shared_ptr<const ColourPath> asTold(const ColourTag& tag, PhotoFacts& facts) {
  facts.linear = true;
  facts.encoding = "linear (as told)";
  if (const auto profile = tag.profile_broken ? std::nullopt : readProfile(tag.profile, facts.bits);
      profile && profile->to_xyz) {
    facts.encoding += ", primaries of " + profile->name;
    return straight(*profile->to_xyz, facts.bits);
  }
  if (tag.profile.empty() && tag.named) {
    facts.encoding += ", primaries of " + tag.named->name;
    return straight(rgbToXyzD50(tag.named->primaries), facts.bits);
  }
  return straight(rgbToXyzD50(kSrgbPrimaries), facts.bits);
}

}  // namespace

NamedColour srgbByName() { return {"sRGB", kSrgbPrimaries, 0}; }

NamedColour adobeByName() { return {"Adobe RGB", kAdobePrimaries, kAdobePower}; }

Result<std::optional<NamedColour>> namedByCodePoints(int primaries, int transfer, const std::string& shown) {
  constexpr int kUnspecified = 2;
  if (primaries == kUnspecified && transfer == kUnspecified) return std::nullopt;
  NamedColour named = srgbByName();
  switch (primaries) {  // ITU-T H.273, table 2
    case 1:
    case kUnspecified: break;
    case 5: named = {"BT.601 (625 lines)", {{.64, .33}, {.29, .60}, {.15, .06}, {.3127, .3290}}, 0}; break;
    case 6:
    case 7: named = {"BT.601 (525 lines)", {{.630, .340}, {.310, .595}, {.155, .070}, {.3127, .3290}}, 0}; break;
    case 9: named = {"BT.2020", {{.708, .292}, {.170, .797}, {.131, .046}, {.3127, .3290}}, 0}; break;
    case 12: named = {"Display P3", kP3D65Primaries, 0}; break;
    default: return fail(Code::PhotoUnsupported, "\"" + shown + "\" is in a colour space that no camera writes");
  }
  switch (transfer) {  // ITU-T H.273, table 3
    case 1:
    case 6:
    case 14:
    case 15:
    case 13:
    case kUnspecified: break;
    case 4: named.power = 2.2; break;
    case 5: named.power = 2.8; break;
    case 8: named.power = 1.0; break;
    case 16:
    case 18:
      return fail(Code::PhotoUnsupported, "\"" + shown + "\" is a high-dynamic-range picture, whose brightness is not that of the scene");
    default: return fail(Code::PhotoUnsupported, "\"" + shown + "\" is in a colour space that no camera writes");
  }
  if (named.power != 0) named.name += named.power == 1.0 ? ", linear" : ", power curve";
  return named;
}

Result<std::shared_ptr<const ColourPath>> chooseColour(const ColourTag& tag, Encoding encoding, PhotoFacts& facts) {
  facts.tagged = false;
  if (encoding == Encoding::Linear) return asTold(tag, facts);
  if (encoding == Encoding::Srgb) {
    facts.encoding = "sRGB (as told)";
    return pathOf(srgbByName(), facts.bits, facts.linear);
  }
  if (tag.profile_broken || !tag.profile.empty()) {
    auto profile = tag.profile_broken ? std::nullopt : readProfile(tag.profile, facts.bits);
    if (!profile) return fail(Code::ProfileUnusable, facts.path.string());
    facts.tagged = true;
    facts.encoding = profile->name;
    facts.linear = profile->linear;
    return profile->path;
  }
  facts.tagged = tag.named.has_value();
  facts.encoding = tag.named ? tag.named->name : "sRGB (assumed)";
  return pathOf(tag.named.value_or(srgbByName()), facts.bits, facts.linear);
}

}  // namespace huewright
