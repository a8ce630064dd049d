// The judge report as JSON, format 1 (docs/json.md).
#pragma once

#include <filesystem>
#include <string>

#include "session/live_judge.hpp"
#include "session/session.hpp"

namespace huewright {

/// Two-space indented JSON with a final newline. Numbers are rounded to 4 decimals; what is absent is null; never NaN.
/// In: explain adds the uncertainty budget.
std::string toJson(const JudgeReport& report, bool explain);

/// The same in one line, with a final newline.
std::string toJsonLine(const JudgeReport& report, bool explain);

/// A live verdict in one line, with a final newline: the report's fields, or "format", "photo" and "problem" where there is none, and "live": what became of the last frame, its
/// seconds, how many frames are averaged, and the noise of one and of their average. In: the camera's name; seconds of the last frame.
std::string liveJson(const std::string& camera, const LiveVerdict& verdict, double seconds, bool explain);

/// Of a photo that cannot be used: {"format": 1, "photo": {"file"}, "problem": {"code", "sentence"}} in one line, with a final newline.
std::string problemJson(const std::filesystem::path& photo, const Problem& problem);

}  // namespace huewright
