// Mixes held against the wanted colour.
#pragma once

#include <optional>
#include <vector>

#include "mix/distance.hpp"
#include "mix/prediction.hpp"
#include "mix/series.hpp"

namespace huewright {

/// A mix that could be sprayed next, and what to expect of it.
struct MixChoice {
  std::vector<int> parts;          ///< whole parts of each tint
  double coats = 0;
  Lab<D50> lab;                    ///< predicted
  Vec3 u{};                        ///< predicted minus wanted, as a CIEDE2000 vector
  double de00 = 0;
  double low = 0, high = 0;        ///< of the sprayed panel's true distance, 95 %
  double over = 0;                 ///< coats too deep; below zero: not deep enough
  double by_coats = 0;             ///< the part of de00 that coats make up, >= 0
  double score = 0;                ///< what is made small; see Aim::at

  double share() const;            ///< of the first tint
};

/// The share of the first of two tints that comes nearest at some number of coats.
struct BestShare {
  double share = 0, sd = 0;        ///< sd by the delta method, without the film's spread
  double de00 = 0;                 ///< that is left
};

class Aim {
 public:
  /// Keeps a reference to the predictor.
  Aim(const Predictor& predictor, const Lab<D50>& target, const Lab<D50>& ground, double tint_part);

  /// Score: distance, and kOvershoot times how far the sprayed panel is to be expected too deep. What is not known of the tints is no reason
  /// against a mix: a score that minded it stayed at the first panel's mix, so that the fifth panel of unknown tints was under 1 ΔE00 in 28 % on the renderer; so it is in 87 %. Leaves low and high at 0.
  MixChoice at(const std::vector<int>& parts, double coats) const;

  /// Fills in low and high.
  MixChoice withRange(MixChoice choice) const;

  /// The same for shares that are no whole parts; parts stay empty.
  MixChoice ofShares(const std::vector<double>& shares, double coats) const;
  MixChoice withRangeOf(MixChoice choice, const std::vector<double>& shares) const;

  /// Two tints only. In: coats > 0.
  BestShare bestShare(double coats) const;

  /// The prediction for shares that are no whole parts.
  Prediction predict(const std::vector<double>& shares, double coats) const;

  const Predictor& predictor() const { return predictor_; }
  const Lab<D50>& target() const { return target_; }
  const Lab<D50>& ground() const { return ground_; }
  double tintPartUsed() const { return tint_part_; }

 private:
  const Predictor& predictor_;
  Lab<D50> target_, ground_;
  Vec3 ground_rgb_;
  double tint_part_;
};

/// A transparent tint can be deepened, never lightened: a ΔE00 too deep counts as one and a quarter. The quarter is a choice, not measured.
inline constexpr double kOvershoot = 0.25;

/// All ways to share out 1 to max_total whole parts over the tints, in lowest terms, single tints among them; lines_only: one part against n (two tints only).
std::vector<std::vector<int>> wholeParts(std::size_t tints, int max_total, bool lines_only);

/// "1:4", "2:1:5".
std::string partsWords(const std::vector<int>& parts);

}  // namespace huewright
