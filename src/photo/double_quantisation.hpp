// Whether numbers that were rounded to one step had been rounded to another one before, by the shape of their histogram alone.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace huewright {

/// How often each size of one coefficient of the cosine transform occurs in a JPEG, and the step it is stored in.
struct CoefficientCounts {
  int step = 1;                       ///< the quantisation table's entry
  std::vector<std::uint32_t> counts;  ///< counts[k]: blocks where the coefficient is +k or −k steps; [0] does not matter
};

struct EarlierStep {
  int step = 1;                ///< the earlier step that explains the histogram best
  double gain = 0;             ///< nats by which it explains it better than no earlier step does; may be negative
  std::uint64_t samples = 0;   ///< coefficients that are not zero and were looked at
};

/// The likelihood of the histogram under "rounded once" against that under "rounded to an earlier step, carried through 8-bit pixels, rounded again".
/// Both take the unrounded coefficient for a scale mixture of Laplace distributions, fitted by expectation maximisation to the sizes 1..40, so that
/// only a periodic pattern tells them apart. Steps 2..48 are tried; those that leave no pattern (equal to the present step, or dividing it) are not.
/// Nothing when fewer than 300 coefficients are not zero, or when no earlier step could be seen. Source: the idea is that of Lukáš and Fridrich,
/// Estimation of primary quantization matrix in double compressed JPEG images (2003); the likelihood is our own.
std::optional<EarlierStep> earlierStep(const CoefficientCounts& coefficient);

/// What the coefficients of a picture say together.
struct DoubleQuantisation {
  double per_sample = 0;   ///< mean gain, nats a coefficient, of all that could be looked at
  int looked_at = 0;       ///< coefficients of the transform with something to say
  int in_favour = 0;       ///< of these, clearly for an earlier step
  bool twice = false;      ///< rounded twice, beyond doubt
};

/// False alarms and detection: see docs/methods.md; the thresholds were set on simulated photos.
DoubleQuantisation doubleQuantisation(const std::vector<CoefficientCounts>& coefficients);

}  // namespace huewright
