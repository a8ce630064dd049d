#include "judge/views.hpp"

#include <array>
#include <fmt/format.h>

#include "base/text.hpp"

namespace huewright {
namespace {

/// Whether the measured difference, not the whole interval, lies within the tolerance: for words only, once a change is sure.
bool within(const Verdict& v) { return v.de00 <= v.tolerance; }

bool surelyOff(const Verdict& v) { return v.band == Band::Nearly || v.band == Band::NotThere; }

std::string size(const ViewComparison& views) { return fmt::format("ΔE00 {:.1f} ({:.1f}–{:.1f})", views.measured, views.by.low, views.by.high); }

}  // namespace

std::string_view viewChangeName(ViewChange change) {
  constexpr std::array<std::string_view, 4> kNames{"none", "changed", "parted", "unsure"};
  return kNames[static_cast<std::size_t>(change)];
}

ViewComparison compareViews(const Verdict& first, const Verdict& second, double card_kind_sd) {
  ViewComparison c;
  const Vec3 change = second.delta.u - first.delta.u;
  const Mat3 both = first.covariance + second.covariance + (-2 * card_kind_sd * card_kind_sd) * Mat3::identity();
  c.measured = length(change);
  c.by = distanceInterval(change, both);
  if (c.by.low > 0) {
    const bool parted = (within(first) && surelyOff(second)) || (within(second) && surelyOff(first));
    c.change = parted ? ViewChange::Parted : ViewChange::Changed;
  } else {
    c.change = c.by.high <= first.tolerance ? ViewChange::None : ViewChange::Unsure;
  }
  return c;
}

std::string lightsSentence(const ViewComparison& views, const Verdict& first, const std::string& name) {
  switch (views.change) {
    case ViewChange::Parted:
      return fmt::format("{} matches the card in the {} light and parts from it in the {}: the difference changes by {}. The card's pigments are others than "
                         "the panel's, so no ratio of these tints matches in both; choose for the light that the work will be seen in.",
                         capitalised(name), within(first) ? "first" : "second", within(first) ? "second" : "first", size(views));
    case ViewChange::Changed:
      return fmt::format("How {} differs from the card depends on the light: from one to the other it changes by {}. The pigments are not the same; "
                         "choose for the light that the work will be seen in.",
                         name, size(views));
    case ViewChange::None:
      return fmt::format("The two lights agree on {}: the difference changes by at most ΔE00 {:.1f} from one to the other.", name, views.by.high);
    case ViewChange::Unsure: break;
  }
  return fmt::format("Can't say whether {} and the card part from one light to the other: a change of up to ΔE00 {:.1f} would not show in these photos.", name,
                     views.by.high);
}

std::string flopSentence(const ViewComparison& views, const Verdict& face, const std::string& name) {
  switch (views.change) {
    case ViewChange::Parted:
      return within(face) ? fmt::format("{} matches the card on the face and not on the flop: tilted, the difference changes by {}. The flake or its coating lies "
                                        "otherwise than on the card; another ground or other coats may bring the flop nearer, more tint will not.",
                                        capitalised(name), size(views))
                          : fmt::format("{} matches the card on the flop and not on the face: tilted, the difference changes by {}. Mend the face first: it is what "
                                        "is seen straight on.",
                                        capitalised(name), size(views));
    case ViewChange::Changed:
      return fmt::format("On the flop {} differs from the card otherwise than on the face: the change is {}. Judge both before you change the mix.", name, size(views));
    case ViewChange::None:
      return fmt::format("Face and flop agree on {}: tilted, the difference changes by at most ΔE00 {:.1f}.", name, views.by.high);
    case ViewChange::Unsure: break;
  }
  return fmt::format("Can't say whether face and flop of {} differ from the card alike: a change of up to ΔE00 {:.1f} would not show in these photos.", name,
                     views.by.high);
}

}  // namespace huewright
