// The judge report as JSON, format 1 (docs/json.md).
#pragma once

#include <string>

#include "session/session.hpp"

namespace huewright {

/// Two-space indented JSON with a final newline. Numbers are rounded to 4 decimals; what is absent is null; never NaN.
/// In: explain adds the uncertainty budget.
std::string toJson(const JudgeReport& report, bool explain);

}  // namespace huewright
