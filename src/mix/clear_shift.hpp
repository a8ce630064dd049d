// What the clear does to the colour, learned from panels that were cleared on one half only.
#pragma once

#include <array>
#include <span>

#include "colour/lab.hpp"

namespace huewright {

/// The same film without and with clear.
struct ClearedPair {
  Lab<D50> uncleared, cleared;
};

struct ClearedColour {
  Lab<D50> lab;
  Mat3 covariance;                       ///< of lab: what is not known of the shift, and its scatter
};

/// Per channel of sharpened linear RGB: cleared = gain · uncleared + offset, one offset for all channels: a dry film scatters some light at its surface, which a clear takes away, and
/// a clear throws some light back down. Gains ~ N(1, 0.15), offset ~ N(0, 0.03) before any pair is seen (guesses, wide); then Bayesian linear regression with a relative scatter of kClearScatter.
class ClearShift {
 public:
  explicit ClearShift(std::span<const ClearedPair> pairs);
  std::size_t pairs() const { return pairs_; }
  ClearedColour cleared(const Lab<D50>& uncleared) const;

 private:
  std::size_t pairs_ = 0;
  std::array<double, 4> mean_{};         // gains, offset
  std::array<double, 16> covariance_{};
};

/// Relative standard deviation of one channel from panel to panel about the line, and of one pair's readings. A guess.
inline constexpr double kClearScatter = 0.015;

}  // namespace huewright
