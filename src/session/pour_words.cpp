#include "session/pour_words.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

#include "base/text.hpp"

namespace huewright {
namespace {

constexpr std::size_t kMostAreasNamed = 4;  // at the head of the sheet; the notes have all

constexpr double kFarOff = 0.5;  // relative; beyond it a first-order error means no more than that the amount cannot be poured so

double inSteps(double value, double step) { return std::round(value / step) * step; }

/// So many digits that a multiple of the step is written out.
int digitsOf(double step) {
  int digits = 0;
  for (double s = step; digits < 4 && std::abs(s - std::round(s)) > 1e-6 * s; s *= 10) ++digits;
  return digits;
}

std::string stepped(double value, double step, std::string_view unit) { return fmt::format("{:.{}f} {}", inSteps(value, step) + 0.0, digitsOf(step), unit); }

double mlStep(const PourReport& report) {
  const double fill = report.total_ml / report.fills;
  if (fill >= 20000) return 1;
  return fill < 20 || (report.gauge.by == PourBy::Cup && report.gauge.step < 0.2) ? 0.01 : 0.1;
}

double gramStep(const PourReport& report) { return report.gauge.by == PourBy::Scale ? report.gauge.step : 0.1; }

/// Of an error, relative.
std::string percent(double share) {
  if (share > 0 && share < 5e-4) return "0.1 %";
  if (share > kFarOff) return fmt::format("over {:.0f} %", 100 * kFarOff);
  return fmt::format("{:.{}f} %", 100 * share, share < 0.0995 ? 1 : 0);
}

std::string offWords(double error) { return error > kFarOff ? fmt::format(">{:.0f} %", 100 * kFarOff) : "±" + percent(error); }

/// "24.8": a share in percent, with so many digits that an error of that size is seen in it.
std::string shareWords(double share, double off) { return fmt::format("{:.{}f}", 100 * std::clamp(share, 0.0, 1.0), off < 1e-3 ? 2 : 1); }

std::string heldSum(const CupTopUp& top, const PourReport& report) { return mlWords(report, std::accumulate(top.in_cup.begin(), top.in_cup.end(), 0.0)); }

/// "1:2 + 5 carrier".
std::string contentWords(const PourHeld& held) {
  std::string out;
  for (const double parts : held.parts) out += fmt::format("{}{:g}", out.empty() ? "" : ":", parts);
  return out + (held.carrier > 0 ? fmt::format(" + {:g} carrier", held.carrier) : ", no carrier");
}

std::string_view toolName(PourTool tool) { return tool == PourTool::Gun ? "spray gun" : "airbrush"; }

std::string coatWords(double coats) { return fmt::format("{:g} {}", coats, coats == 1 ? "coat" : "coats"); }

/// Of an estimate: no more digits than it is worth.
std::string roughMl(double ml) { return fmt::format("{:.{}f} mL", ml, ml < 10 ? 1 : 0); }

/// The sheet's lines do not break between a number and its unit.
std::string unbroken(std::string text) {
  for (const std::string_view unit : {" %", " mL", " g", " µm", " m²"})
    for (auto at = text.find(unit); at != std::string::npos; at = text.find(unit, at + 1)) {
      const char before = at == 0 ? ' ' : text[at - 1];
      const std::size_t end = at + unit.size();
      const bool word_goes_on = end < text.size() && ((text[end] >= 'a' && text[end] <= 'z') || text[end] == '\'');
      if (before >= '0' && before <= '9' && !word_goes_on) text.replace(at, 1, "\u00A0");
    }
  return text;
}

/// What a finer reading must be, where a syringe can give it.
std::string syringeWords(double reading) {
  constexpr double kFinest = 0.01;  // mL; the lines of a 1 mL syringe
  if (reading < kFinest) return {};
  const double unit = std::pow(10, std::floor(std::log10(reading)));
  return fmt::format(", read each amount to {:g} mL (with a syringe)", std::floor(reading / unit + 1e-9) * unit);
}

std::string needSentence(const PourRequest& request, const PourReport& report) {
  const PourNeeded& need = *report.needed;
  std::string out = fmt::format("About {} are needed: {} land on the part ({:g} m², {}, {:.3g} µm of wet film each), {:.0f} % of what is sprayed is lost, and {} stay in the {}.",
                                roughMl(need.ml), roughMl(need.on_part_ml), need.m2, coatWords(*request.need.coats), need.film_um, 100 * need.loss,
                                roughMl(need.rest_ml), toolName(request.need.tool));
  if (need.most_ml > need.least_ml) {
    const PourToolFacts& usual = pourToolFacts(request.need.tool);
    out += fmt::format(" With a loss of {:.0f} to {:.0f} % it would be {} to {}.", 100 * usual.least_loss, 100 * usual.most_loss, roughMl(need.least_ml), roughMl(need.most_ml));
  }
  if (request.need.areas.size() > 1) {
    out += " Of it";
    for (std::size_t i = 0; i < need.each_ml.size(); ++i) out += fmt::format("{} {} {}", i == 0 ? "" : ";", request.need.areas[i].name, roughMl(need.each_ml[i]));
    out += ".";
  }
  return out;
}

std::string heldSentence(const PourReport& report) {
  const CupTopUp& top = *report.top_up;
  if (top.added_ml == 0) return fmt::format("The cup already holds the wanted mix, {}: nothing is to be added.", heldSum(top, report));
  std::string out = fmt::format("To the {} in the cup add {} in all, and take nothing out; that makes {}", heldSum(top, report), mlWords(report, top.added_ml), mlWords(report, report.total_ml));
  if (const double over = report.total_ml - report.wanted_ml; over >= mlStep(report)) out += fmt::format(", {} more than is needed", mlWords(report, over));
  return out + ".";
}

std::string errorSentence(const PourRequest& request, const PourReport& report) {
  const std::vector<double> shares = tintShares(request.recipe);
  const auto widest = static_cast<std::size_t>(std::ranges::max_element(report.errors.share) - report.errors.share.begin());
  std::string out = fmt::format("With {}, the ratio of any two of these may be off by {} at worst", report.gauge.by == PourBy::Scale ? fmt::format("a scale that shows steps of {:g} g", report.gauge.step)
                                : fmt::format("levels read to {:g} mL", report.gauge.step), percent(report.errors.ratio));
  if (const double off = report.errors.share[widest]; off > 0 && report.errors.ratio <= kFarOff)
    out += fmt::format(": the share of {} among the tints, meant to be {} %, then lies between {} and {} %", request.recipe.tints[widest].name, shareWords(shares[widest], off),
                       shareWords(shares[widest] - off, off), shareWords(shares[widest] + off, off));
  return out + ".";
}

std::string lineSentence(const PourRequest& request, const PourReport& report) {
  if (!report.lines) return fmt::format("These parts make no whole numbers on a cup of up to {} lines: go by the amounts.", kMostCupParts);
  std::string out = "On a cup with a scale of parts:";
  int line = 0;
  for (std::size_t i = 0; i < report.order.size(); ++i)
    out += fmt::format("{} line {} {}", i == 0 ? "" : ";", line += report.lines->each[i], request.recipe.nameOf(report.order[i].ingredient));
  return out + fmt::format(". One line is {}.", mlWords(report, report.total_ml / report.fills / report.lines->total));
}

}  // namespace

std::string mlWords(const PourReport& report, double ml) { return stepped(ml, mlStep(report), "mL"); }

std::string gramWords(const PourReport& report, double g) { return stepped(g, gramStep(report), "g"); }

std::string recipeWords(const PourRecipe& recipe) {
  std::string out;
  for (const PourTint& tint : recipe.tints) out += fmt::format("{}{} {:g}", out.empty() ? "" : " : ", tint.name, tint.parts);
  return recipe.carrier > 0 ? out + fmt::format(" + {:g} carrier", recipe.carrier) : out + ", no carrier";
}

std::vector<PourSheetLine> pourLines(const PourRequest& request, const PourReport& report) {
  std::vector<PourSheetLine> lines;
  const double ml_step = mlStep(report), g_step = gramStep(report);
  double ml = inSteps(std::accumulate(report.in_cup_ml.begin(), report.in_cup_ml.end(), 0.0), ml_step);
  double g = 0;
  bool weighed = true;  // so far
  for (const Pouring& p : report.order) {
    PourSheetLine line{request.recipe.nameOf(p.ingredient), {}, {}, {}, offWords(report.errors.amount[p.ingredient])};
    const double to_ml = inSteps(p.to_ml, ml_step);
    line.add_ml = stepped(to_ml - ml, ml_step, "mL");
    ml = to_ml;
    if (weighed && p.to_g) {
      const double to_g = inSteps(*p.to_g, g_step);
      line.add_g = stepped(to_g - g, g_step, "g");
      g = to_g;
    } else {
      weighed = false;
      if (p.g) line.add_g = stepped(*p.g, g_step, "g");
    }
    if (report.gauge.by == PourBy::Cup) line.until = stepped(ml, ml_step, "mL");
    else if (weighed) line.until = stepped(g, g_step, "g");
    lines.push_back(std::move(line));
  }
  return lines;
}

std::string pourUntilHead(const PourReport& report) { return report.gauge.by == PourBy::Scale ? "scale shows" : "cup shows"; }

std::vector<std::string> pourSentences(const PourRequest& request, const PourReport& report) {
  std::vector<std::string> out;
  if (report.needed) out.push_back(needSentence(request, report));
  if (report.top_up) out.push_back(heldSentence(report));
  if (report.fills > 1)
    out.push_back(fmt::format("A cup of {:g} mL takes it in {} equal fills of {}: the amounts are for one. Stir all of them together, so that they cannot differ.", *request.cup_ml, report.fills,
                              mlWords(report, report.total_ml / report.fills)));
  if (report.errors.ratio > 0) out.push_back(errorSentence(request, report));
  if (!report.top_up && report.smallest_ml > 0 && report.errors.ratio <= kWorstRatioError)
    out.push_back(fmt::format("The smallest amount with a ratio error of at most {:g} % is {:.0f} mL.", 100 * kWorstRatioError, std::ceil(report.smallest_ml)));
  if (!report.top_up && report.order.size() > 1) out.push_back(lineSentence(request, report));
  if (report.gauge.by == PourBy::Scale && !report.order.empty())
    out.push_back(report.top_up ? "Set the scale to zero with the cup and what is in it on the scale, then once only: it shows the running total."
                                : "Set the scale to zero with the empty cup on it, then once only: it shows the running total.");
  if (report.order.size() > 1) out.push_back("If too much of one goes in, take nothing out: add more of the others in the same measure.");
  out.push_back(fmt::format("Stir well, and strain the mix through {} µm or finer: usual for transparent coats (common practice).", kStrainerUm));
  out.push_back("Between coats wait as the data sheets of tint and carrier say, for your film, temperature and air.");
  return out;
}

std::vector<Caution> pourCautions(const PourRequest& request, const PourReport& report) {
  std::vector<Caution> out;
  const PourNeed& need = request.need;
  if (report.needed) {
    std::vector<std::string> assumed;
    if (!need.film_um && !need.coverage) assumed.push_back(fmt::format("{:g} µm of wet film a coat", report.needed->film_um));
    if (!need.loss) assumed.push_back(fmt::format("a loss of {:.0f} %", 100 * report.needed->loss));
    if (!need.rest_ml) assumed.push_back(fmt::format("{:g} mL that stay in the {}", report.needed->rest_ml, toolName(need.tool)));
    std::string words;
    for (std::size_t i = 0; i < assumed.size(); ++i) words += (i == 0 ? "" : i + 1 == assumed.size() ? " and " : ", ") + assumed[i];
    if (!assumed.empty()) out.push_back({CautionCode::PourAssumed, words + (assumed.size() > 1 || words.find(" that ") != std::string::npos ? " are assumed" : " is assumed")});
  }
  if (const auto& top = report.top_up) {
    if (top->too_much)
      out.push_back({CautionCode::CupGrows, fmt::format("The cup already holds more {} than {} of the wanted mix have", request.recipe.nameOf(*top->too_much), mlWords(report, report.wanted_ml))});
    if (top->fresh_is_less)
      out.push_back({CautionCode::FreshIsLess, fmt::format("To make this cup right takes {} of new paint; the {} that are needed, poured afresh, take less", mlWords(report, top->added_ml), mlWords(report, report.wanted_ml))});
  }
  if (report.errors.ratio > kWorstRatioError) {
    const double fill = report.total_ml / report.fills;
    std::string words = fmt::format("{} is too little to pour with a ratio error of at most {:g} %: it may be {}. ", mlWords(report, fill), 100 * kWorstRatioError, percent(report.errors.ratio));
    words += report.top_up ? "Pour more" : fmt::format("Pour at least {:.0f} mL at a time", std::ceil(report.smallest_ml));
    if (report.gauge.by == PourBy::Scale) words += fmt::format(", or weigh in steps of {:g} g or finer", scaleStepFor(report.gauge.step, report.errors.ratio));
    else words += syringeWords(report.gauge.step * kWorstRatioError / report.errors.ratio) + ", or weigh it";
    out.push_back({CautionCode::PourTooSmall, words});
  }
  return out;
}

const std::vector<std::string>& sprayCautions() {
  static const std::vector<std::string> kCautions{
      "Two-pack clear contains isocyanates, which harm the lungs for life: supplied air, or the respirator that its safety data sheet names; gloves and eye protection.",
      "Solvent vapour is harmful and burns: ventilate, and keep ignition sources away. Phones, cameras, lamps and ordinary scales can ignite it.",
      "Follow the safety data sheets of everything you mix and spray, your local codes, and licensed practice."};
  return kCautions;
}

PourSheet pourSheet(const PourRequest& request, const PourReport& report) {
  PourSheet sheet;
  sheet.title = request.title.empty() ? "Pour sheet" : "Pour sheet: " + request.title;
  sheet.mix = recipeWords(request.recipe);
  sheet.paper = request.paper;
  if (report.needed) {
    const auto& all = request.need.areas;
    std::string areas = all.size() > kMostAreasNamed ? fmt::format("{} parts, together {:g} m²", all.size(), report.needed->m2) : "";
    for (std::size_t i = 0; i < all.size() && all.size() <= kMostAreasNamed; ++i) areas += fmt::format("{}{}{:g} m²", i == 0 ? "" : ", ", all[i].name.empty() ? "" : all[i].name + " ", all[i].m2);
    sheet.facts.push_back(fmt::format("For {}; {}, {}.", areas, coatWords(*request.need.coats), toolName(request.need.tool)));
    sheet.coats = static_cast<int>(std::ceil(*request.need.coats));
  }
  std::string amount = "Finished mix: " + mlWords(report, report.total_ml);
  if (report.total_g) amount += fmt::format(", {}", gramWords(report, *report.total_g));
  if (report.fills > 1) amount += fmt::format(", in {} equal fills; the amounts are for one", report.fills);
  if (report.top_up) amount += fmt::format("; {} of it are in the cup already ({})", heldSum(*report.top_up, report), contentWords(*request.held));
  sheet.facts.push_back(amount + ".");
  sheet.until_head = pourUntilHead(report);
  sheet.lines = pourLines(request, report);
  const double fill = report.total_ml / report.fills;
  const double held = std::accumulate(report.in_cup_ml.begin(), report.in_cup_ml.end(), 0.0);
  if (held > 0) sheet.layers.push_back({held / fill, "in it: " + mlWords(report, held), {}, true});
  int line = 0;
  for (std::size_t i = 0; i < report.order.size(); ++i) {
    PourSheetLayer layer{report.order[i].to_ml / fill, fmt::format("{}:  {}", i + 1, mlWords(report, report.order[i].to_ml)), {}, false};
    if (report.lines) layer.mark = std::to_string(line += report.lines->each[i]);
    sheet.layers.push_back(std::move(layer));
  }
  sheet.cup_caption = report.lines ? fmt::format("Straight walls. Left: line of a scale of parts with {} lines. Right: level after each pouring.", report.lines->total)
                                   : "Straight walls. Right: level after each pouring.";
  for (const Caution& caution : report.cautions) sheet.notes.push_back(unbroken(sentence(caution)));
  for (const std::string& words : report.sentences) sheet.notes.push_back(unbroken(words));
  sheet.cautions = sprayCautions();
  return sheet;
}

}  // namespace huewright
