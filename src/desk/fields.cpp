#include "desk/fields.hpp"

#include <array>
#include <cstring>
#include <fmt/format.h>
#include <imgui.h>

#include "base/text.hpp"
#include "mix/series.hpp"

namespace huewright::desk {
namespace {

constexpr std::size_t kLongestField = 256;

/// What stands in the field that has the keyboard; ImGui lets only one have it.
struct BeingTyped {
  ImGuiID field = 0;
  std::string text;
};
BeingTyped being_typed;

/// The text when the field was left after a change, else nothing.
std::optional<std::string> lineField(const char* name, const std::string& stands, std::size_t most, float width, const char* tip, const char* hint) {
  std::array<char, kLongestField> text{};
  std::memcpy(text.data(), stands.data(), std::min(stands.size(), text.size() - 1));
  // Tab goes from field to field while one is typed in; else it is a key of the page.
  const bool typing = ImGui::GetIO().WantTextInput;
  ImGui::PushAllowKeyboardFocus(typing);
  ImGui::SetNextItemWidth(width);
  const bool edited = ImGui::InputTextWithHint(name, hint, text.data(), std::min(text.size(), most + 1), ImGuiInputTextFlags_AutoSelectAll);
  ImGui::PopAllowKeyboardFocus();
  const ImGuiID id = ImGui::GetID(name);
  // ImGui says "edited" while the text differs from what stands.
  if (edited || ImGui::IsItemActive()) being_typed = {id, text.data()};
  std::optional<std::string> out;
  const bool taken_back = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape));
  if (ImGui::IsItemDeactivatedAfterEdit() && being_typed.field == id && !taken_back) out = being_typed.text;
  if (ImGui::IsItemDeactivated() && being_typed.field == id) being_typed = {};
  if (ImGui::IsItemHovered() && !ImGui::IsItemActive() && *tip) ImGui::SetTooltip("%s", tip);
  return out;
}

std::string withPoint(std::string text) {
  for (char& c : text)
    if (c == ',') c = '.';
  return text;
}

bool inRange(double value, const NumberRange& range) { return (range.above_low ? value > range.low : value >= range.low) && value <= range.high; }

}  // namespace

std::string fieldNumber(double value) {
  std::string out = fmt::format("{:.4f}", value + 0.0);
  out.erase(out.find_last_not_of('0') + 1);
  if (out.ends_with('.')) out.pop_back();
  return out;
}

Typed numberField(const char* name, std::optional<double>& value, const NumberRange& range, float width, const char* tip, const char* hint) {
  const std::string stands = value ? fieldNumber(*value) : "";
  const auto typed = lineField(name, stands, 24, width, tip, hint);
  if (!typed || *typed == stands) return Typed::Nothing;
  if (typed->find_first_not_of(' ') == std::string::npos) {
    value.reset();
    return Typed::Changed;
  }
  const auto number = numberOf(withPoint(*typed));
  if (!number || !inRange(*number, range)) return Typed::Wrong;
  if (value == number) return Typed::Nothing;
  value = number;
  return Typed::Changed;
}

Typed numberField(const char* name, double& value, const NumberRange& range, float width, const char* tip) {
  std::optional<double> maybe = value;
  const Typed typed = numberField(name, maybe, range, width, tip, "");
  if (typed != Typed::Changed) return typed;
  if (!maybe) return Typed::Wrong;
  value = *maybe;
  return Typed::Changed;
}

Typed textField(const char* name, std::string& value, std::size_t most, float width, const char* tip, const char* hint) {
  const auto typed = lineField(name, value, most, width, tip, hint);
  if (!typed || *typed == value) return Typed::Nothing;
  if (!isPlainUtf8(*typed)) return Typed::Wrong;
  value = *typed;
  return Typed::Changed;
}

bool stageField(const char* name, std::string& stage) {
  bool changed = false;
  if (ImGui::BeginCombo(name, stage.empty() ? "not told" : stage.c_str())) {
    if (ImGui::Selectable("not told", stage.empty()) && !stage.empty()) stage.clear(), changed = true;
    for (const char* one : kStages)
      if (ImGui::Selectable(one, stage == one) && stage != one) stage = one, changed = true;
    ImGui::EndCombo();
  }
  if (ImGui::IsItemHovered()) ImGui::SetTooltip("Stage: how far the panel had come when it was read. A clear coat deepens the colour.");
  return changed;
}

std::string rangeSentence(const char* what, const NumberRange& range) {
  return fmt::format("{}: a number {} {} {} {}.", what, range.above_low ? "above" : "from", fieldNumber(range.low), range.above_low ? "and up to" : "to", fieldNumber(range.high));
}

}  // namespace huewright::desk
