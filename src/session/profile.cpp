#include <algorithm>
#include <iterator>
#include <new>

#include "camera/icc_profile.hpp"
#include "camera/profile_file.hpp"
#include "photo/write.hpp"
#include "session/chart.hpp"
#include "session/linear_file.hpp"
#include "session/session.hpp"

namespace huewright {
namespace {

std::optional<Problem> wrong(const ProfileRequest& r) {
  if (r.photos.empty()) return Problem{Code::NoPhoto, {}};
  if (r.photos.size() > 1 && r.chart) return Problem{Code::BadChoice, "With corners given by hand, profile takes one photo"};
  if (r.chart_use == ChartUse::None) return Problem{Code::BadChoice, "A profile is made from a chart: --chart cannot be none"};
  if (!r.out.empty() && r.out.extension() != ".json") return Problem{Code::BadChoice, "The profile is written as a JSON file. Give --out a name that ends in .json"};
  if (r.icc && r.icc->extension() != ".icc" && r.icc->extension() != ".icm")
    return Problem{Code::BadChoice, "Give --icc a name that ends in .icc"};
  return {};
}

/// The charts of all photos, read in one encoding.
struct Charts {
  std::vector<std::vector<FitPatch>> patches;
  std::vector<PhotoFacts> facts;
  std::vector<ChartPhotoReport> shown;
  FitOptions options;
  std::vector<Caution> cautions;
};

ChartPhotoReport shownChart(const std::filesystem::path& file, const ChartReading& reading) {
  ChartPhotoReport shown{file, reading.corners, {}};
  for (const ChartSample& s : reading.samples) shown.patches.push_back({s.name, s.quad, s.state, s.reference, {}});
  return shown;
}

/// Writes the fit's errors beside the patches. In: the photos in the order in which they were fitted.
void addErrors(const ProfileFit& fit, const std::vector<std::string>& worst, std::vector<ChartPhotoReport>& photos) {
  std::size_t next = 0;
  for (ChartPhotoReport& photo : photos)
    for (ChartPatchReport& patch : photo.patches) {
      const FittedPatch& fitted = fit.patches[next++];
      if (!fitted.used) continue;
      patch.off = fitted.loo_de00;
      patch.stands_out = std::ranges::find(worst, patch.name) != worst.end();
    }
}

Result<Charts> readCharts(const ProfileRequest& request, Encoding encoding, const ChartReference& reference, const std::stop_token& stop) {
  Charts charts;
  for (const std::filesystem::path& path : request.photos) {
    auto photo = Photo::open(path, request.limits, encoding);
    if (!photo) return std::unexpected(photo.error());
    const PhotoFacts& facts = photo->facts();
    FitOptions& options = charts.options;
    if (!charts.patches.empty() && (options.device != deviceKind(facts) || options.camera != facts.camera))
      return fail(Code::NoProfile, path.string() + " is by another camera, or of another kind of file, than " + request.photos.front().string());
    options.device = deviceKind(facts);
    options.camera = facts.camera;
    const auto chart = chartIn(*photo, {}, ChartUse::Here, request.chart, reference, charts.cautions);
    if (!chart) {
      Problem problem = chart.error();
      if (problem.code == Code::ChartNotFound) problem.detail = path.string() + ": " + problem.detail;
      return std::unexpected(std::move(problem));
    }
    charts.patches.push_back(fitPatches(**chart, options.device));
    charts.shown.push_back(shownChart(path, **chart));
    charts.facts.push_back(facts);
    if (stop.stop_requested()) return fail(Code::Stopped);
  }
  return charts;
}

}  // namespace

Result<ProfileReport> Session::profile(const ProfileRequest& request, std::stop_token stop) const try {
  if (auto problem = wrong(request)) return std::unexpected(*problem);
  ProfileReport report;
  const auto observer = readObserver(calib_);
  if (!observer) return std::unexpected(observer.error());
  const auto reference = chartReferenceFor(request.chart_data, calib_, request.limits, report.cautions);
  if (!reference) return std::unexpected(reference.error());
  auto charts = readCharts(request, request.encoding, *reference, stop);
  if (!charts) return std::unexpected(charts.error());
  auto fit = fitProfile(charts->patches, charts->options);
  if (!fit) return fail(Code::NoProfile, within(fit.error()));
  bool as_linear = false;
  if (std::ranges::all_of(charts->facts, [&](const PhotoFacts& f) { return looksLinear(f, request.encoding, *fit); }))
    if (auto again = readCharts(request, Encoding::Linear, *reference, stop))
      if (auto other = fitProfile(again->patches, again->options); other && clearlyLinear(*fit, *other)) {
        charts = std::move(again);
        fit = std::move(other);
        as_linear = true;
      }
  const PhotoFacts& facts = charts->facts.front();
  std::ranges::move(charts->cautions, std::back_inserter(report.cautions));
  const char* what = request.photos.size() == 1 ? "The photo" : "Each photo";
  if (auto said = aboutLinear(what, as_linear, request.encoding, facts, *fit)) report.cautions.push_back(std::move(*said));
  report.loo_de00 = fit->profile.loo_de00;
  const PlanckianLocus locus(*observer);
  report.health = profileHealth(*fit, {&locus, facts.native, facts.linear});
  report.photos = std::move(charts->shown);
  addErrors(*fit, report.health.worst, report.photos);
  if (report.health.health == Health::NotUsable) return report;
  if (!request.out.empty()) {
    CameraProfile stored = fit->profile;
    if (as_linear) forSrgbDecoding(*stored.map);
    if (const auto written = writeProfile(stored, request.out); !written) return std::unexpected(written.error());
    report.written = true;
  }
  if (request.icc) {
    const IccCodes codes = facts.linear ? IccCodes::Linear : IccCodes::Srgb;
    const auto icc = iccProfile(*fit->profile.map, codes, facts.camera.empty() ? "Camera" : facts.camera);
    if (!icc) return fail(Code::NoProfile, within(icc.error()));
    const std::string_view bytes{reinterpret_cast<const char*>(icc->data()), icc->size()};
    if (const auto written = writeWhole(*request.icc, bytes); !written) return std::unexpected(written.error());
  }
  return report;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "these pictures");
}

}  // namespace huewright
