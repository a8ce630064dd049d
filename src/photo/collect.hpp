// Gathers the upright rectangles that were asked for out of stored rows.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "photo/orientation.hpp"
#include "photo/source.hpp"

namespace huewright {

/// Bounds of the stored codes beyond which a channel counts as clipped.
struct ClipBounds {
  int top = 253;    ///< codes from here up are at the top
  int bottom = 1;   ///< codes from here down are at the bottom
};

/// Top: 253/255 of the range and above. Bottom: 1/255 of the range and below; only the code 0 when more than 8 bits are
/// stored in proportion to light, where that much is still a good measurement.
ClipBounds clipBounds(int bits, bool linear);

class Collector {
 public:
  /// The rectangles are upright and lie inside the picture. May throw std::bad_alloc.
  Collector(const PhotoSource& source, std::span<const Rect> upright);

  /// The same rectangles in stored pixels.
  const std::vector<Rect>& stored() const { return stored_; }

  void take(const StoredRow& row);

  /// True when every pixel of every rectangle came exactly once.
  bool complete() const;

  std::vector<Raster> release() { return std::move(rasters_); }

 private:
  void fill(std::size_t which, const StoredRow& row);

  const PhotoSource& source_;
  Turn turn_;
  ClipBounds clip_;
  std::vector<Rect> stored_;
  std::vector<Raster> rasters_;
  std::vector<std::int64_t> missing_;
  std::vector<float> xyz_;
};

}  // namespace huewright
