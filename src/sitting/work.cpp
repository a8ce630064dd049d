#include "sitting/work.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "paper/map_picture.hpp"
#include "session/panel_map.hpp"
#include "session/plots.hpp"
#include "session/probe.hpp"
#include "session/region_marks.hpp"
#include "sitting/window_words.hpp"
#include "sitting/words.hpp"

namespace huewright {
namespace {

constexpr int kProbeSide = 21;       // pixels of the magnifier, an odd number
constexpr int kScaleSteps = 64;      // colours of the map's legend
constexpr std::uint8_t kSeeThrough = 0, kSolid = 255, kMapAlpha = 235;

PictureRef fromPreview(const Preview& preview) {
  auto out = std::make_shared<Picture>();
  out->size = preview.size;
  out->scale = preview.scale;
  out->rgba.resize(preview.rgb.size() / 3 * 4);
  for (std::size_t i = 0, n = preview.rgb.size() / 3; i < n; ++i) {
    std::copy_n(&preview.rgb[3 * i], 3, &out->rgba[4 * i]);
    out->rgba[4 * i + 3] = kSolid;
  }
  return out;
}

void paint(Picture& picture, std::size_t pixel, const std::array<std::uint8_t, 3>& rgb, std::uint8_t alpha) {
  std::copy_n(rgb.data(), 3, &picture.rgba[4 * pixel]);
  picture.rgba[4 * pixel + 3] = alpha;
}

std::shared_ptr<Picture> seeThrough(Size size) {
  auto out = std::make_shared<Picture>();
  out->size = size;
  out->rgba.assign(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height) * 4, kSeeThrough);
  return out;
}

const std::array<std::uint8_t, 3>* markColour(MapPart part) {
  switch (part) {
    case MapPart::Glare: return &kGlareColour;
    case MapPart::Shadow: return &kShadowColour;
    case MapPart::Clipped: return &kClippedColour;
    case MapPart::Shown: break;
  }
  return nullptr;
}

std::string labWords(const char* what, const Lab<D50>& lab) { return fmt::format("{}  L* {:.1f}  a* {:.1f}  b* {:.1f}", what, lab.L + 0.0, lab.a + 0.0, lab.b + 0.0); }

const char* stateWords(ChartPatchState state) {
  switch (state) {
    case ChartPatchState::Glare: return "in glare";
    case ChartPatchState::BurntOut: return "burnt out";
    case ChartPatchState::Covered: return "covered";
    case ChartPatchState::Good: break;
  }
  return "";
}

}  // namespace

Result<OpenedPhoto> openForShow(const std::filesystem::path& file, const Limits& limits, Encoding encoding) {
  auto photo = Photo::open(file, limits, encoding);
  if (!photo) return std::unexpected(photo.error());
  const auto preview = photo->preview(kPreviewPixels);
  if (!preview) return std::unexpected(preview.error());
  return OpenedPhoto{factsWords(photo->facts()), photo->size(), fromPreview(*preview)};
}

Result<PictureRef> everyPixel(const std::filesystem::path& file, const Limits& limits, Encoding encoding) {
  auto photo = Photo::open(file, limits, encoding);
  if (!photo) return std::unexpected(photo.error());
  const auto preview = photo->preview(std::max(photo->size().width, photo->size().height));
  if (!preview) return std::unexpected(preview.error());
  return fromPreview(*preview);
}

Result<ProbeShown> Pointer::look(int id, const std::filesystem::path& file, Point at, const JudgeReport* report, const Limits& limits, Encoding encoding) {
  if (report && report->photo.linear) encoding = Encoding::Linear;  // a chart in it may have told
  if (!photo_ || file != file_ || encoding != encoding_) {
    auto photo = Photo::open(file, limits, encoding);
    if (!photo) return std::unexpected(photo.error());
    photo_ = std::make_shared<Photo>(std::move(*photo));
    file_ = file;
    encoding_ = encoding;
  }
  std::optional<std::size_t> panel;
  if (report)
    for (std::size_t i = 0; i < report->regions.panels.size(); ++i)
      if (contains(report->regions.panels[i], at)) panel = i;
  const auto seen = probe(*photo_, at, kProbeSide, report ? &report->reading : nullptr, panel);
  if (!seen) return std::unexpected(seen.error());
  ProbeShown out;
  out.photo = id;
  out.at = {static_cast<double>(seen->x), static_cast<double>(seen->y)};
  auto around = seeThrough({seen->around.width, seen->around.height});
  for (std::size_t i = 0; i < seen->srgb.size() / 3; ++i) paint(*around, i, {seen->srgb[3 * i], seen->srgb[3 * i + 1], seen->srgb[3 * i + 2]}, kSolid);
  out.around = std::move(around);
  const Vec3& v = seen->linear_srgb;
  out.lines.push_back(fmt::format("{}, {}", seen->x, seen->y));
  out.lines.push_back(fmt::format("linear  R {:.4f}  G {:.4f}  B {:.4f}", v[0] + 0.0, v[1] + 0.0, v[2] + 0.0));
  out.lines.push_back(labWords("as photographed", seen->lab));
  if (seen->corrected) out.lines.push_back(labWords("as judged", *seen->corrected));
  if (seen->clipped_top) out.lines.emplace_back("burnt out: brighter than the photo can hold");
  if (seen->clipped_bottom) out.lines.emplace_back("black: darker than the photo can hold");
  return out;
}

