// The words of `huewright tag` turned into a request, and what it says when it is done.
#pragma once

#include <string>

#include "cli/arguments.hpp"
#include "session/tag.hpp"

namespace huewright {

/// Reads every value that was given. Touches no file. Errors: BadChoice, BadMix, BadNumber.
Result<TagRequest> tagRequest(const Arguments& arguments);

/// One line for people: what was written, and how to print it.
std::string tagText(const TagRequest& request, const TagsWritten& written);

}  // namespace huewright
