// The words of `huewright mat` turned into a request, and what it says when it is done.
#pragma once

#include <string>

#include "cli/arguments.hpp"
#include "session/mat.hpp"

namespace huewright {

/// Reads every value that was given. Touches no file. Errors: BadChoice.
Result<MatRequest> matRequest(const Arguments& arguments);

/// One line for people: what was written, and how to print it.
std::string matText(const MatRequest& request, const MatWritten& written);

}  // namespace huewright
