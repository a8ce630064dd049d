#include "session/joining_cautions.hpp"

#include <fmt/format.h>

#include "colour/delta_e.hpp"
#include "mix/series.hpp"

namespace huewright {

std::optional<Caution> noRoomCaution(std::size_t there, std::size_t more) {
  if (there + more <= kMostSeriesPanels) return {};
  return Caution{CautionCode::SeriesFull, fmt::format("{} of at most {}", there, kMostSeriesPanels)};
}

std::optional<Caution> otherCardCaution(const std::optional<Lab<D50>>& wanted, const std::optional<Lab<D50>>& card) {
  constexpr double kOtherCard = 2;
  const double apart = wanted && card ? deltaE2000(*wanted, *card) : 0;
  if (apart <= kOtherCard) return {};
  return Caution{CautionCode::OtherCard, fmt::format("{:.1f}", apart)};
}

}  // namespace huewright
