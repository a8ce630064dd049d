// `huewright watch --camera`: a verdict on what a live camera shows, for as long as it runs.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>

#include "cli/arguments.hpp"
#include "cli/run.hpp"
#include "cli/watch_words.hpp"
#include "session/live_watch.hpp"
#include "session/session.hpp"

namespace huewright {

struct WatchCameraRequest : WatchWords {
  JudgeRequest judge;                          ///< its photo is the camera's name
  std::optional<std::filesystem::path> stills; ///< the folder for them
};

/// Reads every value that was given. Opens no camera. Errors: those of judgeRequest and Session::check, BadChoice, BadNumber.
Result<WatchCameraRequest> watchCameraRequest(const Arguments& arguments, const Standards& standards);

/// The line that stands for a verdict: the sentence of each panel and how many frames it rests on, or why there is none.
std::string liveLine(const LiveVerdict& verdict);

/// What a terminal gives and takes while a line is shown on it.
struct LiveTerminal {
  std::size_t columns = 0;                     ///< that a line may take; 0: no terminal, lines follow each other
  std::function<bool()> wants_still{};         ///< whether Enter was pressed since it was asked last; may be empty
};

/// Watches until a stop is asked for, the count is reached, a file ends, or the camera cannot be used. On a terminal one line is written over and over; else a line comes whenever it says
/// something else. Exit: 3 when a file held nothing to judge; 1 with gate unless the last verdict was surely within the tolerance.
Outcome watchCamera(const WatchCameraRequest& request, const Session& session, const Outlet& outlet, const std::stop_token& stop, const LiveTerminal& terminal = {},
                    CameraFeed::Open open = {}, const FeedTimes& times = {});

}  // namespace huewright
