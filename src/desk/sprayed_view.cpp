#include <algorithm>
#include <array>
#include <cfloat>
#include <fmt/format.h>
#include <imgui.h>

#include "base/text.hpp"
#include "desk/fields.hpp"
#include "desk/flow.hpp"
#include "desk/sheet.hpp"
#include "desk/signs.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

struct CardWord {
  CardKind kind;
  const char* words;
};
constexpr std::array<CardWord, kCardKindCount> kCardWords{{{CardKind::Unknown, "not known"},
                                                           {CardKind::Same, "the same paint as the panel"},
                                                           {CardKind::Similar, "much the same pigments"},
                                                           {CardKind::Printed, "printed"},
                                                           {CardKind::Other, "other pigments"}}};
constexpr std::array<const char*, 3> kEncodingsSaid{"as the file says", "linear", "sRGB"};

void label(const char* text) {
  ImGui::TableNextRow();
  ImGui::TableNextColumn();
  ImGui::AlignTextToFramePadding();
  wrapped(text);
  ImGui::TableNextColumn();
  ImGui::SetNextItemWidth(-FLT_MIN);
}

constexpr NumberRange kPartsRange{0, 1000}, kCoatsRange{0, 100, true}, kCarrierRange{0, 1000}, kGreyRange{0.02, 1};

float restOfRow() { return ImGui::GetContentRegionAvail().x; }

/// A number that may be left out. What is wrong with what was typed goes into the notes.
bool maybe(const char* name, std::optional<double>& value, const NumberRange& range, const char* what, const char* hint, std::string& wrong) {
  const Typed typed = numberField(name, value, range, restOfRow(), rangeSentence(what, range).c_str(), hint);
  if (typed == Typed::Wrong) wrong = rangeSentence(what, range);
  return typed == Typed::Changed;
}

/// "0,1,2,3": nothing when it is not that.
std::optional<std::vector<double>> listOf(const std::string& text) {
  std::vector<double> out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(',', at), text.size());
    const auto number = numberOf(text.substr(at, end - at));
    if (!number) return {};
    out.push_back(*number);
    at = end + 1;
  }
  return out;
}

std::string textOf(const std::vector<double>& list) {
  std::string out;
  for (const double n : list) out += fmt::format("{}{:g}", out.empty() ? "" : ",", n);
  return out;
}

bool partsFields(int id, Mix& mix, std::string& wrong) {
  const float half = 0.5f * (restOfRow() - 2 * ImGui::GetStyle().ItemSpacing.x - ImGui::CalcTextSize(":").x);
  const std::string tip = rangeSentence("Parts", kPartsRange);
  ImGui::PushID(id);
  const Typed strong = numberField("##strong", mix.strong, kPartsRange, half, tip.c_str());
  ImGui::SameLine();
  ImGui::TextUnformatted(":");
  ImGui::SameLine();
  const Typed weak = numberField("##weak", mix.weak, kPartsRange, half, tip.c_str());
  ImGui::PopID();
  if (strong == Typed::Wrong || weak == Typed::Wrong) wrong = tip;
  return strong == Typed::Changed || weak == Typed::Changed;
}

/// One mix for all panels, or one for each where several lie side by side. While some are still to be typed nothing is known of any.
bool mixFields(DeskState& desk, Choices& c, const SittingState& s, std::string& wrong) {
  const bool several = s.judged && s.judged->panels.size() > 1 && c.steps.empty();
  const std::size_t count = several ? s.judged->panels.size() : 1;
  std::vector<Mix>& mixes = desk.mixes_typed;
  if (!c.mixes.empty()) mixes = c.mixes;
  mixes.resize(count, c.mixes.size() == 1 ? c.mixes.front() : Mix{});
  bool changed = false;
  for (std::size_t i = 0; i < count; ++i) {
    label(several ? (s.judged->panels[i].name + ", strong to weak").c_str() : "Mix, strong to weak");
    changed |= partsFields(static_cast<int>(i), mixes[i], wrong);
  }
  if (!changed) return false;
  c.mixes = std::ranges::all_of(mixes, [](const Mix& m) { return m.strong + m.weak > 0; }) ? mixes : std::vector<Mix>{};
  return true;
}

bool stepFields(Choices& c, std::string& wrong) {
  label("Strips of a stepped panel");
  std::string text = textOf(c.steps);
  const Typed typed = textField("##steps", text, 60, restOfRow(), "The coats of a stepped panel's strips as the photo shows them, 0 for bare ground.", "such as 0,1,2,3");
  if (typed != Typed::Changed) return false;
  const auto steps = listOf(text);
  if (!steps) wrong = "The strips' coats are numbers with commas between them, such as 0,1,2,3.";
  else c.steps = *steps;
  return steps.has_value();
}

bool encodingField(Encoding& encoding) {
  bool changed = false;
  const auto at = static_cast<std::size_t>(encoding);
  if (ImGui::BeginCombo("##encoding", kEncodingsSaid[at])) {
    for (std::size_t i = 0; i < kEncodingsSaid.size(); ++i)
      if (ImGui::Selectable(kEncodingsSaid[i], i == at)) encoding = static_cast<Encoding>(i), changed = true;
    ImGui::EndCombo();
  }
  return changed;
}

