#include "cli/judge_command.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <optional>

#include "base/text.hpp"
#include "cli/terminal.hpp"

namespace huewright {
namespace {

std::vector<std::string_view> split(std::string_view text, char at) {
  std::vector<std::string_view> parts;
  for (auto gap = text.find(at); gap != std::string_view::npos; gap = text.find(at)) {
    parts.push_back(text.substr(0, gap));
    text.remove_prefix(gap + 1);
  }
  parts.push_back(text);
  return parts;
}

Result<Mix> mixOf(const std::string& text) {
  const auto parts = split(text, ':');
  if (parts.size() != 2) return fail(Code::BadMix, text);
  const auto strong = numberOf(parts[0]), weak = numberOf(parts[1]);
  if (!strong || !weak || *strong < 0 || *weak < 0 || *strong + *weak <= 0 || !std::isfinite(*strong + *weak)) return fail(Code::BadMix, text);
  return Mix{*strong, *weak};
}

Result<Lab<D50>> labOf(const std::string& text) {
  const auto parts = split(text, ',');
  Vec3 v{};
  bool good = parts.size() == 3;
  for (std::size_t i = 0; good && i < 3; ++i) {
    const auto n = numberOf(parts[i]);
    good = n.has_value();
    if (good) v[i] = *n;
  }
  if (!good) return fail(Code::BadNumber, "\"" + text + "\" is not a Lab colour. Give three numbers, such as 45,-30,-12");
  return Lab<D50>{v[0], v[1], v[2]};
}

Result<std::vector<double>> stepsOf(const std::string& text) {
  std::vector<double> coats;
  for (const std::string_view part : split(text, ',')) {
    const auto n = numberOf(part);
    if (!n) return fail(Code::BadSteps, text);
    coats.push_back(*n);
  }
  return coats;
}

Result<std::size_t> choiceOf(const std::string& text, std::span<const std::string_view> words, std::string_view option) {
  const auto at = std::ranges::find(words, text);
  if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i) all += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + std::string(words[i]);
  return fail(Code::BadChoice, fmt::format("\"{}\" is not a word for {}. Say {}", text, option, all));
}

Result<double> toleranceOf(const std::string& text, const Standards& standards) {
  for (const Situation& s : standards.situations)
    if (s.word == text) return s.tolerance;
  const auto n = numberOf(text);
  if (!n || *n <= 0 || *n > 100)
    return fail(Code::BadNumber, "\"" + text + "\" is not a tolerance. Give a colour difference such as 1.0, or touching, neighbour or alone");
  return *n;
}

Result<double> anyNumberOf(const std::string& text, std::string_view what) {
  const auto n = numberOf(text);
  if (!n) return fail(Code::BadNumber, fmt::format("\"{}\" is not a number for {}. Give it in figures, such as 0.5", text, what));
  return *n;
}

}  // namespace

Result<ChartWords> chartWords(const Arguments& arguments) {
  ChartWords words;
  if (const std::string* data = arguments.value("--chart-data")) words.data = *data;
  const std::string* text = arguments.value("--chart");
  if (!text || *text == "auto") return words;
  words.use = ChartUse::None;
  if (*text == "none") return words;
  const auto quad = parseQuad(*text);
  if (!quad) return std::unexpected(quad.error());
  words.use = ChartUse::Here;
  words.place = *quad;
  return words;
}

Result<Encoding> encodingOf(const Arguments& arguments) {
  constexpr std::array<std::string_view, 3> kEncodings{"auto", "linear", "srgb"};
  const std::string* text = arguments.value("--encoding");
  if (!text) return Encoding::Auto;
  const auto at = choiceOf(*text, kEncodings, "--encoding");
  if (!at) return std::unexpected(at.error());
  return static_cast<Encoding>(*at);
}

