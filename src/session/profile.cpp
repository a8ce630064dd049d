#include <algorithm>
#include <new>

#include "camera/icc_profile.hpp"
#include "camera/profile_file.hpp"
#include "photo/write.hpp"
#include "session/chart.hpp"
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

}  // namespace

Result<ProfileReport> Session::profile(const ProfileRequest& request, std::stop_token stop) const try {
  if (auto problem = wrong(request)) return std::unexpected(*problem);
  ProfileReport report;
  const auto observer = readObserver(calib_);
  if (!observer) return std::unexpected(observer.error());
  const auto reference = chartReferenceFor(request.chart_data, calib_, request.limits, report.cautions);
  if (!reference) return std::unexpected(reference.error());
  std::vector<std::vector<FitPatch>> photos;
  FitOptions options;
  std::optional<Mat3> native;
  bool linear = false;
  for (const std::filesystem::path& path : request.photos) {
    auto photo = Photo::open(path, request.limits, request.encoding);
    if (!photo) return std::unexpected(photo.error());
    const PhotoFacts& facts = photo->facts();
    if (!photos.empty() && (options.device != deviceKind(facts) || options.camera != facts.camera))
      return fail(Code::NoProfile, path.string() + " is by another camera, or of another kind of file, than " + request.photos.front().string());
    if (photos.empty()) native = facts.native, linear = facts.linear;
    options.device = deviceKind(facts);
    options.camera = facts.camera;
    const auto chart = chartIn(*photo, {}, ChartUse::Here, request.chart, *reference, report.cautions);
    if (!chart) {
      Problem problem = chart.error();
      if (problem.code == Code::ChartNotFound) problem.detail = path.string() + ": " + problem.detail;
      return std::unexpected(std::move(problem));
    }
    photos.push_back(fitPatches(**chart, options.device));
    if (stop.stop_requested()) return fail(Code::Stopped);
  }
  const auto fit = fitProfile(photos, options);
  if (!fit) return fail(Code::NoProfile, within(fit.error()));
  report.loo_de00 = fit->profile.loo_de00;
  const PlanckianLocus locus(*observer);
  report.health = profileHealth(*fit, {&locus, native, linear});
  if (report.health.health == Health::NotUsable) return report;
  if (!request.out.empty()) {
    if (const auto written = writeProfile(fit->profile, request.out); !written) return std::unexpected(written.error());
    report.written = true;
  }
  if (request.icc) {
    const IccCodes codes = options.device == DeviceKind::CameraRgb ? IccCodes::Linear : IccCodes::Srgb;
    const auto icc = iccProfile(*fit->profile.map, codes, options.camera.empty() ? "Camera" : options.camera);
    if (!icc) return fail(Code::NoProfile, within(icc.error()));
    const std::string_view bytes{reinterpret_cast<const char*>(icc->data()), icc->size()};
    if (const auto written = writeWhole(*request.icc, bytes); !written) return std::unexpected(written.error());
  }
  return report;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "these pictures");
}

}  // namespace huewright
