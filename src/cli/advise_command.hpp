// The words of `huewright advise` and `huewright grounds` turned into requests, and what they say.
#pragma once

#include <string>

#include "cli/arguments.hpp"
#include "session/advise.hpp"

namespace huewright {

/// Reads every value that was given. Touches no file. Errors: BadChoice, BadNumber.
Result<AdviseRequest> adviseRequest(const Arguments& arguments);
Result<GroundsRequest> groundsRequest(const Arguments& arguments);

/// The advice for people. In: blocks: the terminal shows 24-bit colour.
std::string adviseText(const AdviseRequest& request, const AdviseReport& report, bool blocks);
std::string groundsText(const GroundsRequest& request, const GroundsReport& report, bool blocks);

/// The number of coats that "3 coats so far", "1 coat" or "2.5" begins with. Errors: BadNumber.
Result<double> partCoats(const std::string& text);

}  // namespace huewright
