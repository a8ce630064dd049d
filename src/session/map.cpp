#include <algorithm>
#include <cmath>
#include <new>

#include "camera/unevenness.hpp"
#include "camera/upright.hpp"
#include "colour/delta_map.hpp"
#include "judge/unevenness_words.hpp"
#include "paper/map_picture.hpp"
#include "photo/device.hpp"
#include "photo/write.hpp"
#include "session/session.hpp"

namespace huewright {
namespace {

constexpr int kLongest = 700;        // pixels of the map
constexpr double kOutline = 0.02;    // of each half-extent: an outline is never exact
constexpr double kBowWithPaper = 0.004;  // relative: what paper round the panel leaves unknown of the rim's brightness; judgement

std::optional<Problem> wrong(const MapRequest& r) {
  if (r.out.empty()) return Problem{Code::BadChoice, "map needs two names, the photo and the picture to write: huewright map photo.jpg map.png"};
  std::string ending = r.out.extension().string();
  std::ranges::transform(ending, ending.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  if (ending != ".png") return Problem{Code::BadChoice, "The map is written as a PNG file. Give it a name that ends in .png"};
  if (!r.judge.steps.empty() || r.judge.swapped) return Problem{Code::BadChoice, "A map is made of one plain panel in one photo: leave --steps and --swapped out"};
  return {};
}

}  // namespace

Result<MapReport> Session::map(const MapRequest& request, std::stop_token stop) const try {
  if (auto problem = wrong(request)) return std::unexpected(*problem);
  auto judged = judge(request.judge, stop);
  if (!judged) return std::unexpected(judged.error());
  MapReport report{std::move(*judged), {}};
  const Reading& reading = report.judge.reading;
  const std::size_t panel = report.judge.main;
  const Quad quad = inset(report.judge.regions.panels[panel], kOutline);

  auto photo = Photo::open(request.judge.photo, request.judge.limits, request.judge.encoding);
  if (!photo) return std::unexpected(photo.error());
  if (report.judge.photo.linear != photo->facts().linear) {  // the chart in it told
    photo = Photo::open(request.judge.photo, request.judge.limits, Encoding::Linear);
    if (!photo) return std::unexpected(photo.error());
  }
  Rect box = boundingBox(quad);
  box = insidePicture({box.x - 1, box.y - 1, box.width + 2, box.height + 2}, photo->size());
  const auto raster = xyzPixels(*photo, std::span(&box, 1));
  if (!raster) return std::unexpected(raster.error());
  if (stop.stop_requested()) return fail(Code::Stopped);

  MapSheet sheet;
  sheet.size = uprightSize(quad, kLongest);
  Raster upright = rectify(raster->front(), quad, sheet.size);
  sheet.photo = srgbCodes(upright);
  for (std::size_t i = 0; i + 2 < upright.xyz.size(); i += 3) {
    Vec3 xyz{upright.xyz[i], upright.xyz[i + 1], upright.xyz[i + 2]};
    if (reading.map) xyz = toVec(reading.map->apply(reading.device_from_xyz * xyz, reading.gain));
    for (std::size_t k = 0; k < 3; ++k) upright.xyz[i + k] = static_cast<float>(xyz[k] - reading.veil_xyz[k]);
  }
  const double evened = panel < reading.evened.size() ? reading.evened[panel] : 0;
  correct(upright, quad, [&](Point at) { return std::exp(-evened) * reading.light.correction(at); });
  const std::vector<Kept> kept = keptPixels(upright);
  const bool paper = reading.light_from == LightFrom::Paper || reading.light_from == LightFrom::Sheet;
  const Unevenness uneven = unevenness(upright, kept, paper ? kBowWithPaper : kUsualBow);
  report.sentences = {unevennessSentence(uneven)};

  sheet.smoothed = mapSmoothing(sheet.size);
  smooth(upright, kept, sheet.smoothed);
  sheet.de00.resize(upright.clip.size());
  deltaMap(upright.xyz, Mat3::identity(), reading.card.lab, sheet.de00);
  for (std::size_t i = 0; i < kept.size(); ++i)
    sheet.parts.push_back(kept[i] == Kept::Glare    ? MapPart::Glare
                          : kept[i] == Kept::Shadow ? MapPart::Shadow
                          : upright.clip[i] != 0    ? MapPart::Clipped
                                                    : MapPart::Shown);
  std::vector<float> shown;
  for (std::size_t i = 0; i < sheet.parts.size(); ++i)
    if (sheet.parts[i] == MapPart::Shown) shown.push_back(sheet.de00[i]);
  if (!shown.empty()) {
    std::ranges::nth_element(shown, shown.begin() + static_cast<std::ptrdiff_t>(shown.size() / 2));
    report.median_de00 = static_cast<double>(shown[shown.size() / 2]);
  }
  const Verdict& verdict = report.judge.verdicts[panel];
  sheet.title = verdict.sentence;
  sheet.tolerance = verdict.tolerance;
  sheet.panel = reading.panels[panel].lab;
  sheet.card = reading.card.lab;
  sheet.sentences = report.sentences;
  const auto picture = mapPicture(sheet);
  if (!picture) return std::unexpected(picture.error());
  if (const auto written = writePng(request.out, picture->size, picture->rgb); !written) return std::unexpected(written.error());
  return report;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "this picture");
}

}  // namespace huewright
