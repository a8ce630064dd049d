#include "session/report_text.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "session/wrapped.hpp"

namespace huewright {
namespace {

/// One colour with its spread, unless it is exact.
std::string colourLine(const std::string& name, std::size_t width, const ColourReading& r, bool exact, const ColourBlock& block) {
  std::string line = "  " + name;
  line.resize(width, ' ');
  if (block) line += block(r.lab) + "  ";
  const auto tenths = [](double v) { return std::round(10 * v) / 10 + 0.0; };  // never "-0.0"
  line += fmt::format("L* {:5.1f}  a* {:6.1f}  b* {:6.1f}", tenths(r.lab.L), tenths(r.lab.a), tenths(r.lab.b));
  if (!exact) line += fmt::format("   ±{:.1f} ±{:.1f} ±{:.1f}", 1.96 * r.lab_sd[0], 1.96 * r.lab_sd[1], 1.96 * r.lab_sd[2]);
  return line + "\n";
}

/// Every cause with the parts that matter of it; the sum as the eye adds: by squares.
std::string budgetText(const Verdict& v) {
  constexpr double kTold = 0.005;  // a smaller part would read 0.00
  double all = 0;
  for (const double part : v.budget) all += part * part;
  std::string out = fmt::format("\nWhat the uncertainty is made of (one standard deviation of ΔE00; together {:.2f})\n", std::sqrt(all));
  for (std::size_t c = 0; c < kCauseCount; ++c) {
    const auto cause = static_cast<Cause>(c);
    std::string name(causeName(cause));
    std::ranges::replace(name, '_', ' ');
    out += fmt::format("  {:<12}{:.2f}\n", name, ofCause(v.budget, cause));
    for (std::size_t p = 0; p < kPartCount; ++p) {
      const auto part = static_cast<Part>(p);
      if (causeOf(part) == cause && v.budget[p] >= kTold) out += fmt::format("    {:.2f}  {} ({})\n", v.budget[p], partWords(part), originWords(originOf(part)));
    }
  }
  return out;
}

/// How far a photo can be trusted, where that is not fully, or said by a caution already.
std::string trustLine(const Trust& trust, std::size_t width) {
  const bool more = std::ranges::any_of(trust.reasons, [](const TrustReason& r) { return r.code != TrustCode::ToneLocal; });
  return more ? wrapped("- " + trust.sentence + (trust.better.empty() ? "" : " " + trust.better.front()), width, 2, 2) : std::string();
}

/// What a second look showed: its own verdict, and what the two say together.
std::string viewText(const std::optional<ViewReport>& view, std::string_view what, std::size_t main, std::size_t width) {
  if (!view) return {};
  std::string out = fmt::format("\n{} ({})\n", what, view->file.filename().string());
  out += wrapped(view->verdicts[main].sentence, width, 2, 0) + wrapped(view->sentence, width, 2, 0);
  out += trustLine(view->trust, width);
  for (const Caution& caution : view->reading.cautions)
    if (caution.code != CautionCode::AbsoluteNotTrusted) out += wrapped("- " + sentence(caution), width, 2, 2);
  return out;
}

}  // namespace

std::string reportText(const JudgeReport& report, bool explain, const ColourBlock& block) {
  constexpr std::size_t kWidth = 96;
  const Reading& reading = report.reading;
  const std::size_t panels = reading.panels.size();
  std::string out;
  for (std::size_t i = 0; i < panels; ++i)
    if (!report.stepped || i == report.main) out += wrapped(report.verdicts[i].sentence, kWidth, 0);
  if (!report.ranking.sentence.empty()) out += wrapped(report.ranking.sentence, kWidth, 0);
  if (report.swap)
    out += wrapped(fmt::format("Averaged over two shots, panel and card changed over. They differ by {:.1f} in ΔE00; the place alone made the panel "
                               "{:.1f} % {} against the card.",
                               report.swap->apart, 100 * std::abs(std::expm1(report.swap->brightness)), report.swap->brightness < 0 ? "darker" : "lighter"),
                   kWidth, 0);
  if (const auto& r = report.repeats) {
    const std::string one = r->used == 1 ? std::string("One photo was used.") : fmt::format("{} photos together; from one to the next their difference scatters by ΔE00 {:.2f} along an axis.", r->used, r->scatter);
    out += wrapped(one, kWidth, 0);
  }
  out += "\n";
  std::size_t width = 12;
  for (const std::string& name : report.names) width = std::max(width, name.size() + 4);
  for (std::size_t i = 0; i < panels; ++i) out += colourLine(report.names[i], width, reading.panels[i], false, block);
  out += colourLine("card", width, reading.card, !reading.card_in_photo, block);
  if (const auto& kept = reading.grey.colour) out += colourLine("kept grey", width, {kept->lab, kept->lab_sd, {}}, false, block);

  for (const std::string& said : tagSentences(report)) out += wrapped(said, kWidth, 2);

  out += viewText(report.also, "In the second light", report.main, kWidth);
  out += viewText(report.flop, "On the flop", report.main, kWidth);
  if ((panels == 1 || report.stepped) && !report.advice.actions.empty()) {
    out += "\nWhat to do\n";
    int n = 0;
    for (const Step& step : report.advice.actions) out += wrapped(fmt::format("{}. {}", ++n, step.sentence), kWidth, 2, 3);
  }
  if (explain) {
    out += budgetText(report.verdicts[report.main]);
    if (const auto floor = report.advice.spray_floor)
      out += wrapped(fmt::format("Spraying adds its own: the same mix and coats on another panel come out about {:.2f} apart (one standard deviation; film build "
                                 "within {:.0f} %, common practice).",
                                 *floor, 100 * kFilmBuild),
                     kWidth, 2);
  }
  return out + careText(report);
}

std::string careText(const JudgeReport& report) {
  constexpr std::size_t kWidth = 96;
  std::string out = trustLine(report.trust, kWidth);
  for (const Caution& caution : report.cautions) out += wrapped("- " + sentence(caution), kWidth, 2, 2);
  return out.empty() ? out : "\nTake with care\n" + out;
}

std::string verdictSentences(const JudgeReport& report) {
  std::string line;
  for (std::size_t i = 0; i < report.verdicts.size(); ++i)
    if (!report.stepped || i == report.main) line += (line.empty() ? "" : " ") + report.verdicts[i].sentence;
  if (!report.ranking.sentence.empty()) line += " " + report.ranking.sentence;
  return line;
}

std::vector<std::string> tagSentences(const JudgeReport& report) {
  std::vector<std::string> out;
  for (const TagReport& tag : report.tags)
    if (tag.panel) {
      const std::string whose = report.stepped ? "the stepped panel" : report.names[*tag.panel] == "panel" ? "the panel" : report.names[*tag.panel], facts = tagFacts(tag.text);
      out.push_back(fmt::format("The tag \"{}\" names {}{}{}.", tag.text.name, whose, facts.empty() ? "" : ": ", facts));
    }
  return out;
}

}  // namespace huewright
