// The words of `huewright map` turned into a request, and what it says when it is done.
#pragma once

#include <string>

#include "cli/arguments.hpp"
#include "session/session.hpp"

namespace huewright {

/// Reads every value that was given: two names, the rest as for judge. Touches no file. Errors: those of judgeRequest.
Result<MapRequest> mapRequest(const Arguments& arguments, const Standards& standards);

/// The verdict, how even the panel is, where the map lies, and the cautions.
std::string mapText(const MapRequest& request, const MapReport& report);

}  // namespace huewright
