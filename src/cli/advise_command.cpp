#include "cli/advise_command.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "cli/help.hpp"
#include "cli/terminal.hpp"
#include "mix/mix_words.hpp"

namespace huewright {
namespace {

constexpr std::size_t kAdviceWidth = 96;

/// The one series that a command takes.
Result<std::string> oneSeries(const Arguments& arguments) {
  if (arguments.files.empty()) return fail(Code::BadChoice, "No series was given. Name the series file, such as the one that huewright judge --series writes");
  if (arguments.files.size() > 1) return fail(Code::BadChoice, arguments.command + " takes one series, and " + std::to_string(arguments.files.size()) + " files were named");
  return arguments.files.front();
}

std::string block(const Lab<D50>& lab, bool blocks) { return blocks ? colourBlock(lab) + " " : ""; }

std::string labWords(const Lab<D50>& lab) { return fmt::format("Lab {:.1f}, {:.1f}, {:.1f}", lab.L + 0.0, lab.a + 0.0, lab.b + 0.0); }

std::string plotLine(const std::filesystem::path& plot) { return filled("\nThe drawing is in {}.\n", plot.string()); }

std::string takeWithCare(const std::vector<Caution>& cautions) {
  if (cautions.empty()) return {};
  std::string out = "\nTake with care\n";
  for (const Caution& caution : cautions) out += wrapped("- " + sentence(caution), kAdviceWidth, 2, 2);
  return out;
}

}  // namespace

Result<double> partCoats(const std::string& text) {
  const auto end = text.find(' ');
  const auto number = numberOf(text.substr(0, end));
  const std::string rest = end == std::string::npos ? "" : text.substr(end + 1);
  const bool said = rest.empty() || rest == "coat" || rest == "coats" || rest == "coat so far" || rest == "coats so far";
  if (!number || !said || *number <= 0 || *number > 60) return fail(Code::BadNumber, "--part takes the coats on the part, such as \"3 coats so far\", and \"" + text + "\" is not that");
  return *number;
}

Result<AdviseRequest> adviseRequest(const Arguments& arguments) {
  AdviseRequest request;
  const auto series = oneSeries(arguments);
  if (!series) return std::unexpected(series.error());
  request.series = *series;
  if (const std::string* tints = arguments.value("--tints")) request.tints = *tints;
  if (const std::string* save = arguments.value("--save-tints")) request.save_tints = *save;
  if (const std::string* shelf = arguments.value("--shelf")) request.shelf = *shelf;
  if (const std::string* plot = arguments.value("--plot")) request.plot = *plot;
  if (request.shelf && (request.tints || request.save_tints || request.plot || arguments.has("--part")))
    return fail(Code::BadChoice, "--shelf stands alone: give it without --tints, --save-tints, --part and --plot");
  if (const std::string* part = arguments.value("--part")) {
    const auto coats = partCoats(*part);
    if (!coats) return std::unexpected(coats.error());
    request.part_coats = *coats;
  }
  return request;
}

Result<GroundsRequest> groundsRequest(const Arguments& arguments) {
  GroundsRequest request;
  const auto series = oneSeries(arguments);
  if (!series) return std::unexpected(series.error());
  request.series = *series;
  if (const std::string* tints = arguments.value("--tints")) request.tints = *tints;
  if (const std::string* plot = arguments.value("--plot")) request.plot = *plot;
  return request;
}

std::string adviseText(const AdviseRequest& request, const AdviseReport& report, bool blocks) {
  const Advice& advice = report.advice;
  std::string out = wrapped(advice.sentence, kAdviceWidth, 0);
  if (advice.next && !advice.part) {
    out += fmt::format("\n{}expected {}\n", block(advice.next->choice.lab, blocks), labWords(advice.next->choice.lab));
    if (report.series.target) out += fmt::format("{}wanted   {}\n", block(*report.series.target, blocks), labWords(*report.series.target));
  }
  if (!advice.alternatives.empty() && !advice.part) {
    out += "\nOther ways\n";
    for (const Alternative& other : advice.alternatives)
      out += wrapped(fmt::format("- {}{}, ΔE00 {}. {}", block(other.choice.lab, blocks), mixWords(other.choice), distanceWords(other.choice), other.trade), kAdviceWidth, 2, 2);
  }
  if (report.shelf_mixes.size() > 1) {
    out += "\nOther mixes off the shelf\n";
    for (std::size_t i = 1; i < report.shelf_mixes.size(); ++i) {
      const ShelfMix& mix = report.shelf_mixes[i];
      std::string tints;
      for (std::size_t t = 0; t < mix.tints.size(); ++t) tints += fmt::format("{}{} \"{}\"", t == 0 ? "" : " + ", mix.choice.parts[t], report.shelf_names[mix.tints[t]]);
      out += wrapped(fmt::format("- {}, {}, ΔE00 {}", tints, coatsWords(mix.choice.coats), distanceWords(mix.choice)), kAdviceWidth, 2, 2);
    }
  }
  for (const ClearForecast& forecast : advice.forecasts) out += fmt::format("\nPanel {} cleared: {} (within about {:.1f} ΔE00)\n", forecast.panel + 1, labWords(forecast.lab), 2 * forecast.sd);
  if (request.save_tints) out += filled("\nThe tints are kept in {}.\n", request.save_tints->string());
  if (request.plot) out += plotLine(*request.plot);
  return out + takeWithCare(advice.cautions);
}

std::string groundsText(const GroundsRequest& request, const GroundsReport& report, bool blocks) {
  std::string out = fmt::format("{} {}, {}:\n", report.next_parts.empty() ? "The accepted mix" : "The mix advised next,", partsWords(report.strong, report.weak), coatsWords(report.coats));
  std::size_t widest = 0;
  for (const GroundLook& look : report.looks) widest = std::max(widest, look.name.size());
  for (const GroundLook& look : report.looks)
    out += fmt::format("  {}{:<{}}  {}{}\n", block(look.lab, blocks), look.name, widest, labWords(look.lab), look.words.empty() ? "" : fmt::format("  {} (ΔE00 {:.1f})", look.words, look.de00));
  if (request.plot) out += plotLine(*request.plot);
  return out + takeWithCare(report.cautions);
}

}  // namespace huewright