Result<JudgeRequest> judgeRequest(const Arguments& arguments, const Standards& standards) {
  JudgeRequest request;
  if (arguments.files.empty()) return fail(Code::NoPhoto);
  request.photo = arguments.files.front();
  request.repeats.assign(arguments.files.begin() + 1, arguments.files.end());

  const auto quads = [&](const char* option, auto&& take) -> std::optional<Problem> {
    const auto at = arguments.options.find(option);
    if (at == arguments.options.end()) return {};
    for (const std::string& text : at->second) {
      const auto quad = parseQuad(text);
      if (!quad) return quad.error();
      take(*quad);
    }
    return {};
  };
  for (const auto& problem : {quads("--panel", [&](const Quad& q) { request.regions.panels.push_back(q); }),
                              quads("--card", [&](const Quad& q) { request.regions.card = q; }),
                              quads("--grey", [&](const Quad& q) { request.regions.greys.push_back(q); }),
                              quads("--black", [&](const Quad& q) { request.regions.black = q; })})
    if (problem) return std::unexpected(*problem);
  for (const auto& [option, view] : {std::pair{std::string("--also"), &request.also}, std::pair{std::string("--flop"), &request.flop}}) {
    Regions places;
    for (const auto& problem : {quads((option + "-panel").c_str(), [&](const Quad& q) { places.panels.push_back(q); }),
                                quads((option + "-card").c_str(), [&](const Quad& q) { places.card = q; }),
                                quads((option + "-grey").c_str(), [&](const Quad& q) { places.greys.push_back(q); })})
      if (problem) return std::unexpected(*problem);
    const bool placed = !places.panels.empty() || places.card || !places.greys.empty();
    if (const std::string* photo = arguments.value(option)) *view = ViewRequest{*photo, std::move(places)};
    else if (placed) return fail(Code::BadChoice, "Places in a second view were given without its photo. Add " + option + " PHOTO");
  }

  // One value, read by a function that answers with a Result, put where it belongs.
  const auto take = [&](const char* option, auto&& read, auto&& put) -> std::optional<Problem> {
    const std::string* text = arguments.value(option);
    if (!text) return {};
    const auto value = read(*text);
    if (!value) return value.error();
    put(*value);
    return {};
  };
  std::array<std::string_view, kCardKindCount> kinds;
  for (std::size_t i = 0; i < kinds.size(); ++i) kinds[i] = cardKindName(static_cast<CardKind>(i));
  for (const auto& problem :
       {take("--card-lab", labOf, [&](const Lab<D50>& lab) { request.card_lab = lab; }),
        take("--grey-y", [](const std::string& t) { return anyNumberOf(t, "--grey-y"); }, [&](double y) { request.grey_y = y; }),
        take("--coats", [](const std::string& t) { return anyNumberOf(t, "--coats"); }, [&](double n) { request.coats = n; }),
        take("--carrier", [](const std::string& t) { return anyNumberOf(t, "--carrier"); }, [&](double n) { request.carrier = n; }),
        take("--steps", stepsOf, [&](const std::vector<double>& coats) { request.steps = coats; }),
        take("--tolerance", [&](const std::string& t) { return toleranceOf(t, standards); }, [&](double t) { request.tolerance = t; }),
        take("--card-kind", [&](const std::string& t) { return choiceOf(t, kinds, "--card-kind"); },
             [&](std::size_t i) { request.card_kind = static_cast<CardKind>(i); })})
    if (problem) return std::unexpected(*problem);

  if (const std::string* from = arguments.value("--grey-from"); from && *from != "none" && request.grey_y)
    return fail(Code::BadChoice, "Give --grey-y or --grey-from, not both");
  if (const auto problem = takeChartAndEncoding(arguments, request)) return std::unexpected(*problem);
  if (const std::string* profile = arguments.value("--profile")) request.profile = *profile;
  if (const std::string* sheet = arguments.value("--plain-sheet")) request.plain_sheet = *sheet;
  if (const std::string* swapped = arguments.value("--swapped")) request.swapped = *swapped;
  if (const std::string* series = arguments.value("--series")) request.series = *series;
  if (const auto at = arguments.options.find("--mix"); at != arguments.options.end())
    for (const std::string& text : at->second) {
      const auto mix = mixOf(text);
      if (!mix) return std::unexpected(mix.error());
      request.mixes.push_back(*mix);
    }
  return request;
}

std::string judgeText(const JudgeReport& report, bool explain, bool blocks) { return reportText(report, explain, blocks ? ColourBlock(colourBlock) : ColourBlock()); }

}  // namespace huewright
