#include "session/chart.hpp"

#include <algorithm>
#include <cmath>

#include "camera/profile_file.hpp"
#include "colour/cgats.hpp"
#include "photo/file_bytes.hpp"
#include "scene/chart_finder.hpp"
#include "session/linear_file.hpp"
#include "session/set_up.hpp"

namespace huewright {
namespace {

std::vector<ChartGrid> gridsOf(const std::vector<GridProposal>& proposals) {
  std::vector<ChartGrid> grids;
  for (const GridProposal& p : proposals) grids.push_back({p.homography, p.patch_share});
  return grids;
}

/// Which of several charts was used, and why.
std::string whichChart(const ChartReading& reading) {
  const Point here = centre(reading.corners), there = centre(reading.others.front());
  const double x = here.x - there.x, y = here.y - there.y;
  const std::string side = std::abs(x) > std::abs(y) ? x < 0 ? "left" : "right" : y < 0 ? "top" : "bottom";
  const std::string count = reading.others.size() == 1 ? "Two charts are in the photo; the one at the " : "Several charts are in the photo; the one towards the ";
  const std::string used = count + side + " was used, ";
  return used + (reading.passed_over.empty() ? "as it is the larger" : "as a larger one is unfit: " + within(reading.passed_over));
}

struct Fitted {
  ProfileFit fit;
  Quad corners;
};

}  // namespace

std::string within(std::string sentence) {
  while (!sentence.empty() && (sentence.back() == '.' || sentence.back() == ' ')) sentence.pop_back();
  return sentence;
}

Result<ChartReference> chartReferenceFor(const std::optional<std::filesystem::path>& own, const std::filesystem::path& calib, const Limits& limits,
                                         std::vector<Caution>& cautions) {
  if (!own) return readChart24(calib);
  const auto bytes = FileBytes::read(*own, limits);
  if (!bytes) return std::unexpected(bytes.error());
  const std::string_view text{reinterpret_cast<const char*>(bytes->bytes().data()), bytes->bytes().size()};
  const auto basis = readSpectralBasis(calib);
  if (!basis) return std::unexpected(basis.error());
  const auto table = readCgats(text);
  if (!table) return fail(Code::ChartDataUnusable, own->string() + ", " + within(withLine(table.error())));
  auto chart = chartReference(*table, *basis);
  if (!chart) return fail(Code::ChartDataUnusable, own->string() + ", " + within(withLine(chart.error())));
  for (const std::string& note : chart->notes) cautions.push_back({CautionCode::ChartDataNote, within(note)});
  return std::move(*chart);
}

Result<std::optional<ChartReading>> chartIn(Photo& photo, const std::optional<Preview>& made, ChartUse use, const std::optional<Quad>& marked, const ChartReference& reference,
                                            std::vector<Caution>& cautions) {
  if (use == ChartUse::None) return std::optional<ChartReading>{};
  std::optional<Preview> own;
  if (!made) {
    auto preview = photo.preview(kPreviewSide);
    if (!preview) return std::unexpected(preview.error());
    own = std::move(*preview);
  }
  const Preview& preview = made ? *made : *own;
  const auto proposals = use == ChartUse::Here && marked ? gridsByHand(preview, *marked, reference.columns, reference.rows)
                                                         : findChartGrids(preview, reference.columns, reference.rows);
  if (!proposals) return std::unexpected(proposals.error());
  const auto grids = gridsOf(*proposals);
  auto reading = readChart(photo, preview, grids, reference);
  if (reading && !reading->others.empty()) cautions.push_back({CautionCode::OtherCharts, whichChart(*reading)});
  if (reading) return std::optional(std::move(*reading));
  const ChartRefusal& refusal = reading.error();
  if (refusal.problem) return std::unexpected(*refusal.problem);
  if (use == ChartUse::Here) return fail(Code::ChartNotFound, within(refusal.sentence));
  if (refusal.fault != ChartFault::NoGrid && refusal.fault != ChartFault::NotItsColours)
    cautions.push_back({CautionCode::ChartNotUsed, within(refusal.sentence)});
  return std::optional<ChartReading>{};
}

DeviceKind deviceKind(const PhotoFacts& facts) { return facts.camera_rgb ? DeviceKind::CameraRgb : DeviceKind::LinearSrgb; }

std::vector<FitPatch> fitPatches(const ChartReading& reading, DeviceKind device) {
  std::vector<FitPatch> patches;
  for (const ChartSample& sample : reading.samples) {
    FitPatch patch = fitPatch(sample.name, sample.patch, device, sample.reference);
    patch.spoilt = sample.state != ChartPatchState::Good;
    patches.push_back(std::move(patch));
  }
  return patches;
}

Result<PhotoProfile> profileFor(Photo& photo, const std::optional<Preview>& made, const JudgeRequest& request, const std::filesystem::path& calib, std::vector<Caution>& cautions) {
  const PhotoFacts& facts = photo.facts();
  if (request.chart_use != ChartUse::None) {
    const auto reference = chartReferenceFor(request.chart_data, calib, request.limits, cautions);
    if (!reference) return std::unexpected(reference.error());
    const auto fitted = [&](Photo& of, const std::optional<Preview>& preview, std::vector<Caution>& said) -> Result<std::optional<Fitted>> {
      auto chart = chartIn(of, preview, request.chart_use, request.chart, *reference, said);
      if (!chart) return std::unexpected(chart.error());
      if (!*chart) return std::optional<Fitted>{};
      const std::vector<std::vector<FitPatch>> photos{fitPatches(**chart, deviceKind(of.facts()))};
      auto fit = fitProfile(photos, {deviceKind(of.facts()), of.facts().camera});
      if (fit) return std::optional(Fitted{std::move(*fit), (*chart)->corners});
      if (request.chart_use == ChartUse::Here) return fail(Code::NoProfile, within(fit.error()));
      said.push_back({CautionCode::ChartNotUsed, within(fit.error())});
      return std::optional<Fitted>{};
    };
    auto chart = fitted(photo, made, cautions);
    if (!chart) return std::unexpected(chart.error());
    if (*chart) {
      bool linear = false;
      if (!facts.path.empty() && looksLinear(facts, request.encoding, (*chart)->fit)) {
        std::vector<Caution> said;
        auto again = Photo::open(facts.path, request.limits, Encoding::Linear);
        if (again)
          if (auto other = fitted(*again, {}, said); other && *other && clearlyLinear((*chart)->fit, (*other)->fit)) {
            linear = true;
            chart = std::move(other);
            photo = std::move(*again);
          }
      }
      if (auto said = aboutLinear("The photo", linear, request.encoding, photo.facts(), (*chart)->fit)) cautions.push_back(std::move(*said));
      return PhotoProfile{std::move((*chart)->fit.profile), (*chart)->corners, (*chart)->fit.photos.front().light};
    }
  }
  if (request.profile) {
    auto stored = readProfileFile(*request.profile);
    if (!stored) {  // the code's own sentence begins alike
      constexpr std::string_view kBegins = "The camera profile cannot be used: ";
      const std::string& why = stored.error();
      return fail(Code::ProfileFileUnusable, within(why.starts_with(kBegins) ? why.substr(kBegins.size()) : why));
    }
    if (stored->map && stored->map->device != deviceKind(facts))
      return fail(Code::ProfileFileUnusable, facts.camera_rgb ? "it was made from pictures, and this is a raw file" : "it was made from raw files, and this is a picture");
    if (stored->map && !stored->map->camera.empty() && !facts.camera.empty() && stored->map->camera != facts.camera)
      cautions.push_back({CautionCode::ProfileCamera, stored->map->camera});
    if (stored->map && isOfLinearFiles(*stored->map)) {
      bool linear = facts.linear;
      if (!linear && request.encoding == Encoding::Auto && !facts.path.empty())
        if (auto again = Photo::open(facts.path, request.limits, Encoding::Linear)) {
          photo = std::move(*again);
          linear = true;
          cautions.push_back({CautionCode::ValuesLinear, "The photo is like those that the camera profile was made from: it"});
        }
      if (linear) stored->map->curve.before = RampCurve::Before::Nothing;
    }
    return PhotoProfile{std::move(*stored), {}};
  }
  return PhotoProfile{{facts.tagged ? ProfileKind::Builtin : ProfileKind::None, {}, {}}, {}};
}

}  // namespace huewright
