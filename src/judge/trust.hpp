// How far the photo itself can be trusted: whether it is what the camera wrote, or what became of that.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/caution.hpp"
#include "photo/photo.hpp"
#include "photo/traces.hpp"

namespace huewright {

enum class Grade { Good, Fair, Poor };

/// "good", "fair", "poor".
std::string_view gradeName(Grade grade);

/// The order is that of the table in trust.cpp.
enum class TrustCode {
  PhotoUntagged,
  CameraDataMissing,
  Converted,          ///< a PNG, TIFF or AVIF that no camera data came with
  SavedByProgram,
  ChangedLater,
  CompressedTwice,
  OnceJpeg,
  Resized,
  Cropped,
  Small,
  StronglyCompressed,
  Screenshot,
  LevelsStretched,
  ToneLocal,
  LiveFrame,
};
inline constexpr std::size_t kTrustCodeCount = static_cast<std::size_t>(TrustCode::LiveFrame) + 1;

/// Stable lower-case word, such as "compressed-twice".
std::string_view trustCodeName(TrustCode code);

struct TrustReason {
  TrustCode code{};
  std::string sentence;
};

struct Trust {
  Grade grade = Grade::Good;
  std::string sentence;               ///< "The photo can be trusted fairly: …"
  std::vector<TrustReason> reasons;   ///< what speaks against it, the weightiest first; none when the grade is Good
  std::vector<std::string> better;    ///< what to do about it, one sentence each, in the order of the reasons
};

/// Weighs what is known. Each reason has a weight; of reasons that tell of the same thing (saved again; made smaller; changed in its tones; not said
/// what its colours mean) the heaviest counts. A sum of 0 is good, 1 or 2 fair, from 3 poor. The weights are judgement; no source.
/// In: cautions of the reading: of these ToneLocal is a reason.
/// It cannot see a filter that leaves levels, size and camera data alone.
Trust trustOf(const PhotoFacts& facts, const Traces& traces, std::span<const Caution> cautions);

/// The lesser of two, for a reading that stands on two photos.
Trust lesser(Trust a, Trust b);

/// By how much the causes that only rendered pictures have are to be widened: standard deviations times 1.25 where nothing says what the codes mean, 1.6 where
/// tones were changed after the camera had made them, else 1. That a file was saved again or made smaller bends no tone. Of raw and linear files there is nothing
/// rendered to widen. What the camera changed locally has a part of its own. Judgement, no source: nobody knows how far filters bend colours.
double renderingFactor(const Trust& trust);

}  // namespace huewright
