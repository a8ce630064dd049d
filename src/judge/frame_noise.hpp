// What the frames of a live camera differ by from one to the next, and what of that is left in their average.
#pragma once

#include <cstdint>
#include <deque>
#include <optional>
#include <span>
#include <vector>

#include "judge/reading.hpp"

namespace huewright {

/// The mean colours of one frame's regions, linear XYZ (D50) as the camera renders them, nothing corrected.
struct FrameMeans {
  std::vector<Vec3> colours;   ///< panels in order, then the card if it is in the photo
  std::optional<Vec3> grey;    ///< of all greys together
};

/// Takes them from a frame. In: R, G, B interleaved, 8 bits; how the codes are meant; regions in the frame's own pixels, those of it outside are left out.
FrameMeans frameMeans(std::span<const std::uint8_t> rgb, Size size, const Regions& regions, Encoding encoding);

class FrameNoise {
 public:
  /// In: means of the same regions as those before.
  void add(const FrameMeans& means);
  void clear() { *this = {}; }

  std::size_t frames() const { return lately_.size(); }

  /// How far a frame's colours lie from the mean of the last ones: the largest relative change of a channel, and in standard deviations of that channel.
  /// Nothing before there are four.
  struct Departure {
    double relative = 0, sds = 0;
  };
  std::optional<Departure> departure(const FrameMeans& means) const;

  /// Adds what the frames' scatter leaves in the average of so many of them, as Part::Scatter, and sets every lab_sd anew. The covariance is that of the last 24 frames, of
  /// panels, card and grey together: what changes all alike, as the light does, is taken out by the grey and cancels in the difference. Frames of one moment resemble each other
  /// (cameras smooth over time): with r, what the correlation of neighbours over all channels is more than chance makes it, the variance of a mean is (1 + r) ÷ (1 − r) times as large
  /// (first-order autoregression; von Storch and Zwiers 1999, section 17.1, from memory). With fewer than four frames nothing is added: the pixels' own scatter stands for it.
  /// In: r, when it is known from other means of the same frames.
  void put(Reading& reading, double averaged, std::optional<double> alike = {}) const;

  /// That r, 0..0.8. 0 with fewer than four frames.
  double alike() const;

  /// Standard deviation of one frame's difference of a panel from the card, root sum of the three axes, ΔE00. Nothing with fewer than four frames.
  std::optional<double> ofOneFrame(const Reading& reading, std::size_t panel) const;

 private:
  /// Relative departures of the colours from their mean, the grey's taken off; one entry a frame.
  std::vector<std::vector<Vec3>> departures() const;

  std::deque<FrameMeans> lately_;
};

}  // namespace huewright
