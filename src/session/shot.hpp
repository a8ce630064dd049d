// One photo read for a request: opened, its regions found, its profile chosen, its colours measured.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <vector>

#include "judge/reading.hpp"
#include "judge/trust.hpp"
#include "session/chart.hpp"
#include "session/session.hpp"
#include "session/set_up.hpp"

namespace huewright {

/// The profile that a photo is read by, and what finding it brought to light.
struct ShotProfile {
  PhotoProfile profile;
  std::vector<Caution> cautions;
};

struct Shot {
  PhotoFacts facts;
  SetUp set_up;                ///< with strips in place of a stepped panel
  Reading reading;
  Trust trust;
  std::optional<Quad> chart;   ///< where a chart was used
  bool profiled = false;       ///< through a map from a chart or a file
  ShotProfile by;
};

/// Finds out where things lie in a photo.
using Lay = std::function<Result<SetUp>(Photo&)>;

/// In: the file, and the request for everything else. lay: where things lie, if not as the request's regions or the mat say.
/// Errors: of Photo, setUp, splitSteps, sheetLight, readKeptGrey, profileFor and measure; RawUnknown.
Result<Shot> readShot(const std::filesystem::path& file, const JudgeRequest& request, const std::filesystem::path& calib, const Lay& lay = {});

/// The same of a photo that is open already. known: the profile, when it need not be found anew (its `lay` then needs no preview either).
Result<Shot> readShot(Photo photo, const JudgeRequest& request, const std::filesystem::path& calib, const Lay& lay = {}, const ShotProfile* known = nullptr);

/// Two shots with panel and card changed over, averaged. In: the first, made for the same request. Errors: of readShot; SwappedUnusable.
Result<Reading> withSwapped(const Shot& first, const JudgeRequest& request, const std::filesystem::path& calib, JudgeReport& report);

/// All photos of one set-up together; one that does not go with the others is named in the report and left out. Errors: of readShot; RepeatsUnusable.
Result<Reading> withRepeats(const Shot& first, const JudgeRequest& request, const std::filesystem::path& calib, std::stop_token stop, JudgeReport& report);

}  // namespace huewright
