// The words of `huewright pour` turned into a request, and what it says when it is done.
#pragma once

#include <string>

#include "cli/arguments.hpp"
#include "session/pour.hpp"

namespace huewright {

/// Reads every value that was given. Touches no file. Errors: BadMix, BadNumber, BadChoice.
Result<PourRequest> pourRequest(const Arguments& arguments);

/// The order and the amounts as a table, then in sentences how exactly that is and what to take care of.
std::string pourText(const PourRequest& request, const PourReport& report);

}  // namespace huewright
