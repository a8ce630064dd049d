#include "camera/light_colour.hpp"

#include <algorithm>
#include <cmath>

#include "colour/adapt.hpp"
#include "colour/delta_e.hpp"

namespace huewright {
namespace {

// Set on simulated cameras, see the header.
constexpr double kMired = 10, kMiredByDelta = 4.5;
constexpr double kDuv = 0.003, kDuvByDelta = 0.0025;
constexpr double kTinted = 0.008;

double matrixOff(const ColourMap& map, const Mat3& native, std::span<const Lab<D50>> chart) {
  const Mat3 balanced = bradford(kWhite<D65>, kWhite<D50>) * native * Mat3::diagonal(inverse(native) * kWhite<D65>);
  const Mat3 change = balanced * inverse(map.matrix);
  double sum = 0;
  for (const Lab<D50>& published : chart) {
    const Vec3 xyz = change * toVec(toXyz(published));
    sum += deltaE2000(toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]}), published);
  }
  return chart.empty() ? 0 : sum / static_cast<double>(chart.size());
}

std::string whole(double value) { return std::to_string(std::lround(value)); }

}  // namespace

std::expected<LightColour, CctProblem> lightColour(const ColourMap& map, const Mat3& native, std::span<const Lab<D50>> chart, const PlanckianLocus& locus) {
  constexpr double kFlat = 1e-9;
  if (!(std::abs(determinant(native)) > kFlat && std::abs(determinant(map.matrix)) > kFlat)) return std::unexpected(CctProblem::NoChromaticity);
  const auto found = locus.find(toChromaticity(native * map.neutral(1) - native * map.veil));
  if (!found) return std::unexpected(found.error());
  const double off = matrixOff(map, native, chart);
  return LightColour{*found, std::hypot(kMired, kMiredByDelta * off), std::hypot(kDuv, kDuvByDelta * off)};
}

double awayFromD65(const Mat3& native, const Vec3& neutral) {
  if (!(std::abs(determinant(native)) > 1e-9) || !(neutral[0] > 0) || !(neutral[2] > 0)) return 0;
  const Vec3 in_d65 = inverse(native) * kWhite<D65>;
  if (!(in_d65[0] > 0) || !(in_d65[2] > 0)) return 0;
  return std::log(neutral[0] / neutral[2]) - std::log(in_d65[0] / in_d65[2]);
}

std::string lightSentence(const std::expected<LightColour, CctProblem>& light) {
  if (!light) switch (light.error()) {
      case CctProblem::TooWarm: return "The light was redder than 1500 K, as of embers: colours cannot be judged in it.";
      case CctProblem::TooCool: return "The light was bluer than 25000 K, as of a clear sky without sun: colours cannot be judged well in it.";
      case CctProblem::TooFar:
      case CctProblem::NoChromaticity: return "The light is too far from daylight and lamps to have a colour temperature.";
    }
  const double kelvin = light->cct.kelvin, mired = 1e6 / kelvin;
  const bool tinted = std::abs(light->cct.duv) > std::max(kTinted, light->duv_off);
  const std::string tint = !tinted ? "" : light->cct.duv > 0 ? ", and greenish beside a glowing lamp or daylight" : ", and pinkish beside a glowing lamp or daylight";
  constexpr double kMost = 25000;
  if (mired - light->mired_off < 1e6 / kMost) return "The light was bluer than " + whole(std::floor(1e4 / (mired + light->mired_off)) * 100) + " K" + tint + ".";
  const double rounded = std::round(kelvin / 100) * 100, side = 1e6 / (mired - light->mired_off) - rounded;
  return "The light was about " + whole(rounded) + " K (± " + whole(std::ceil(side / 50) * 50) + ")" + tint + ".";
}

}  // namespace huewright
