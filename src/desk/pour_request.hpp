// What is to be poured, from the accepted mix or the one advised next and the fields of the pour view.
#pragma once

#include <optional>
#include <string>

#include "desk/view.hpp"

namespace huewright::desk {

/// Nothing while no mix is known. A scale's step counts only with the densities of all that is in the mix. Its `out` is empty: whoever writes the sheet puts the file's name there.
std::optional<PourRequest> pourRequestOf(const PourViewState& cup, const SittingState& state);

/// True when the mix is the accepted one.
bool poursAccepted(const SittingState& state);

/// All that the answer hangs on, in one line: alike for requests that are alike.
std::string pourTrace(const PourRequest& request);

}  // namespace huewright::desk
