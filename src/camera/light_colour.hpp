// The colour of the light over a chart, as a raw file's own matrix has it.
#pragma once

#include <expected>
#include <span>
#include <string>

#include "camera/profile.hpp"
#include "colour/cct.hpp"

namespace huewright {

struct LightColour {
  Cct cct;
  double mired_off = 0;  ///< half of the 95 % interval of 10⁶ ÷ kelvin
  double duv_off = 0;    ///< half of that of Duv
};

/// In: a map of camera RGB, whose balance tells the camera's neutral, veil off; `native`: PhotoFacts::native; the chart's published colours.
///
/// The matrix is the camera's for D65. How wrong it is for this light, the chart tells: the mean ΔE00, d, between its colours and what the matrix makes
/// of those that the map's own 3×3 calls so. The half intervals are √(10² + (4.5·d)²) mired and √(0.003² + (0.0025·d)²).
/// Accuracy: the four numbers were set on three measured cameras under 28 lights (CIE A, D, FL1 to 12, LED), of which these intervals hold 82 of 84 in
/// temperature; lamps of three narrow bands are the worst. The constant parts are judgement: copies of a camera differ.
/// Errors: CctProblem; NoChromaticity also for a matrix without an inverse.
std::expected<LightColour, CctProblem> lightColour(const ColourMap& map, const Mat3& native, std::span<const Lab<D50>> chart, const PlanckianLocus& locus);

/// How far a light is from D65 as the camera sees it: natural log of a neutral's red over blue, less the same under D65. From −0.3 for a blue sky to +0.5 to +1.3
/// for tungsten. In: `native`: PhotoFacts::native; camera RGB of a neutral, as in Raster. 0 for a matrix without an inverse, or a neutral without red or blue.
double awayFromD65(const Mat3& native, const Vec3& neutral);

/// "The light was about 4900 K (± 300)", where the larger side of the interval is named, and "greenish" or "pinkish" where Duv lies beyond its own
/// interval and 0.008 (judgement; daylight has 0.003). A whole sentence, for a problem too.
std::string lightSentence(const std::expected<LightColour, CctProblem>& light);

}  // namespace huewright
