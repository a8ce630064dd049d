#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <imgui.h>

#include "desk/fields.hpp"
#include "desk/flow.hpp"
#include "desk/pour_request.hpp"
#include "desk/signs.hpp"
#include "desk/views.hpp"
#include "mix/series.hpp"
#include "session/pour_words.hpp"
#include "sitting/window_words.hpp"

namespace huewright::desk {
namespace {

// As volumeNeeded and wrongRecipe have them.
constexpr NumberRange kArea{0, 1000, true}, kLossPercent{0, 95}, kFilm{1, 1000}, kRest{0, 1000}, kCupTakes{1, 100000}, kDensity{0.5, 3}, kScaleStep{0.0001, 100};

/// Words and fields in a row that wraps; remembers what was typed wrongly.
class PourFields {
 public:
  explicit PourFields(std::string& trouble) : trouble_(trouble) {}

  void number(const char* lead, const char* unit, std::optional<double>& value, const NumberRange& range, const char* tip, const std::string& hint) {
    begin(lead, unit);
    note(numberField("##number", value, range, width(), tip, hint.c_str()), lead, range);
    end(unit);
  }
  void number(const char* lead, const char* unit, double& value, const NumberRange& range, const char* tip) {
    begin(lead, unit);
    note(numberField("##number", value, range, width(), tip), lead, range);
    end(unit);
  }
  void line(const char* words) {
    wrapped(words);
    flow_ = Flow(1.2f * ImGui::GetFontSize());
  }
  bool choice(const char* words, bool on, const char* tip) {
    flow_.next(buttonWidth(words) + 2 * ImGui::GetFontSize());
    const bool clicked = ImGui::RadioButton(words, on);
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tip);
    return clicked;
  }

 private:
  static float width() { return 5 * ImGui::GetFontSize(); }
  void begin(const char* lead, const char* unit) {
    const float gap = ImGui::GetStyle().ItemSpacing.x, words = ImGui::CalcTextSize(lead).x + 2 * gap + ImGui::CalcTextSize(unit).x;
    flow_.next(words + width());
    ImGui::PushID(count_++);
    ImGui::BeginGroup();
    ImGui::AlignTextToFramePadding();
    wrapped(lead);
    if (words + width() <= ImGui::GetContentRegionAvail().x) ImGui::SameLine();
  }
  static void end(const char* unit) {
    ImGui::SameLine();
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(unit);
    ImGui::EndGroup();
    ImGui::PopID();
  }
  void note(Typed typed, const char* what, const NumberRange& range) {
    if (typed == Typed::Changed) trouble_.clear();
    if (typed == Typed::Wrong) trouble_ = rangeSentence(what, range);
  }
  Flow flow_{1.2f * ImGui::GetFontSize()};
  int count_ = 0;
  std::string& trouble_;
};

void pourFields(PourViewState& cup, const PourRequest& request, std::string& trouble) {
  const PourToolFacts& usual = pourToolFacts(request.need.tool);
  PourFields fields(trouble);
  fields.number("Area", "m\u00b2", cup.area_m2, kArea, "What is to be coated with this mix, in square metres.");
  if (fields.choice("Spray gun", !cup.airbrush, "Loss, film and rest are taken as usual for a spray gun, unless you tell them.")) cup.airbrush = false;
  if (fields.choice("Airbrush", cup.airbrush, "Loss, film and rest are taken as usual for an airbrush, unless you tell them.")) cup.airbrush = true;
  std::optional<double> percent = cup.loss ? std::optional<double>(100 * *cup.loss) : std::nullopt;
  fields.number("Loss", "%", percent, kLossPercent, "What of the spray does not land on the part. Empty: as usual for the tool.", fieldNumber(100 * usual.loss));
  cup.loss = percent ? std::optional<double>(*percent / 100) : std::nullopt;
  fields.number("Wet film of a coat", "\u00b5m", cup.film_um, kFilm, "From the data sheet. Empty: as usual for the tool.", fieldNumber(usual.film_um));
  fields.number("Stays in the tool", "mL", cup.rest_ml, kRest, "In cup, strainer and tool. Empty: as usual for the tool.", fieldNumber(usual.rest_ml));
  fields.number("One cup takes", "mL", cup.cup_ml, kCupTakes, "More than that is poured in equal fills. Empty: all in one.", "all");
  ImGui::Spacing();
  fields.line("To weigh it, give the densities from the data sheets:");
  const char* tip = "Grams of one millilitre. With all of them it is weighed.";
  fields.number(request.recipe.tints[0].name.c_str(), "g/mL", cup.strong_density, kDensity, tip, "?");
  fields.number(request.recipe.tints[1].name.c_str(), "g/mL", cup.weak_density, kDensity, tip, "?");
  fields.number("carrier", "g/mL", cup.carrier_density, kDensity, tip, "?");
  fields.number("Step of the scale", "g", cup.scale_g, kScaleStep, "The smallest step that your scale shows.", "0.1");
}

std::string amountWords(const std::string& name, const std::string& amount, const std::string& grams) { return name + ": " + amount + (grams.empty() ? "" : ", " + grams); }

void pouringsInOrder(const PourRequest& request, const PourReport& report, const Look& look) {
  const auto lines = pourLines(request, report);
  const std::string until = pourUntilHead(report);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    wrapped(fmt::format("{}. {}", i + 1, amountWords(lines[i].name, lines[i].add_ml, lines[i].add_g)), look.type.head);
    std::string more = lines[i].until.empty() ? "" : "until the " + until + " " + lines[i].until;
    if (report.lines && i < report.lines->each.size()) {
      int line = 0;
      for (std::size_t k = 0; k <= i; ++k) line += report.lines->each[k];
      more += fmt::format("{}line {} of {} on a cup with lines", more.empty() ? "" : "; ", line, report.lines->total);
    }
    if (!lines[i].off.empty()) more += fmt::format("{}this amount within {}", more.empty() ? "" : "; ", lines[i].off);
    ImGui::Indent(1.5f * ImGui::GetFontSize());
    wrapped(more);
    ImGui::Unindent(1.5f * ImGui::GetFontSize());
  }
}

