// A sitting as text, to be taken up again.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "sitting/plan.hpp"

namespace huewright {

/// What is kept from one start to the next.
struct Memory {
  Plan plan;
  std::vector<std::filesystem::path> recent;
  std::map<std::string, double> window;   ///< what the window wants to keep of itself
  std::string camera{};                   ///< the one that ran last
  std::filesystem::path stills{}, followed{};   ///< where stills go; the folder that was followed last
  bool by_tags = false;                   ///< photos that come go into the series by their tags
};

/// JSON, "format": 1, in a stable order.
std::string memoryText(const Memory& memory);

/// Reads it back; fields that are not known are passed over. Errors: MemoryUnusable for anything else that is not as memoryText writes it.
Result<Memory> readMemory(std::string_view text);

/// The part of it that a verdict follows from; the same text, the same verdict.
std::string judgeKey(const Plan& plan);
/// Likewise of how things are judged, whatever photo they are in.
std::string choicesKey(const Plan& plan);
/// Likewise of advice.
std::string seriesKey(const Plan& plan);
/// Likewise of a camera's profile.
std::string cameraKey(const Plan& plan);

}  // namespace huewright