Result<MapShown> mapForShow(const JudgeRequest& request, JudgeReport report, std::size_t panel, std::stop_token stop) {
  report.main = panel;
  const auto map = panelMap(request, report, std::move(stop));
  if (!map) return std::unexpected(map.error());
  MapShown out;
  out.name = report.names[panel];
  out.quad = map->quad;
  out.sentences = map->sentences;
  if (report.names.size() > 1 && !out.sentences.empty()) out.sentences.front() = fmt::format("{}: {}", out.name, out.sentences.front());
  out.top = mapScaleTop(map->de00, map->parts, report.verdicts[report.main].tolerance);
  auto picture = seeThrough(map->size);
  for (std::size_t i = 0; i < map->de00.size(); ++i)
    if (map->parts[i] == MapPart::Shown) paint(*picture, i, mapColour(map->de00[i] / out.top), kMapAlpha);
  out.picture = std::move(picture);
  for (int i = 0; i < kScaleSteps; ++i) out.scale.push_back(mapColour(static_cast<double>(i) / (kScaleSteps - 1)));
  return out;
}

Result<MarksShown> marksForShow(const JudgeRequest& request, const JudgeReport& report, std::stop_token stop) {
  const auto marks = regionMarks(request, report, std::move(stop));
  if (!marks) return std::unexpected(marks.error());
  MarksShown out;
  for (const RegionMarks& region : *marks) {
    auto picture = seeThrough(region.size);
    for (std::size_t i = 0; i < region.parts.size(); ++i)
      if (const auto* colour = markColour(region.parts[i])) paint(*picture, i, *colour, kSolid);
    out.regions.push_back({region.quad, std::move(picture), region.glare, region.shadow, region.clipped});
  }
  return out;
}

SeriesShown seriesForShow(const Series& series, const std::optional<std::filesystem::path>& tint_file, std::optional<double> part_coats) {
  const auto tints = openTints(tint_file);
  if (!tints) return seriesShown(series, std::unexpected(tints.error()), fail(Code::Stopped));
  const auto advice = adviseOn(series, *tints, part_coats);
  const auto plot = advice ? seriesPlotOf(series, *tints, advice->advice) : Result<SeriesPlot>(fail(Code::Stopped));
  SeriesShown out = seriesShown(series, advice, plot);
  if (!advice) return out;
  if (const auto base = groundwork(series, *tints))
    for (std::size_t i = 0; i < out.rows.size(); ++i)
      if (std::ranges::find(base->from, i) == base->from.end()) out.rows[i].trouble = "The model leaves it out.";
  if (!series.grounds.empty())
    if (const auto looks = groundsOf(series, *tints)) showGrounds(*looks, series, out);
  return out;
}

Result<CameraShown> cameraForShow(const Session& session, const ProfileRequest& request, std::stop_token stop) {
  const auto report = session.profile(request, std::move(stop));
  if (!report) return std::unexpected(report.error());
  CameraShown out;
  for (const std::string& said : report->health.sentences) out.sentences.push_back(windowWords(said));
  out.health = report->health.health;
  for (const Caution& caution : report->cautions) out.cautions.push_back(windowWords(caution));
  for (const ChartPhotoReport& photo : report->photos) {
    ChartPhotoShown shown;
    shown.file = photo.file;
    for (const ChartPatchReport& patch : photo.patches)
      shown.patches.push_back({patch.name, patch.quad, patch.off.value_or(-1), patch.stands_out, stateWords(patch.state), swatchOf(patch.published)});
    out.photos.push_back(std::move(shown));
  }
  return out;
}

}  // namespace huewright
