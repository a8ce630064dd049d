// Advice for machines (docs/advise.md).
#pragma once

#include <string>

#include "session/advise.hpp"

namespace huewright {

/// Two-space indented JSON with a final newline, format 1. What is absent is null; never NaN.
std::string adviseJson(const AdviseReport& report);
std::string groundsJson(const GroundsReport& report);

}  // namespace huewright
