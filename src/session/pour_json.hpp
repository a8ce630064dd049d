// A pour for other programs (docs/pour.md).
#pragma once

#include <string>

#include "session/pour.hpp"

namespace huewright {

/// Two-space indented JSON with a final newline, format 1; numbers to four decimals; what is absent is null, never NaN.
std::string toJson(const PourRequest& request, const PourReport& report);

}  // namespace huewright
