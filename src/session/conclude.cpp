#include "session/conclude.hpp"

#include <fmt/format.h>

#include "session/set_up.hpp"

namespace huewright {

JudgeReport begunReport(const Shot& shot) {
  JudgeReport report;
  report.trust = shot.trust;
  report.photo = shot.facts;
  report.chart = shot.chart;
  report.mat = shot.set_up.mat;
  report.regions = shot.set_up.scene.regions;
  report.reading = shot.reading;
  return report;
}

void conclude(JudgeReport& report, const Scene& scene, Filed filed, const JudgeRequest& request, const Standards& standards) {
  const Reading& reading = report.reading;
  const std::size_t panels = reading.panels.size();
  report.cautions = reading.cautions;
  report.cautions.insert(report.cautions.end(), filed.cautions.begin(), filed.cautions.end());
  report.tags = std::move(filed.tags);
  const bool stepped = report.stepped = !request.steps.empty();
  if (request.card_kind == CardKind::Unknown) report.cautions.push_back({CautionCode::CardKindUnknown, {}});
  if (stepped && stepsReversed(reading, request.steps)) report.cautions.push_back({CautionCode::StepsReversed, {}});

  std::vector<Mix> mixes;  // one a panel, for the ranking, or none
  RankWords words;
  words.by_coats = stepped;
  const CompareOptions options{request.tolerance.value_or(standards.situations.front().tolerance), request.card_kind};
  for (std::size_t i = 0; i < panels; ++i) {
    report.verdicts.push_back(compare(reading, i, scene.nameOfPanel(i), standards, options));
    const PanelFacts& facts = filed.panels[i];
    report.coats.push_back(facts.coats);
    const bool bare = report.coats.back() == 0;
    report.mixes.push_back(facts.mix);
    report.carriers.push_back(facts.carrier);
    report.panel_tags.push_back(facts.tag);
    if (facts.mix) mixes.push_back(*facts.mix);
    report.names.push_back(!stepped ? panels == 1 ? "panel" : scene.nameOfPanel(i)
                           : bare   ? "bare ground"
                                    : fmt::format("{:g} {}", request.steps[i], request.steps[i] == 1 ? "coat" : "coats"));
    if (stepped) words.names.push_back(report.names.back());
    if (bare) words.left_out.push_back(i);
  }
  // The strips have one mix; that of a bare one is never asked for.
  if (stepped && !mixes.empty()) mixes.resize(panels, mixes.front());
  if (mixes.size() != panels) mixes.clear();
  if (panels > 1) report.ranking = rank(reading, report.verdicts, mixes, words);
  if (stepped && !report.ranking.order.empty()) report.main = report.ranking.order.front().panel;
  report.advice = adviseOnePanel(reading, report.main, report.verdicts[report.main], report.mixes[report.main], report.coats[report.main]);
}

}  // namespace huewright
