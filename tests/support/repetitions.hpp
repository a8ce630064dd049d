// How often the long sweeps repeat themselves.
#pragma once

namespace huewright::fixtures {

#ifdef __SANITIZE_ADDRESS__
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif

/// The full number, or the smaller one in a build with sanitizers: they look at what the code does and not at how often its numbers are right, and
/// make it several times slower. A share that takes all repetitions to be told is told in the plain build only: skip it, and say so.
template <class T>
constexpr T repetitions(T full, T sanitized) {
  return kSanitized ? sanitized : full;
}

/// The reason for such a skip.
inline constexpr const char* kTooFewRepetitions = "ran; too few repetitions under the sanitizers to tell its shares";

}  // namespace huewright::fixtures
