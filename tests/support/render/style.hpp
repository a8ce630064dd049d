// From linear output to codes: a picture style as cameras have it.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "photo/geometry.hpp"
#include "render/camera.hpp"

namespace huewright::render {

struct Style {
  bool linear = false;          ///< 16-bit linear TIFF: no curve, no saturation, no sharpening; all that follows is for JPEG
  Space space = Space::Srgb;    ///< of the linear TIFF (JPEG: always sRGB)
  bool tagged = true;           ///< colour profile embedded
  double contrast = 0;          ///< strength of the S-curve on top of the sRGB curve, 0..1
  double saturation = 1;        ///< gain of the colour-difference signals
  double hue_twist_deg = 0;     ///< largest turn of hue; the turn varies with the hue …
  double hue_phase_deg = 0;     ///< … and is largest at this angle in the CbCr plane
  double sharpening = 0;        ///< amount of the unsharp mask on luma, 0..1
  int quality = 90;             ///< JPEG 80..95
  bool full_chroma = false;     ///< 4:4:4, else 4:2:0
  double local_tone = 0;        ///< 0..1: dark parts of the picture are raised and bright ones lowered, as phones do
};

/// Codes proportional to light / plain sRGB: no picture style.
Style linearStyle(Space space = Space::Srgb);
Style plainJpeg();

/// A style as a camera maker might choose it: contrast 0..0.6, saturation 1..1.25, twist within ±4°, sharpening, quality 80..95.
Style randomStyle(Random& random);

/// Local tone mapping: each pixel's light times (mean light around it ÷ mean of the picture)^(−strength / 2). Around: a smooth window
/// with a standard deviation of 1/12 of the picture's width.
std::vector<float> locallyToned(double strength, Size size, std::span<const float> linear);

/// 8-bit codes, interleaved. In: linear output, interleaved.
std::vector<std::uint8_t> encode8(const Style& style, Size size, std::span<const float> linear);

/// 16-bit linear codes, interleaved; `bits` (<= 16): the finest step is 2^-bits.
std::vector<std::uint16_t> encode16(std::span<const float> linear, int bits = 16);

/// What a reader would make of the file, without compressing it: codes, then linear XYZ relative to D50, interleaved. Linear
/// styles: 16-bit codes through their primaries; others: 8-bit codes through the sRGB curve.
std::vector<float> readBack(const Style& style, Size size, std::span<const float> linear);

}  // namespace huewright::render
