#include <algorithm>
#include <new>

#include "paper/map_picture.hpp"
#include "photo/write.hpp"
#include "session/panel_map.hpp"
#include "session/session.hpp"

namespace huewright {
namespace {

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
  const JudgeReport& j = report.judge;
  auto layers = panelMap(request.judge, j, stop);
  if (!layers) return std::unexpected(layers.error());
  report.sentences = layers->sentences;
  report.median_de00 = layers->median_de00;
  const Verdict& verdict = j.verdicts[j.main];
  MapSheet sheet;
  sheet.title = verdict.sentence;
  sheet.size = layers->size;
  sheet.photo = std::move(layers->photo);
  sheet.de00 = std::move(layers->de00);
  sheet.parts = std::move(layers->parts);
  sheet.tolerance = verdict.tolerance;
  sheet.panel = j.reading.panels[j.main].lab;
  sheet.card = j.reading.card.lab;
  sheet.sentences = report.sentences;
  sheet.smoothed = layers->smoothed;
  const auto picture = mapPicture(sheet);
  if (!picture) return std::unexpected(picture.error());
  if (const auto written = writePng(request.out, picture->size, picture->rgb); !written) return std::unexpected(written.error());
  return report;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "this picture");
}

}  // namespace huewright
