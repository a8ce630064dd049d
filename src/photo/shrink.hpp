// A small picture of a large one, by averaging areas of linear light.
#pragma once

#include <cstdint>
#include <vector>

#include "photo/source.hpp"

namespace huewright {

class Shrinker {
 public:
  /// In: the longest side wanted, pixels; how many times smaller the rows come than the stored picture (1, 2, 4, 8).
  /// The picture is never enlarged. May throw std::bad_alloc.
  Shrinker(const PhotoSource& source, int max_side, int shrink);

  void take(const StoredRow& row);

  /// True when every pixel of the rows came exactly once.
  bool complete() const { return missing_ == 0; }

  /// The upright preview in 8-bit sRGB; colours outside sRGB are cut off channel by channel.
  Preview finish() const;

  /// The scale that max_side asks for, at most 1.
  static double scaleFor(Size stored, int max_side);

 private:
  /// Where the pixels of one axis go: pixel i adds `here` to target[i] and `next` to target[i] + 1.
  struct Axis {
    std::vector<int> target;
    std::vector<float> here, next, sum;
  };
  /// Sides are rounded to whole preview pixels. So that the rounding falls at the right and lower edges of the upright
  /// picture, an axis that is turned round is laid on from its far end.
  static Axis axis(int stored, int shrink, int targets, double scale, bool turned_round);

  const PhotoSource& source_;
  double scale_;
  Size size_;  // of the preview, before turning
  Axis across_, down_;
  std::int64_t missing_;
  std::vector<float> sum_, line_, xyz_;
};

}  // namespace huewright
