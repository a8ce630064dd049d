// `huewright watch`: photos are judged as they come into a folder.
#pragma once

#include <filesystem>
#include <optional>
#include <stop_token>
#include <string>

#include "cli/arguments.hpp"
#include "cli/run.hpp"
#include "cli/watch_words.hpp"
#include "session/session.hpp"
#include "session/watch_folder.hpp"

namespace huewright {

struct WatchRequest : WatchWords {
  std::filesystem::path folder;
  JudgeRequest judge;                          ///< for every photo; its own name is put in
  std::optional<std::filesystem::path> series; ///< begun or extended
};

/// Reads every value that was given. Touches no file. Errors: those of judgeRequest and Session::check, BadChoice, BadNumber.
Result<WatchRequest> watchRequest(const Arguments& arguments, const Standards& standards);

/// "panel-3.jpg: It is there ..." with all that is said of its panels, in one line.
std::string verdictLine(const std::string& name, const JudgeReport& report);

/// The same of a photo that cannot be used: for people, or as one JSON object with "format", "photo" and "problem".
std::string problemLine(const std::filesystem::path& photo, const Problem& problem, bool json);

/// Watches until a stop is asked for, the count is reached, or something is wrong that is no photo's fault. Every line goes out as soon as it is known.
Outcome watch(const WatchRequest& request, const Session& session, const Outlet& outlet, const std::stop_token& stop, const WatchTimes& times = {});

}  // namespace huewright
