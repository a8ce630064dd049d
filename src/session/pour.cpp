#include "session/pour.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <new>
#include <numeric>

#include "base/text.hpp"
#include "paper/pour_page.hpp"
#include "photo/write.hpp"
#include "session/pour_words.hpp"

namespace huewright {
namespace {

constexpr double kUsualScaleStep = 0.1, kUsualReading = 1;  // g, mL: common practice, no source
constexpr double kMostPoured = 1e5;                         // mL
constexpr std::size_t kLongestTitle = 60;

std::string loweredEnding(const std::filesystem::path& path) {
  std::string ending = path.extension().string();
  std::ranges::transform(ending, ending.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return ending;
}

bool isPage(const std::string& ending) { return ending == ".html" || ending == ".htm"; }

std::optional<Problem> wrongWords(const PourRequest& request) {
  std::vector<const std::string*> words{&request.title};
  for (const PourTint& tint : request.recipe.tints) words.push_back(&tint.name);
  for (const PourArea& area : request.need.areas) words.push_back(&area.name);
  for (const std::string* text : words) {
    if (!isPlainUtf8(*text)) return Problem{Code::BadChoice, "\"" + asPlainUtf8(*text) + "\" has characters that cannot be printed. Give names in plain letters"};
    if (text->size() > kLongestTitle) return Problem{Code::BadChoice, fmt::format("\"{}\" is too long for the sheet. Keep names and title under {} letters", *text, kLongestTitle)};
  }
  return {};
}

std::optional<Problem> wrongPour(const PourRequest& request) {
  if (auto problem = wrongWords(request)) return problem;
  if (auto problem = wrongRecipe(request.recipe)) return problem;
  if (request.volume_ml && !request.need.areas.empty()) return Problem{Code::BadChoice, "Both --volume and --area were given. Keep one of the two"};
  if (request.volume_ml && !(*request.volume_ml > 0 && *request.volume_ml <= kMostPoured))
    return Problem{Code::BadNumber, fmt::format("The volume is {:g} mL. Give a number above 0 and up to {:g}", *request.volume_ml, kMostPoured)};
  if (request.cup_ml && !(*request.cup_ml >= 1 && *request.cup_ml <= kMostPoured))
    return Problem{Code::BadNumber, fmt::format("The cup takes {:g} mL. Give a number from 1 to {:g}", *request.cup_ml, kMostPoured)};
  if (request.paper != "a4" && request.paper != "letter") return Problem{Code::BadChoice, "\"" + request.paper + "\" is not a word for --paper. Say a4 or letter"};
  for (const auto& path : request.out)
    if (const std::string ending = loweredEnding(path); ending != ".pdf" && !isPage(ending))
      return Problem{Code::BadChoice, "The sheet is a PDF or a web page, and \"" + path.string() + "\" is not named like one. Let the name end in .pdf or .html"};
  return {};
}

Result<PourGauge> gaugeFor(const PourRequest& request) {
  const bool by_weight = mixDensity(request.recipe).has_value();
  if (!request.gauge) return by_weight ? PourGauge{PourBy::Scale, kUsualScaleStep} : PourGauge{PourBy::Cup, kUsualReading};
  const PourGauge& gauge = *request.gauge;
  if (gauge.by == PourBy::Cup && !(gauge.step >= 0.01 && gauge.step <= 100))
    return fail(Code::BadNumber, fmt::format("The reading error of the cup is {:g} mL. Give a number from 0.01 to 100", gauge.step));
  if (gauge.by == PourBy::Scale && !(gauge.step >= 0.0001 && gauge.step <= 100))
    return fail(Code::BadNumber, fmt::format("The step of the scale is {:g} g. Give a number from 0.0001 to 100", gauge.step));
  if (gauge.by == PourBy::Scale && !by_weight)
    for (std::size_t i = 0; i < request.recipe.ingredients(); ++i)
      if (pourFractions(request.recipe)[i] > 0 && !request.recipe.densityOf(i))
        return fail(Code::BadChoice, fmt::format("Weighing takes every density, and that of {} is missing. Give it from the data sheet with --density, or pour by the lines of a cup", request.recipe.nameOf(i)));
  return gauge;
}

Result<CupContent> contentOf(const PourRecipe& recipe, const PourHeld& held) {
  CupContent content{held.amount, held.parts, held.carrier};
  if (!held.grams || held.parts.size() != recipe.tints.size()) return content;  // topUp says what is wrong
  PourRecipe there = recipe;
  for (std::size_t i = 0; i < there.tints.size(); ++i) there.tints[i].parts = held.parts[i];
  there.carrier = held.carrier;
  if (wrongRecipe(there)) return content;
  const auto density = mixDensity(there);
  if (!density) return fail(Code::BadChoice, "What is in the cup was given in grams, and that takes every density. Give them with --density, or the amount in millilitres");
  content.ml = held.amount / *density;
  return content;
}

Result<void> fitInto(const PourRequest& request, PourReport& report) {
  const std::size_t count = request.recipe.ingredients();
  report.in_cup_ml.assign(count, 0.0);
  if (request.held) {
    const auto content = contentOf(request.recipe, *request.held);
    if (!content) return std::unexpected(content.error());
    const auto top = topUp(request.recipe, *content, report.wanted_ml);
    if (!top) return std::unexpected(top.error());
    report.top_up = *top;
    report.total_ml = top->total_ml;
    report.in_cup_ml = top->in_cup;
    report.add_ml = top->add;
    if (request.cup_ml && report.total_ml > *request.cup_ml * (1 + 1e-9))
      return fail(Code::CupUnusable, fmt::format("the mix would grow to {:.1f} mL, and the cup takes {:g} mL", report.total_ml, *request.cup_ml));
    return {};
  }
  report.total_ml = report.wanted_ml;
  if (request.cup_ml) report.fills = cupFills(report.total_ml, *request.cup_ml);
  report.add_ml = pourFractions(request.recipe);
  for (double& ml : report.add_ml) ml *= report.total_ml / report.fills;
  return {};
}

}  // namespace

Result<PourReport> pour(const PourRequest& request) try {
  if (const auto problem = wrongPour(request)) return std::unexpected(*problem);
  PourReport report;
  const auto gauge = gaugeFor(request);
  if (!gauge) return std::unexpected(gauge.error());
  report.gauge = *gauge;
  if (request.volume_ml) {
    report.wanted_ml = *request.volume_ml;
  } else {
    const auto needed = volumeNeeded(request.need);
    if (!needed) return std::unexpected(needed.error());
    report.needed = *needed;
    report.wanted_ml = needed->ml;
  }
  if (const auto fits = fitInto(request, report); !fits) return std::unexpected(fits.error());
  report.order = pourings(request.recipe, report.add_ml, std::accumulate(report.in_cup_ml.begin(), report.in_cup_ml.end(), 0.0));
  if (const auto density = mixDensity(request.recipe)) report.total_g = report.total_ml * *density;
  const auto errors = pourErrors(request.recipe, report.gauge, report.add_ml, report.in_cup_ml);
  const auto smallest = smallestPour(request.recipe, report.gauge);
  if (!errors || !smallest) return fail(Code::Internal, "a pour by weight without a density");
  report.errors = *errors;
  report.smallest_ml = *smallest;
  if (!request.held) {
    std::vector<double> amounts;
    for (const Pouring& p : report.order) amounts.push_back(p.ml);
    report.lines = wholeCupParts(amounts);
  }
  report.sentences = pourSentences(request, report);
  report.cautions = pourCautions(request, report);
  const PourSheet sheet = pourSheet(request, report);
  std::vector<std::string> pages;  // all are made before the first is written
  for (const auto& path : request.out) {
    if (isPage(loweredEnding(path))) {
      pages.push_back(pourSheetHtml(sheet));
      continue;
    }
    auto pdf = pourSheetPdf(sheet);
    if (!pdf) return std::unexpected(pdf.error());
    pages.push_back(std::move(*pdf));
  }
  for (std::size_t i = 0; i < pages.size(); ++i)
    if (const auto written = writeWhole(request.out[i], pages[i]); !written) return std::unexpected(written.error());
  return report;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "this sheet");
}

}  // namespace huewright
