// The same panel and card seen a second time, in another light or at another angle: what the two verdicts say together.
#pragma once

#include <string>

#include "judge/verdict.hpp"

namespace huewright {

/// How a second view stands to the first.
enum class ViewChange {
  None,     ///< the difference is the same, as far as the photos can tell
  Changed,  ///< it has surely changed
  Parted,   ///< it has surely changed, and one view matches while the other is off
  Unsure,   ///< a change that would matter can neither be shown nor ruled out
};

/// "none", "changed", "parted", "unsure".
std::string_view viewChangeName(ViewChange change);

struct ViewComparison {
  ViewChange change = ViewChange::Unsure;
  Interval by{};          ///< 95 % interval of the change of the difference vector (deltaVector), ΔE00
  double measured = 0;    ///< its measured length
};

/// Compares two verdicts on one panel. The kind of card plays no part: how pigments part in another light is what a second light shows. The
/// two photos' errors count as independent, which only makes the answer more careful. In: both with the same tolerance.
ViewComparison compareViews(const Verdict& first, const Verdict& second, double card_kind_sd);

/// What a second light shows, such as "Panel and card match in one light and part in the other …". `name`: "the panel".
std::string lightsSentence(const ViewComparison& views, const Verdict& first, const std::string& name);

/// What the flop, the panel seen tilted, shows against the face.
std::string flopSentence(const ViewComparison& views, const Verdict& face, const std::string& name);

}  // namespace huewright
