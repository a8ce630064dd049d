// From a request to a scene: regions as given or as the mat shows them, strips of a stepped panel, and what another photo tells of the light.
#pragma once

#include <filesystem>
#include <optional>

#include "camera/light_map.hpp"
#include "photo/photo.hpp"
#include "scene/scene.hpp"
#include "session/session.hpp"

namespace huewright {

/// True when no region is given, so that the mat is looked for.
bool usesMat(const JudgeRequest& request);

/// Longest side, pixels, of the preview that mats and charts are looked for on.
inline constexpr int kPreviewSide = 1500;

struct SetUp {
  Scene scene;
  std::optional<Preview> preview{};   ///< where one was needed: a chart may be looked for on it as well
  std::optional<double> sheet_turn{};   ///< degrees; only with a mat
  std::optional<Quad> mat{};   ///< its outline, as in MatScene
  bool split = false;          ///< strips stand in place of a stepped panel already
};

/// Errors: of findMatScene, arrange and Photo::preview; DataMissing.
Result<SetUp> setUp(Photo& photo, const JudgeRequest& request, const std::filesystem::path& calib);

/// Puts a stepped panel's strips in place of the one panel. Errors: StepsNotFound; of Photo::pixels.
Result<void> splitSteps(Photo& photo, std::span<const double> coats, Scene& scene);

/// True when the strips differ the more from their neighbours the more coats they have: the list was probably given the other way round.
bool stepsReversed(const Reading& reading, std::span<const double> coats);

/// The light map from a photo of plain white paper that covers all regions of the scene. In: the photo's size, which the sheet's must equal.
/// Errors: of Photo; SheetUnusable.
Result<LightMap> sheetLight(const std::filesystem::path& sheet, const Scene& scene, Size photo, const Limits& limits, Encoding encoding);

/// The scene of the second shot: panel and card in each other's places. With a mat that is turned by half against the first, all things are still
/// in their windows; on one that is not, they are taken as exchanged. Without a mat each is looked for where the other was.
/// Errors: SwappedUnusable; of findMatScene.
Result<SetUp> swappedScene(Photo& second, const SetUp& first, Size first_size, const JudgeRequest& request, const std::filesystem::path& calib);

}  // namespace huewright
