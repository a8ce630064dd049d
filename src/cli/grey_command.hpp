// The words of `huewright grey` turned into a request, and what it says when it is done.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "cli/arguments.hpp"
#include "session/grey.hpp"

namespace huewright {

enum class GreyWish { Measure, Show, Forget };

/// What is wanted. Errors: BadChoice when more than one thing is.
Result<GreyWish> greyWish(const Arguments& arguments);

/// Reads every value that was given; `out` is left empty without --out. Touches no file. Errors: BadRegion, ZeroRegion, BadChoice.
Result<GreyRequest> greyRequest(const Arguments& arguments);

/// What was measured, where it was kept, and the cautions. In: elsewhere: not where judge looks by itself.
std::string greyText(const GreyRequest& request, const GreyReport& report, bool elsewhere);

/// What is kept, where, and what it was made from.
std::string keptGreyText(const KeptGrey& grey, const std::filesystem::path& path);

/// "No grey patch is kept." and how to.
std::string noGreyText();

/// --grey-from: a file; nothing for "none", and `standard`, if there is a file of that name, without the option.
std::optional<std::filesystem::path> greyFrom(const Arguments& arguments, const Result<std::filesystem::path>& standard);

}  // namespace huewright
