// What a file and its codes show of what happened to the picture since the camera took it. Facts only; what they are worth is said in judge/trust.
#pragma once

#include <optional>
#include <string>

#include "photo/geometry.hpp"

namespace huewright {

/// What EXIF data tells.
struct ExifTraces {
  bool present = false;             ///< there is EXIF data that could be read
  bool exposure = false;            ///< with the exposure time
  bool changed_later = false;       ///< DateTime is more than a minute after DateTimeOriginal
  std::optional<Size> told_size{};  ///< pixels, by PixelXDimension and PixelYDimension, as stored
  std::optional<Size> thumbnail{};  ///< pixels, of the small JPEG in the EXIF data
  std::string camera{};             ///< maker and model, may be empty
  std::string day{};                ///< of DateTimeOriginal, "2024-05-17", by whatever clock the camera goes; empty where there is none
};

/// What the codes of a picture of 8 bits that is stored without loss show.
struct CodeTraces {
  bool gaps = false;       ///< codes are missing between frequent ones, as after levels were stretched or reduced to few
  bool block_grid = false; ///< edges stand 8 pixels apart all over, both ways: it was a JPEG before
  int bar_above = 0, bar_below = 0;  ///< rows of one colour alone at the top and at the bottom; 0 where these rows were not all seen
};

struct Traces {
  ExifTraces exif;
  // JPEG only.
  bool jfif = false;             ///< there is a JFIF header
  bool progressive = false;
  bool scaled_tables = false;   ///< the luminance table is exactly one of the scale that estimateQuality knows
  bool compressed_twice = false; ///< see doubleQuantisation
  bool alpha = false;            ///< PNG only: the file has a channel for transparency
  bool live = false;             ///< frames of a live camera, or a still of one, by its own word (PNG text "Source")
  CodeTraces codes;              ///< PNG and TIFF of 8 bits only, and of the rows that have been decoded
};

}  // namespace huewright
