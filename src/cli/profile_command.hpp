// The words of `huewright profile` turned into a request, and what it says when it is done.
#pragma once

#include <string>

#include "cli/arguments.hpp"
#include "session/session.hpp"

namespace huewright {

/// Reads every value that was given. Touches no file. Errors: BadRegion, ZeroRegion, BadChoice.
Result<ProfileRequest> profileRequest(const Arguments& arguments);

/// The profile's health in sentences, and where it lies.
std::string profileText(const ProfileRequest& request, const ProfileReport& report);

}  // namespace huewright
