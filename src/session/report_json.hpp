// The judge report as JSON, format 1 (docs/json.md).
#pragma once

#include <filesystem>
#include <string>

#include "session/session.hpp"

namespace huewright {

/// Two-space indented JSON with a final newline. Numbers are rounded to 4 decimals; what is absent is null; never NaN.
/// In: explain adds the uncertainty budget.
std::string toJson(const JudgeReport& report, bool explain);

/// The same in one line, with a final newline.
std::string toJsonLine(const JudgeReport& report, bool explain);

/// Of a photo that cannot be used: {"format": 1, "photo": {"file"}, "problem": {"code", "sentence"}} in one line, with a final newline.
std::string problemJson(const std::filesystem::path& photo, const Problem& problem);

}  // namespace huewright
