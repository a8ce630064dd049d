#include "cli/pour_command.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <span>

#include "base/text.hpp"
#include "cli/help.hpp"
#include "session/pour_words.hpp"

namespace huewright {
namespace {

constexpr std::string_view kStrongTint = "strong tint", kWeakTint = "weak tint";

/// "frame=0.35": what stands before the last = and the number after it; without one, the number alone.
struct NamedNumber {
  std::string name;
  std::optional<double> number;
};

NamedNumber namedNumber(const std::string& text) {
  const auto at = text.rfind('=');
  if (at == std::string::npos) return {{}, numberOf(text)};
  return {text.substr(0, at), numberOf(std::string_view(text).substr(at + 1))};
}

/// "1:3:0": numbers between colons.
std::optional<std::vector<double>> partsOf(std::string_view text) {
  std::vector<double> parts;
  while (true) {
    const auto at = text.find(':');
    const auto n = numberOf(text.substr(0, at));
    if (!n) return {};
    parts.push_back(*n);
    if (at == std::string_view::npos) return parts;
    text.remove_prefix(at + 1);
  }
}

Result<void> takeNumber(const Arguments& arguments, const std::string& option, std::optional<double>& into) {
  const std::string* text = arguments.value(option);
  if (text == nullptr) return {};
  into = numberOf(*text);
  if (!into) return fail(Code::BadNumber, fmt::format("\"{}\" is not a number for {}. Give it in figures, such as 2.5", *text, option));
  return {};
}

std::span<const std::string> allOf(const Arguments& arguments, const std::string& option) {
  const auto at = arguments.options.find(option);
  return at == arguments.options.end() ? std::span<const std::string>{} : std::span<const std::string>(at->second);
}

Result<void> takeTints(const Arguments& arguments, PourRecipe& recipe) {
  const std::string* mix = arguments.value("--mix");
  const auto tints = allOf(arguments, "--tint");
  if (mix != nullptr && !tints.empty()) return fail(Code::BadChoice, "Both --mix and --tint were given. Keep one of the two");
  if (mix != nullptr) {
    const auto parts = partsOf(*mix);
    if (!parts || parts->size() != 2) return fail(Code::BadMix, *mix);
    recipe.tints = {{std::string(kStrongTint), (*parts)[0]}, {std::string(kWeakTint), (*parts)[1]}};
  }
  for (const std::string& text : tints) {
    const auto [name, parts] = namedNumber(text);
    if (name.empty() || !parts) return fail(Code::BadChoice, "\"" + text + "\" is not a tint with its parts. Give --tint NAME=PARTS, such as --tint \"teal, strong=1\"");
    recipe.tints.push_back({name, *parts});
  }
  return {};
}

Result<void> takeDensities(const Arguments& arguments, PourRecipe& recipe) {
  for (const std::string& text : allOf(arguments, "--density")) {
    const auto [name, density] = namedNumber(text);
    if (name.empty() || !density) return fail(Code::BadChoice, "\"" + text + "\" is not a density. Give --density NAME=GRAMS for one millilitre, such as --density carrier=0.88");
    const auto tint = std::ranges::find_if(recipe.tints, [&](const PourTint& t) { return t.name == name || (t.name == name + " tint" && (t.name == kStrongTint || t.name == kWeakTint)); });
    if (name == "carrier") {
      recipe.carrier_density = *density;
    } else if (tint != recipe.tints.end()) {
      tint->density = *density;
    } else {
      std::string names;
      for (const PourTint& t : recipe.tints) names += "\"" + t.name + "\", ";
      return fail(Code::BadChoice, "\"" + name + "\" is nothing in this mix. Give densities of " + names + "or carrier");
    }
  }
  return {};
}

/// AMOUNT@STRONG:WEAK+CARRIER, the amount in mL, or in g where it ends so.
Result<PourHeld> heldOf(const std::string& text) {
  const auto wrong = fail(Code::BadChoice, "\"" + text + "\" does not say what is in the cup. Give AMOUNT@STRONG:WEAK+CARRIER, such as 120@1:2+5 for 120 mL, or 115g@1:2+5, with +0 for no carrier");
  const auto at = text.find('@'), plus = text.rfind('+');
  if (at == std::string::npos || plus == std::string::npos || plus < at) return wrong;
  std::string_view amount = std::string_view(text).substr(0, at);
  PourHeld held;
  for (const std::string_view unit : {"ml", "mL"})
    if (amount.ends_with(unit)) amount.remove_suffix(unit.size());
  if (amount.size() + 2 > at && amount.ends_with("g")) {
    held.grams = true;
    amount.remove_suffix(1);
  }
  const auto number = numberOf(amount), carrier = numberOf(std::string_view(text).substr(plus + 1));
  const auto parts = partsOf(std::string_view(text).substr(at + 1, plus - at - 1));
  if (!number || !carrier || !parts) return wrong;
  held.amount = *number;
  held.carrier = *carrier;
  held.parts = *parts;
  return held;
}

Result<void> takeAmount(const Arguments& arguments, PourRequest& request) {
  for (const std::string& text : allOf(arguments, "--area")) {
    const auto [name, area] = namedNumber(text);
    if (!area) return fail(Code::BadChoice, "\"" + text + "\" is not an area. Give square metres, such as --area 0.45, or part by part --area frame=0.35");
    request.need.areas.push_back({name, *area});
  }
  if (const std::string* tool = arguments.value("--tool")) {
    if (*tool != "gun" && *tool != "airbrush") return fail(Code::BadChoice, "\"" + *tool + "\" is not a word for --tool. Say gun or airbrush");
    request.need.tool = *tool == "gun" ? PourTool::Gun : PourTool::Airbrush;
  }
  for (const auto& [option, into] : {std::pair{"--coats", &request.need.coats}, std::pair{"--film", &request.need.film_um}, std::pair{"--coverage", &request.need.coverage},
                                     std::pair{"--loss", &request.need.loss}, std::pair{"--rest", &request.need.rest_ml}, std::pair{"--volume", &request.volume_ml}, std::pair{"--cup", &request.cup_ml}})
    if (const auto taken = takeNumber(arguments, option, *into); !taken) return taken;
  if (request.volume_ml)
    for (const char* option : {"--coats", "--film", "--coverage", "--loss", "--rest", "--tool"})
      if (arguments.has(option)) return fail(Code::BadChoice, fmt::format("{} says nothing beside --volume, which is the whole mix. Leave one of the two out", option));
  return {};
}

Result<void> takeGauge(const Arguments& arguments, PourRequest& request) {
  if (arguments.has("--scale") && arguments.has("--cup-error")) return fail(Code::BadChoice, "Both --scale and --cup-error were given. Keep the one that you pour by");
  for (const auto& [option, by] : {std::pair{"--scale", PourBy::Scale}, std::pair{"--cup-error", PourBy::Cup}}) {
    std::optional<double> step;
    if (const auto taken = takeNumber(arguments, option, step); !taken) return taken;
    if (step) request.gauge = PourGauge{by, *step};
  }
  return {};
}

std::size_t letters(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string column(std::string_view text, std::size_t width, bool right) {
  const std::string gap(width > letters(text) ? width - letters(text) : 0, ' ');
  return right ? gap + std::string(text) : std::string(text) + gap;
}

std::string tableText(const PourRequest& request, const PourReport& report) {
  const auto lines = pourLines(request, report);
  const std::string until = pourUntilHead(report), head = "pour in this order";
  std::size_t name = letters(head) - 3, ml = 3, g = 0, off = 6, last = letters(until);
  for (const PourSheetLine& line : lines) {
    name = std::max(name, letters(line.name));
    ml = std::max(ml, letters(line.add_ml));
    g = std::max(g, letters(line.add_g));
    off = std::max(off, letters(line.off));
    last = std::max(last, letters(line.until));
  }
  const auto row = [&](std::string_view first, std::string_view second, const PourSheetLine& line) {
    std::string out = "  " + column(first, 3, false) + column(second, name, false) + "  " + column(line.add_ml, ml, true);
    if (g > 0) out += "  " + column(line.add_g, g, true);
    return out + "  " + column(line.off, off, true) + "  " + column(line.until.empty() ? "–" : line.until, last, true) + "\n";
  };
  std::string out = "  " + column(head, name + 3, false) + "  " + column("add", ml, true) + (g > 0 ? "  " + column("", g, true) : "") + "  " + column("within", off, true) + "  " + column(until, last, true) + "\n";
  for (std::size_t i = 0; i < lines.size(); ++i) out += row(std::to_string(i + 1), lines[i].name, lines[i]);
  return out;
}

}  // namespace

Result<PourRequest> pourRequest(const Arguments& arguments) {
  PourRequest request;
  if (!arguments.files.empty())
    return fail(Code::BadChoice, "pour takes no file, and \"" + arguments.files.front() + "\" was named. Give the parts with --mix, and the sheet to write with --out");
  if (const auto taken = takeTints(arguments, request.recipe); !taken) return std::unexpected(taken.error());
  std::optional<double> carrier;
  if (const auto taken = takeNumber(arguments, "--carrier", carrier); !taken) return std::unexpected(taken.error());
  if (!request.recipe.tints.empty() && !carrier) return fail(Code::BadChoice, "No carrier was given. Say how many volumes go to one of tint with --carrier N, and 0 for none");
  request.recipe.carrier = carrier.value_or(0);
  if (const auto taken = takeDensities(arguments, request.recipe); !taken) return std::unexpected(taken.error());
  if (const auto taken = takeAmount(arguments, request); !taken) return std::unexpected(taken.error());
  if (const auto taken = takeGauge(arguments, request); !taken) return std::unexpected(taken.error());
  if (const std::string* text = arguments.value("--have")) {
    const auto held = heldOf(*text);
    if (!held) return std::unexpected(held.error());
    request.held = *held;
  }
  for (const std::string& out : allOf(arguments, "--out")) request.out.emplace_back(out);
  if (const std::string* paper = arguments.value("--paper")) request.paper = *paper;
  if (const std::string* title = arguments.value("--title")) request.title = *title;
  return request;
}

std::string pourText(const PourRequest& request, const PourReport& report) {
  constexpr std::size_t kWidth = 96;
  std::string head = fmt::format("{}: {}", recipeWords(request.recipe), mlWords(report, report.total_ml));
  if (report.total_g) head += " (" + gramWords(report, *report.total_g) + ")";
  if (report.fills > 1) head += fmt::format(", in {} equal fills", report.fills);
  std::string out = wrapped(head, kWidth, 0) + "\n";
  if (!report.order.empty()) out += tableText(request, report) + "\n";
  for (const std::string& sentence : report.sentences) out += wrapped("- " + sentence, kWidth, 0, 2);
  if (!report.cautions.empty()) {
    out += "\nTake with care\n";
    for (const Caution& caution : report.cautions) out += wrapped("- " + sentence(caution), kWidth, 2, 2);
  }
  for (const auto& path : request.out) out += filled("\nThe sheet is in {}.\n", path.string()).substr(path == request.out.front() ? 0 : 1);
  return out;
}

}  // namespace huewright
