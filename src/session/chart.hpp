// The colour chart in a photo, and the camera profile that it or a file gives.
#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "base/caution.hpp"
#include "camera/chart_reading.hpp"
#include "camera/profile_fit.hpp"
#include "photo/photo.hpp"
#include "session/session.hpp"

namespace huewright {

/// A sentence as the end of another one: without its full stop.
std::string within(std::string sentence);

/// The published chart, or the user's own. What was noticed in the file is said in `cautions`. Errors: DataMissing, ChartDataUnusable; of the file.
Result<ChartReference> chartReferenceFor(const std::optional<std::filesystem::path>& own, const std::filesystem::path& calib, const Limits& limits,
                                         std::vector<Caution>& cautions);

/// The chart in a photo: found, or where a person marked it. Nothing when none is there and `use` is Auto; a chart that is there but spoilt is then
/// said in `cautions`. In: the photo's preview, of kPreviewSide; none: it is made here. Errors: with Here ChartNotFound, with what is wrong; of
/// Photo::preview.
Result<std::optional<ChartReading>> chartIn(Photo& photo, const std::optional<Preview>& made, ChartUse use, const std::optional<Quad>& marked, const ChartReference& reference,
                                            std::vector<Caution>& cautions);

/// The patches for a fit.
std::vector<FitPatch> fitPatches(const ChartReading& reading, DeviceKind device);

/// What the photo's values are.
DeviceKind deviceKind(const PhotoFacts& facts);

struct PhotoProfile {
  CameraProfile profile;
  std::optional<Quad> chart;   ///< where the chart that gave it lies
  std::optional<LightSlope> course{};  ///< of the light, as that chart shows it
};

/// The profile to judge a photo with: of the chart in it, else the stored one, else what the file itself says. Where the chart shows that the file
/// holds linear values and nobody told its encoding, the photo is opened anew as linear, and that is said; likewise where the stored profile was made
/// of such files.
/// Errors: of chartIn and chartReferenceFor; NoProfile; ProfileFileUnusable, also for another kind of file than the profile was made from.
Result<PhotoProfile> profileFor(Photo& photo, const std::optional<Preview>& made, const JudgeRequest& request, const std::filesystem::path& calib, std::vector<Caution>& cautions);

}  // namespace huewright
