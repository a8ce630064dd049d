// The verdict on one photo of a watched folder, for whoever watches: a command line or a window.
#pragma once

#include "session/series_file.hpp"
#include "session/watch_folder.hpp"

namespace huewright {

/// Judges the photo as the request says of all of them, and makes the file beside it; its line is left to the caller. series: where its reading is to be kept too, outliving the verdict; nullptr: nowhere.
/// Errors: those of Session::judge.
Result<PhotoVerdict> judgeWatched(const Session& session, JudgeRequest request, const std::filesystem::path& photo, bool explain, SeriesFile* series, const std::stop_token& stop);

}  // namespace huewright