bool cardFields(Choices& c, const SittingState& s) {
  bool changed = false;
  label("The card is");
  const auto now = std::ranges::find(kCardWords, c.card_kind, &CardWord::kind);
  if (ImGui::BeginCombo("##card", now->words)) {
    for (const CardWord& word : kCardWords)
      if (ImGui::Selectable(word.words, word.kind == c.card_kind)) c.card_kind = word.kind, changed = true;
    ImGui::EndCombo();
  }
  label("Near enough is");
  std::string said = fmt::format("ΔE00 {:g}", c.tolerance);
  for (const Situation& one : s.situations)
    if (one.tolerance == c.tolerance) said = fmt::format("ΔE00 {:g}: {}", one.tolerance, one.meaning);
  if (ImGui::BeginCombo("##tolerance", said.c_str())) {
    for (const Situation& one : s.situations)
      if (ImGui::Selectable(fmt::format("ΔE00 {:g}: {}", one.tolerance, one.meaning).c_str(), one.tolerance == c.tolerance)) c.tolerance = one.tolerance, changed = true;
    ImGui::EndCombo();
  }
  label("Wanted colour in numbers");
  bool numbers = c.card_lab.has_value();
  if (ImGui::Checkbox("Lab (D50), without a card", &numbers)) {
    c.card_lab = numbers ? std::optional(Lab<D50>{50, 0, 0}) : std::nullopt;
    changed = true;
  }
  if (c.card_lab) {
    std::array<double, 3> lab{c.card_lab->L, c.card_lab->a, c.card_lab->b};
    ImGui::SetNextItemWidth(-FLT_MIN);
    if (ImGui::InputScalarN("##lab", ImGuiDataType_Double, lab.data(), 3, nullptr, nullptr, "%.2f")) {
      c.card_lab = Lab<D50>{lab[0], lab[1], lab[2]};
      changed = true;
    }
  }
  return changed;
}

bool photoFields(Choices& c, const SittingState& s, std::string& wrong) {
  bool changed = false;
  label("The grey patch");
  changed |= maybe("##grey", c.grey_y, kGreyRange, "The grey's lightness as a share of white", s.kept_grey && c.kept_grey ? "the kept grey" : "such as 0.18", wrong);
  if (s.kept_grey) {
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    ImGui::TableNextColumn();
    changed |= ImGui::Checkbox("use the kept grey", &c.kept_grey);
  }
  label("A colour chart in the photo");
  changed |= ImGui::Checkbox("is used by itself", &c.use_chart);
  label("Camera profile");
  if (c.profile) {
    wrapped(c.profile->filename().string());
    if (button(Do::WithoutProfile)) c.profile.reset(), changed = true;
  } else {
    wrapped("none; see the page Camera");
  }
  label("The photo's values");
  changed |= encodingField(c.encoding);
  return changed;
}

}  // namespace

void drawSprayed(DeskState& desk, Drawing& d) {
  beginSheet("how sprayed", 700, 680, d.look);
  wrapped("How it was sprayed", d.look.type.head);
  Choices c = d.state.plan.choices;
  bool changed = false;
  std::string& wrong = desk.sprayed_wrong;
  const auto columns = [&](const char* name) {
    const bool open = ImGui::BeginTable(name, 2);
    if (open) {
      ImGui::TableSetupColumn("what", ImGuiTableColumnFlags_WidthFixed, 210 * d.look.scale);
      ImGui::TableSetupColumn("value");
    }
    return open;
  };
  if (columns("sprayed")) {
    changed |= mixFields(desk, c, d.state, wrong);
    label("Coats");
    changed |= maybe("##coats", c.coats, kCoatsRange, "Coats", c.steps.empty() ? "such as 4" : "stepped", wrong);
    changed |= stepFields(c, wrong);
    label("Carrier to one of tint");
    changed |= maybe("##carrier", c.carrier, kCarrierRange, "Volumes of carrier to one of tint", "such as 5", wrong);
    label("Stage");
    changed |= stageField("##stage", c.stage);
    ImGui::EndTable();
  }
  ImGui::Dummy({0, 6 * d.look.scale});
  wrapped("How it is judged", d.look.type.head);
  if (columns("judged")) {
    changed |= cardFields(c, d.state);
    changed |= photoFields(c, d.state, wrong);
    ImGui::EndTable();
  }
  if (changed) {
    wrong.clear();
    d.out.push_back(act::SetChoices{c, false});
  }
  if (!wrong.empty()) cautionLine(wrong.c_str(), d.look);
  ImGui::Dummy({0, 8 * d.look.scale});
  if (button(Do::SprayedDone)) desk.sprayed = false;
  if (!endSheet()) desk.sprayed = false;
  if (!desk.sprayed) {
    desk.mixes_typed.clear();
    wrong.clear();
  }
}

}  // namespace huewright::desk
