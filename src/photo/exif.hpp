// What a camera writes beside the picture.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "photo/encoding.hpp"
#include "photo/traces.hpp"

namespace huewright {

struct ExifFacts {
  int orientation = 1;       ///< 1..8
  bool camera_data = false;  ///< make, model or exposure time is there
  std::string software;
  std::optional<NamedColour> colour;  ///< sRGB, or Adobe RGB by the DCF optional-colour rule
  ExifTraces traces;
};

/// Colour space by EXIF ColorSpace and interoperability index: 1 is sRGB; 65535 with "R03" (or 2, as some cameras write) is
/// Adobe RGB; all else says nothing. Source: EXIF 2.32, 4.6.5 and DCF 2.0, 4.
std::optional<NamedColour> colourByExif(int colour_space, const std::string& interoperability);

/// Reads EXIF data. In: the TIFF structure, from its byte-order mark on. Damaged data gives the defaults; no errors.
ExifFacts readExif(std::span<const std::uint8_t> tiff);

}  // namespace huewright
