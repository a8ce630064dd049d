#include <algorithm>
#include <fmt/format.h>
#include <imgui.h>

#include "desk/fields.hpp"
#include "desk/flow.hpp"
#include "desk/series_parts.hpp"
#include "desk/signs.hpp"
#include "desk/swatch_row.hpp"
#include "mix/mix_words.hpp"

namespace huewright::desk {
namespace {

constexpr NumberRange kPartCoats{0, 50, true};

/// Expected and wanted colour, edge to edge, with their words below.
void expectedSwatches(const SeriesShown& series, float width, float height, const Look& look) {
  const SwatchPiece pieces[]{{series.next ? &*series.next : nullptr, "What this mix is expected to look like"}, {series.target ? &*series.target : nullptr, "The wanted colour"}};
  ImGui::BeginGroup();
  swatchRow("expected and wanted", pieces, width, height, look);
  const float from = ImGui::GetCursorPosX();
  ImGui::TextUnformatted("expected");
  ImGui::SameLine(from + std::max(width / 2, ImGui::CalcTextSize("expected").x + ImGui::GetStyle().ItemSpacing.x));
  ImGui::TextUnformatted("wanted");
  ImGui::EndGroup();
}

void nextChoice(const SeriesShown& series, const MixChoice& choice, const Look& look) {
  const float em = ImGui::GetFontSize(), room = ImGui::GetContentRegionAvail().x;
  const bool beside = room > 34 * em;
  if (beside) {
    expectedSwatches(series, 16 * em, 6.5f * em, look);
    ImGui::SameLine();
  }
  ImGui::BeginGroup();
  wrapped("Spray next");
  wrapped(series.next_words, look.type.large);
  std::string words = "Expected off the wanted colour by " + distanceWords(choice);
  if (const std::string steps = stepWords(choice); !steps.empty()) words += ": " + steps;
  wrapped((words + ".").c_str());
  ImGui::EndGroup();
  if (!beside) expectedSwatches(series, std::min(24 * em, room), 5 * em, look);
}

void partField(Drawing& d) {
  std::optional<double> coats = d.state.plan.part_coats;
  const float width = 6 * ImGui::GetFontSize();
  heading("The real part", d.look);
  Flow flow;
  flow.words("Coats so far on the part");
  flow.next(width);
  const Typed typed = numberField("##part", coats, kPartCoats, width, "Coats of the mix that lie on the real part already. Empty: none is being sprayed.", "none");
  if (typed == Typed::Changed) d.out.push_back(act::SetPart{coats});
  if (typed == Typed::Wrong) ImGui::SetTooltip("%s", rangeSentence("Coats", kPartCoats).c_str());
  if (const auto& advice = d.state.series.advice; advice && advice->advice.part) wrapped(advice->advice.part->sentence.c_str());
  else if (coats) wrapped(d.state.advising ? "Working it out \u2026" : "Nothing can be said of the part before the mix is known.");
}

}  // namespace

void drawNextMix(Drawing& d) {
  const SeriesShown& series = d.state.series;
  if (d.state.advising) wrapped("Working out what to spray next \u2026");
  if (!series.trouble.empty()) cautionLine(series.trouble.c_str(), d.look);
  const Advice* advice = series.advice ? &series.advice->advice : nullptr;
  if (advice && advice->next) nextChoice(series, advice->next->choice, d.look);
  const bool of_the_part = advice && advice->part && advice->part->sentence == advice->sentence;  // it stands with the part
  if (advice && !of_the_part) wrapped(advice->sentence.c_str());
}

void drawNextMore(Drawing& d) {
  const SeriesShown& series = d.state.series;
  if (!series.alternatives.empty()) {
    heading("Or else", d.look);
    for (const std::string& one : series.alternatives) itemLine(one.c_str(), d.look);
  }
  if (!series.cautions.empty()) {
    heading("Mind", d.look);
    for (const std::string& one : series.cautions) cautionLine(one.c_str(), d.look);
  }
  if (series.advice) partField(d);
}

}  // namespace huewright::desk
