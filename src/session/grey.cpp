#include "session/grey.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <new>

#include "camera/grey_by_chart.hpp"
#include "camera/profile_health.hpp"
#include "judge/photo_cautions.hpp"
#include "judge/samples.hpp"
#include "photo/device.hpp"
#include "session/chart.hpp"

namespace huewright {
namespace {

// Where a patch is no longer fit for a grey: judgement, no source.
constexpr double kDarkest = 0.05;        // luminance factor
constexpr double kClipped = 0.02;        // share of its pixels
constexpr double kMasked = 0.5;          // share; what is left is read without it
constexpr double kTexture = 0.04;        // relative
constexpr double kMostChroma = 5;        // CIELAB
constexpr double kLeastSureL = 2.0, kLeastSureTint = 2.0;  // standard deviations; an assumed neutral is hardly less sure

std::optional<Problem> wrong(const GreyRequest& r) {
  if (r.photo.empty()) return Problem{Code::NoPhoto, {}};
  if (!r.grey) return Problem{Code::NoGrey, {}};
  if (r.chart_use == ChartUse::None) return Problem{Code::BadChoice, "A grey patch is measured by a chart: --chart cannot be none"};
  if (r.out.extension() != ".json") return Problem{Code::BadChoice, "The grey is kept as a JSON file. Give --out a name that ends in .json"};
  return {};
}

/// On a smooth patch a JPEG rounds colour from block to block in steps that look like glare in one channel. A lamp's image lightens a grey; where what was
/// left out is hardly lighter, it belongs to the patch, and the mean is taken again with it.
Result<void> takeBackColourSteps(Photo& photo, Named& grey) {
  constexpr double kWorthIt = 0.02, kNoLamp = 0.02;  // share left out; relative luminance, below the least that counts as glare
  Patch& patch = grey.patch;
  if (patch.masked < kWorthIt || patch.shade_step != 0) return {};
  const Rect box = insidePicture(boundingBox(grey.quad), photo.size());
  const auto rasters = xyzPixels(photo, std::span(&box, 1));
  if (!rasters) return std::unexpected(rasters.error());
  Vec3 sum{};
  double count = 0;
  const std::vector<float>& xyz = rasters->front().xyz;
  for (std::size_t i = 0; 3 * i + 2 < xyz.size(); ++i) {
    const auto width = static_cast<std::size_t>(box.width);
    if (!contains(grey.quad, {box.x + static_cast<double>(i % width) + 0.5, box.y + static_cast<double>(i / width) + 0.5})) continue;
    for (std::size_t k = 0; k < 3; ++k) sum[k] += static_cast<double>(xyz[3 * i + k]);
    ++count;
  }
  const Vec3 kept = toVec(patch.mean), whole = (1 / std::max(count, 1.0)) * sum;
  if (!(std::abs(whole[1] / kept[1] - 1) < kNoLamp * patch.masked)) return {};
  const Vec3 half = 0.5 * (whole - kept);
  patch.of_mean = patch.of_mean + outer(half, half);
  patch.mean = {whole[0], whole[1], whole[2]};
  patch.masked = patch.glare = patch.shadow = 0;
  return {};
}

/// What can be seen before anything is measured.
std::optional<std::string> spoilt(const Named& grey, const Quad& marked, const Quad& chart) {
  constexpr double kFrame = -0.06;  // of each half-extent: the frame is the chart's as well
  if (overlap(marked, inset(chart, kFrame)))
    return "it lies on the chart itself, whose patches are what it would be measured by. Lay your grey patch beside the chart, and mark that";
  const Patch& p = grey.patch;
  if (p.clipped_top > kClipped) return "it is burnt out in the photo. Photograph again with less exposure";
  if (p.clipped_bottom > kClipped) return "it is black in the photo. Photograph again with more exposure, or use a lighter grey";
  if (p.glare > kMasked) return "over half of it looks like glare: it is glossy, a lamp mirrors in it, or the photo is noisy. Turn the lamp, use a matt patch, or give more light";
  if (p.shade_step != 0 || p.masked > kMasked) return "a shadow falls on it, or it is dirty. Clear the light's way, and photograph again";
  if (p.over_edge) return "the region seems to run over its edge. Mark it a little smaller";
  if (p.texture > kTexture) return fmt::format("it is uneven: its brightness changes by {:.0f} % from place to place. Use a plain, matt patch", 100 * p.texture);
  return {};
}

/// What can be seen once it is measured.
std::optional<std::string> unfit(const KnownGrey& grey) {
  const std::string words = "it has " + greyWords(grey) + ", and ";
  const double chroma = std::hypot(grey.lab.a, grey.lab.b);
  if (luminanceOf(grey) < kDarkest) return words + "that is too dark: stray light and noise rule it. Use a grey of 10 to 60 % of white";
  if (luminanceOf(grey) > 1) return words + "that is lighter than white, which no paint is. Lay it flat in the chart's plane, in the same light";
  if (chroma > kMostChroma) return words + "that is not neutral enough for a grey: other lamps would change it otherwise than white. Use a neutral one";
  if (grey.lab_sd[0] > kLeastSureL || std::max(grey.lab_sd[1], grey.lab_sd[2]) > kLeastSureTint)
    return words + "that is too unsure to be of use. Lay it close beside the chart, flat, in even light, and use a raw file if the camera gives one";
  return {};
}

}  // namespace

Result<GreyReport> measureGrey(const GreyRequest& request, const std::filesystem::path& calib) try {
  if (auto problem = wrong(request)) return std::unexpected(*problem);
  GreyReport report;
  const auto reference = chartReferenceFor(request.chart_data, calib, request.limits, report.cautions);
  if (!reference) return std::unexpected(reference.error());
  auto photo = Photo::open(request.photo, request.limits, request.encoding);
  if (!photo) return std::unexpected(photo.error());
  Regions regions;
  regions.greys = {*request.grey};
  const auto scene = arrange(regions, photo->size(), request.limits);
  if (!scene) return std::unexpected(scene.error());

  const auto chart = chartIn(*photo, {}, ChartUse::Here, request.chart, *reference, report.cautions);
  if (!chart) return std::unexpected(chart.error());
  const PhotoFacts& facts = photo->facts();
  const std::vector<FitPatch> patches = fitPatches(**chart, deviceKind(facts));
  const std::vector<std::vector<FitPatch>> photos{patches};
  const auto fit = fitProfile(photos, {deviceKind(facts), facts.camera});
  if (!fit) return fail(Code::NoProfile, within(fit.error()));
  auto samples = samplePhoto(*photo, *scene);
  if (!samples) return std::unexpected(samples.error());
  if (const auto taken = takeBackColourSteps(*photo, samples->greys.front()); !taken) return std::unexpected(taken.error());
  const Named& grey = samples->greys.front();
  if (const auto why = spoilt(grey, scene->regions.greys.front(), (*chart)->corners)) return fail(Code::GreyUnfit, *why);
  if (const ProfileHealth health = profileHealth(*fit); health.health == Health::NotUsable) {
    std::string why;
    for (const std::string& sentence : health.sentences) why += (why.empty() ? "" : " ") + sentence;
    return fail(Code::NoProfile, within(why));
  }

  std::vector<ChartGrey> greys;
  for (std::size_t i = 0; i < patches.size(); ++i) greys.push_back({patches[i], (*chart)->samples[i].patch});
  const Mat3 from_xyz = inverse(deviceToXyz(facts));
  const auto measured = greyByChart(grey.patch, from_xyz * toVec(grey.patch.mean), from_xyz, greys, *fit->profile.map, request.chart_data.has_value());
  if (!measured) return fail(Code::NoProfile, measured.error());
  KeptGrey& kept = report.grey;
  kept.colour = {measured->lab, measured->lab_sd};
  if (const auto why = unfit(kept.colour)) return fail(Code::GreyUnfit, *why);
  kept.camera = facts.camera.empty() ? photo->traces().exif.camera : facts.camera;
  kept.day = photo->traces().exif.day;
  kept.chart = !request.chart_data ? "24-patch chart, published values" : reference->title.empty() ? request.chart_data->filename().string() : reference->title;
  kept.photo = request.photo.filename().string();
  kept.region = scene->regions.greys.front();
  cautionRegion(grey, report.cautions);
  report.sentences = {"The grey patch has " + greyWords(kept.colour) + ".", "It is fit for use as a grey."};
  if (const auto written = keepGrey(kept, request.out); !written) return std::unexpected(written.error());
  return report;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "this picture");
}

}  // namespace huewright
