// Frames of one still scene, averaged in linear light; what comes out is read as any photo is.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "photo/photo.hpp"

namespace huewright {

/// PhotoFacts::format of such a photo.
inline constexpr const char* kFrameFormat = "camera frame";

/// How a frame was compressed, as PhotoFacts has it of a JPEG file.
struct FrameRounding {
  std::optional<Vec3> steps{};    ///< none: it was not, or nobody knows
  bool chroma_subsampled = false;
  bool operator==(const FrameRounding&) const = default;
};

class FrameStack {
 public:
  /// In: the size of every frame; how their 8-bit codes are meant (Auto: sRGB). May throw std::bad_alloc.
  explicit FrameStack(Size size, Encoding encoding = Encoding::Auto);

  /// Adds a frame: R, G, B interleaved, row by row, as many as the size asks for. dx, dy: by how many whole pixels this frame lies to the right of and below the
  /// first; beyond its edge the edge's own pixels are taken. Past `most` frames the older ones count by half, again and again, so that a slow drift of the light
  /// is followed. Takes about 6 ms for 1920 × 1080. In: most 1..64.
  void add(std::span<const std::uint8_t> rgb, int dx = 0, int dy = 0, std::size_t most = 64);

  /// How the frames are compressed; the photo's facts tell it.
  void compressed(const FrameRounding& rounding) { rounding_ = rounding; }

  /// How many equally weighted frames have as little noise: Kish's effective number, (Σw)² ÷ Σw².
  double frames() const;

  /// The average as a photo, in the first frame's coordinates: linear values finer than the codes. A channel counts as clipped where its average lies within
  /// three and a half codes of the top or one and a half of the bottom, since noise lets only some of the frames reach an end. The photo shares the pixels: it must be
  /// gone before the next add(). In: at least one frame.
  Photo photo() const;

  Size size() const { return size_; }

 private:
  Size size_;
  Encoding encoding_;
  FrameRounding rounding_{};
  double weight_ = 0, squares_ = 0;  ///< Σw, Σw²
  std::shared_ptr<std::vector<std::uint32_t>> sums_;
};

}  // namespace huewright
