#include "session/panel_map.hpp"

#include <algorithm>
#include <new>

#include "camera/unevenness.hpp"
#include "camera/upright.hpp"
#include "colour/delta_map.hpp"
#include "judge/unevenness_words.hpp"
#include "photo/device.hpp"
#include "session/as_judged.hpp"

namespace huewright {
namespace {

constexpr int kMapLongest = 700;         // pixels of the map
constexpr double kOutline = 0.02;        // of each half-extent: an outline is never exact
constexpr double kBowWithPaper = 0.004;  // relative: what paper round the panel leaves unknown of the rim's brightness; judgement

double medianShown(const PanelMap& map) {
  std::vector<float> shown;
  for (std::size_t i = 0; i < map.parts.size(); ++i)
    if (map.parts[i] == MapPart::Shown) shown.push_back(map.de00[i]);
  if (shown.empty()) return 0;
  std::ranges::nth_element(shown, shown.begin() + static_cast<std::ptrdiff_t>(shown.size() / 2));
  return static_cast<double>(shown[shown.size() / 2]);
}

}  // namespace

MapPart mapPart(Kept kept, std::uint8_t clip) {
  if (kept == Kept::Glare) return MapPart::Glare;
  if (kept == Kept::Shadow) return MapPart::Shadow;
  return clip != 0 ? MapPart::Clipped : MapPart::Shown;
}

Result<PanelMap> panelMap(const JudgeRequest& request, const JudgeReport& report, std::stop_token stop) try {
  const Reading& reading = report.reading;
  PanelMap map;
  map.quad = inset(report.regions.panels[report.main], kOutline);
  auto photo = openAsJudged(request, report);
  if (!photo) return std::unexpected(photo.error());
  Rect box = boundingBox(map.quad);
  box = insidePicture({box.x - 1, box.y - 1, box.width + 2, box.height + 2}, photo->size());
  const auto raster = xyzPixels(*photo, std::span(&box, 1));
  if (!raster) return std::unexpected(raster.error());
  if (stop.stop_requested()) return fail(Code::Stopped);

  map.size = uprightSize(map.quad, kMapLongest);
  Raster upright = rectify(raster->front(), map.quad, map.size);
  map.photo = srgbCodes(upright);
  for (std::size_t i = 0; i + 2 < upright.xyz.size(); i += 3) {
    const Vec3 xyz = withoutVeil(reading, {upright.xyz[i], upright.xyz[i + 1], upright.xyz[i + 2]});
    for (std::size_t k = 0; k < 3; ++k) upright.xyz[i + k] = static_cast<float>(xyz[k]);
  }
  correct(upright, map.quad, [&](Point at) { return toEvenLight(reading, at, report.main); });
  if (stop.stop_requested()) return fail(Code::Stopped);
  const std::vector<Kept> kept = keptPixels(upright);
  const bool paper = reading.light_from == LightFrom::Paper || reading.light_from == LightFrom::Sheet;
  map.sentences = {unevennessSentence(unevenness(upright, kept, paper ? kBowWithPaper : kUsualBow))};

  map.smoothed = mapSmoothing(map.size);
  smooth(upright, kept, map.smoothed);
  map.de00.resize(upright.clip.size());
  deltaMap(upright.xyz, Mat3::identity(), reading.card.lab, map.de00);
  for (std::size_t i = 0; i < kept.size(); ++i) map.parts.push_back(mapPart(kept[i], upright.clip[i]));
  map.median_de00 = medianShown(map);
  return map;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "this picture");
}

}  // namespace huewright