void pourAnswer(const PourRequest& request, const PourReport& report, const Look& look) {
  std::string total = mlWords(report, report.total_ml);
  if (report.total_g) total += ", " + gramWords(report, *report.total_g);
  wrapped(total, look.type.large);
  if (report.fills > 1) wrapped(fmt::format("In {} equal fills, since one cup does not take it all. Each of them:", report.fills));
  pouringsInOrder(request, report, look);
  ImGui::Spacing();
  const std::string least = report.smallest_ml >= 100 ? fmt::format("{:.0f} mL", report.smallest_ml) : mlWords(report, report.smallest_ml);
  if (report.smallest_ml > 0) itemLine(fmt::format("The least that can be poured like that with a ratio within {:.0f} %: {}.", 100 * kWorstRatioError, least).c_str(), look);
  for (const std::string& one : report.sentences) itemLine(one.c_str(), look);
  if (!report.cautions.empty()) {
    heading("Mind", look);
    for (const Caution& one : report.cautions) cautionLine(windowWords(one).c_str(), look);
  }
  heading("Before you spray", look);
  for (const std::string& one : sprayCautions()) cautionLine(one.c_str(), look);
}

}  // namespace

void drawPour(DeskState& desk, Drawing& d) {
  PourViewState& cup = desk.series.cup;
  heading("Pour", d.look);
  const auto before = pourRequestOf(cup, d.state);
  if (!before) {
    wrapped("There is no mix to pour yet: accept one of the readings (A), or spray a panel so that a next mix can be worked out.");
    return;
  }
  wrapped(fmt::format("{}; {}; {}.", recipeWords(before->recipe), coatsWords(*before->need.coats), poursAccepted(d.state) ? "the mix that was accepted" : "the mix advised next, since none was accepted yet"));
  pourFields(cup, *before, desk.series.trouble);
  if (!desk.series.trouble.empty()) cautionLine(desk.series.trouble.c_str(), d.look);
  const auto request = pourRequestOf(cup, d.state);
  if (std::string trace = pourTrace(*request); trace != cup.asked) {
    cup.asked = std::move(trace);
    d.out.push_back(act::WorkOutPour{*request});
  }
  ImGui::Separator();
  const PourShown& shown = d.state.pour;
  if (!shown.trouble.empty()) cautionLine(shown.trouble.c_str(), d.look);
  else if (shown.report) pourAnswer(shown.request, *shown.report, d.look);
  else wrapped("Working it out \u2026");
}

}  // namespace huewright::desk
