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
#include "session/linear_file.hpp"

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

/// The photo, its chart, and what the chart makes of it.
struct Read {
  Photo photo;
  ChartReading chart;
  std::vector<FitPatch> patches;
  ProfileFit fit;
};

Result<Read> readAs(Encoding encoding, const GreyRequest& request, const ChartReference& reference, std::vector<Caution>& cautions) {
  auto photo = Photo::open(request.photo, request.limits, encoding);
  if (!photo) return std::unexpected(photo.error());
  auto chart = chartIn(*photo, {}, ChartUse::Here, request.chart, reference, cautions);
  if (!chart) return std::unexpected(chart.error());
  const PhotoFacts& facts = photo->facts();
  std::vector<FitPatch> patches = fitPatches(**chart, deviceKind(facts));
  const std::vector<std::vector<FitPatch>> photos{patches};
  auto fit = fitProfile(photos, {deviceKind(facts), facts.camera});
  if (!fit) return fail(Code::NoProfile, within(fit.error()));
  return Read{std::move(*photo), std::move(**chart), std::move(patches), std::move(*fit)};
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

  auto read = readAs(request.encoding, request, *reference, report.cautions);
  if (!read) return std::unexpected(read.error());
  bool as_linear = false;
  if (looksLinear(read->photo.facts(), request.encoding, read->fit)) {
    std::vector<Caution> said;
    if (auto again = readAs(Encoding::Linear, request, *reference, said); again && clearlyLinear(read->fit, again->fit)) {
      read = std::move(again);
      as_linear = true;
    }
  }
  const PhotoFacts& facts = read->photo.facts();
  if (auto said = aboutLinear("The photo", as_linear, request.encoding, facts, read->fit)) report.cautions.push_back(std::move(*said));
  auto samples = samplePhoto(read->photo, *scene);
  if (!samples) return std::unexpected(samples.error());
  const Named& grey = samples->greys.front();
  if (const auto why = spoilt(grey, scene->regions.greys.front(), read->chart.corners)) return fail(Code::GreyUnfit, *why);
  if (const ProfileHealth health = profileHealth(read->fit); health.health == Health::NotUsable) {
    std::string why;
    for (const std::string& sentence : health.sentences) why += (why.empty() ? "" : " ") + sentence;
    return fail(Code::NoProfile, within(why));
  }

  std::vector<ChartGrey> greys;
  for (std::size_t i = 0; i < read->patches.size(); ++i) greys.push_back({read->patches[i], read->chart.samples[i].patch});
  const Mat3 from_xyz = inverse(deviceToXyz(facts));
  const auto measured = greyByChart(grey.patch, from_xyz * toVec(grey.patch.mean), from_xyz, greys, *read->fit.profile.map, request.chart_data.has_value());
  if (!measured) return fail(Code::NoProfile, measured.error());
  KeptGrey& kept = report.grey;
  kept.colour = {measured->lab, measured->lab_sd};
  if (const auto why = unfit(kept.colour)) return fail(Code::GreyUnfit, *why);
  kept.camera = facts.camera.empty() ? read->photo.traces().exif.camera : facts.camera;
  kept.day = read->photo.traces().exif.day;
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
