#include "mix/alternatives.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <optional>

#include "mix/mix_words.hpp"

namespace huewright {
namespace {

bool sameMix(const MixChoice& a, const MixChoice& b) { return a.parts == b.parts && a.coats == b.coats; }

std::string tradeOf(const MixChoice& other, const MixChoice& next, const MixLimits& limits) {
  std::string words;
  if (other.coats != next.coats)
    words = coatStepWords(std::abs(other.coats - next.coats)) + (other.coats < next.coats ? " less to spray" : " more to spray");
  const double further = other.de00 - next.de00;
  const std::string distance = std::abs(further) < 0.15 ? "as near" : fmt::format("{:.1f} {}", std::abs(further), further > 0 ? "further off" : "nearer");
  words += (words.empty() ? "" : ", ") + distance;
  if (const std::string step = stepWords(other); !step.empty()) words += ", " + step;
  if (other.coats < limits.even_coats && other.coats < next.coats) words += ", and so few coats may stripe";
  else if (other.share() > next.share() && other.coats < next.coats) words += ", and the stronger mix hides better";
  words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  return words + ".";
}

}  // namespace

std::string_view alternativeName(AlternativeKind kind) {
  constexpr std::array<std::string_view, 4> kNames{"same-coats", "same-parts", "stronger", "cup-line"};
  return kNames[static_cast<std::size_t>(kind)];
}

std::vector<Alternative> alternatives(const Aim& aim, const MixLimits& limits, const NextMix& next) {
  const MixChoice& chosen = next.choice;
  const std::vector<double> coats = coatsWithin(limits);
  std::vector<MixChoice> all;
  for (const auto& parts : wholeParts(2, limits.max_total_parts, limits.lines_only))
    for (const double n : coats) all.push_back(aim.at(parts, n));
  std::ranges::sort(all, {}, &MixChoice::score);

  using Fits = std::function<bool(const MixChoice&)>;
  const std::array<std::pair<AlternativeKind, Fits>, 4> kinds{{
      {AlternativeKind::SameCoats, [&](const MixChoice& c) { return c.coats == chosen.coats; }},
      {AlternativeKind::SameParts, [&](const MixChoice& c) { return c.parts == chosen.parts; }},
      {AlternativeKind::Stronger, [&](const MixChoice& c) { return c.share() > chosen.share() + 1e-9 && c.coats < chosen.coats; }},
      {AlternativeKind::CupLine, [&](const MixChoice& c) { return std::ranges::min(c.parts) == 1; }},
  }};
  std::vector<Alternative> out;
  const auto isNew = [&](const MixChoice& c) {
    return !sameMix(c, chosen) && std::ranges::none_of(out, [&](const Alternative& a) { return sameMix(a.choice, c); });
  };
  const bool on_a_line = std::ranges::min(chosen.parts) == 1;
  for (const auto& [kind, fits] : kinds) {
    if (out.size() == 3 || (kind == AlternativeKind::CupLine && on_a_line)) break;
    const auto found = std::ranges::find_if(all, [&](const MixChoice& c) { return fits(c) && isNew(c); });
    if (found == all.end() || found->de00 > chosen.de00 + kWorthTrying) continue;
    const MixChoice other = aim.withRange(*found);
    out.push_back({kind, other, tradeOf(other, chosen, limits)});
  }
  return out;
}

}  // namespace huewright
