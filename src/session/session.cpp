#include "session/session.hpp"

#include <cmath>
#include <new>

#include "session/mat_regions.hpp"

namespace huewright {
namespace {

constexpr double kLeastGreyY = 0.02;  // a darker patch is a black one; a slipped digit would shrink every difference

bool usesMat(const JudgeRequest& r) { return r.regions.panels.empty() && !r.regions.card && r.regions.greys.empty(); }

std::optional<Problem> wrong(const JudgeRequest& r) {
  if (r.photo.empty()) return Problem{Code::NoPhoto, {}};
  if (r.regions.panels.empty() && !usesMat(r)) return Problem{Code::NoPanel, {}};
  if (r.regions.panels.size() > static_cast<std::size_t>(r.limits.panels))
    return Problem{Code::TooManyPanels, std::to_string(r.regions.panels.size())};
  if (!r.regions.card && !r.card_lab && !usesMat(r)) return Problem{Code::NoCard, {}};
  if (r.regions.card && r.card_lab) return Problem{Code::TwoCards, {}};
  if (r.grey_y && !(*r.grey_y >= kLeastGreyY && *r.grey_y <= 1))
    return Problem{Code::BadNumber, "The grey patch's lightness (--grey-y) must lie from 0.02 to 1, as a share of white"};
  if (r.tolerance && !(*r.tolerance > 0 && *r.tolerance <= 100))
    return Problem{Code::BadNumber, "The tolerance must be a colour difference above 0 and at most 100"};
  if (r.coats && !(*r.coats > 0 && *r.coats <= 100)) return Problem{Code::BadNumber, "The coats must be a number above 0 and at most 100"};
  if (r.card_lab && !(r.card_lab->L >= 0 && r.card_lab->L <= 100 && std::abs(r.card_lab->a) <= 200 && std::abs(r.card_lab->b) <= 200))
    return Problem{Code::BadNumber, "The card's Lab must have L from 0 to 100, and a and b from -200 to 200"};
  for (const Mix& mix : r.mixes)
    if (!(mix.strong >= 0 && mix.weak >= 0 && mix.strong + mix.weak > 0 && std::isfinite(mix.strong + mix.weak)))
      return Problem{Code::BadMix, std::to_string(mix.strong) + ":" + std::to_string(mix.weak)};
  if (r.mixes.size() > 1 && !usesMat(r) && r.mixes.size() != r.regions.panels.size())
    return Problem{Code::BadChoice, "Give one mix for all panels, or one for each panel in the same order"};
  return {};
}

}  // namespace

Result<Session> Session::open(const std::filesystem::path& calib) {
  auto standards = readStandards(calib);
  if (!standards) return std::unexpected(standards.error());
  Session session;
  session.standards_ = std::move(*standards);
  session.calib_ = calib;
  return session;
}

Result<JudgeReport> Session::judge(const JudgeRequest& request, std::stop_token stop) const {
  if (auto problem = wrong(request)) return std::unexpected(*problem);
  try {
    auto photo = Photo::open(request.photo, request.limits, request.encoding);
    if (!photo) return std::unexpected(photo.error());
    Regions regions = request.regions;
    if (usesMat(request)) {
      const auto layouts = readMatLayouts(calib_);
      if (!layouts) return std::unexpected(layouts.error());
      auto found = findRegions(*photo, *layouts, !request.card_lab);
      if (!found) return std::unexpected(found.error());
      regions = std::move(*found);
      if (request.mixes.size() > 1 && request.mixes.size() != regions.panels.size())
        return fail(Code::MatMixes, std::to_string(request.mixes.size()) + " mixes were given, and " + std::to_string(regions.panels.size()) +
                                        " panels lie on the mat");
    }
    const auto scene = arrange(regions, photo->size(), request.limits);
    if (!scene) return std::unexpected(scene.error());
    if (stop.stop_requested()) return fail(Code::Stopped);

    const CameraProfile profile{photo->facts().tagged ? ProfileKind::Builtin : ProfileKind::None, {}};
    auto reading = measure(*photo, *scene, profile, {request.grey_y, request.card_lab});
    if (!reading) return std::unexpected(reading.error());
    if (stop.stop_requested()) return fail(Code::Stopped);

    JudgeReport report;
    report.photo = photo->facts();
    report.regions = scene->regions;
    report.cautions = reading->cautions;
    if (request.card_kind == CardKind::Unknown) report.cautions.push_back({CautionCode::CardKindUnknown, {}});
    const CompareOptions options{request.tolerance.value_or(standards_.situations.front().tolerance), request.card_kind};
    const std::size_t panels = reading->panels.size();
    for (std::size_t i = 0; i < panels; ++i)
      report.verdicts.push_back(compare(*reading, i, panelName(i, panels), standards_, options));

    std::vector<Mix> mixes = request.mixes;
    if (mixes.size() == 1) mixes.resize(panels, mixes.front());
    const std::optional<Mix> first = mixes.empty() ? std::nullopt : std::optional(mixes.front());
    report.advice = adviseOnePanel(*reading, 0, report.verdicts.front(), first, request.coats);
    if (panels > 1) report.ranking = rank(*reading, report.verdicts, mixes);
    report.reading = std::move(*reading);
    return report;
  } catch (const std::bad_alloc&) {
    return fail(Code::OutOfMemory, "this picture");
  }
}

}  // namespace huewright
