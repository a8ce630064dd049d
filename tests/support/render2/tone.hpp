// From linear output to the codes of a finished picture: a curve on luminance that keeps hues, and what phones do besides.
#pragma once

#include <cstdint>
#include <vector>

#include "photo/geometry.hpp"
#include "render/random.hpp"

namespace huewright::render2 {

using render::Random;

enum class Curve {
  Plain,    ///< the sRGB curve alone
  Hermite,  ///< a smooth monotone curve through five places of the sRGB-coded luminance
  Filmic    ///< a quotient of quadratics, with a toe and a long shoulder
};

struct ToneSpec {
  bool linear = false;       ///< 16-bit TIFF, none of what follows
  Curve curve = Curve::Plain;
  double contrast = 0;       ///< 0..1: of the Hermite curve; of the filmic one, how far it goes from plain to film
  double fade = 0;           ///< how much colour the brightest places lose, 0..1
  double saturation = 1;     ///< gain of the distance from grey of the same luminance
  double warm_boost = 0, cool_boost = 0, green_boost = 0;  ///< added to it for oranges, for blues and for greens, −0.2..0.3
  double local = 0;          ///< 0..0.5: large patches' luminances drawn together, edges kept
  double sharpening = 0;     ///< 0..1, of luma, unsharp mask
  int quality = 88;          ///< JPEG 75..95
  bool full_chroma = false;  ///< 4:4:4, else 4:2:0
  bool tagged = true;        ///< colour profile embedded
};

ToneSpec randomTone(Random& random);

/// Coded luminance 0..1 of linear luminance 0..1; ascending, 0 to 0 and 1 to 1.
double toneOf(const ToneSpec& tone, double luminance);

/// Each pixel multiplied so that the large patches' luminances differ less: a guided filter of the logarithm, its own guide, with a window of a
/// tenth of the picture's width. In: linear, interleaved. Source: He, Sun and Tang (2013).
std::vector<float> drawnTogether(double strength, Size size, const std::vector<float>& linear);

/// 8-bit sRGB codes, interleaved. In: linear sRGB, interleaved.
std::vector<std::uint8_t> finished(const ToneSpec& tone, Size size, const std::vector<float>& linear);

}  // namespace huewright::render2
