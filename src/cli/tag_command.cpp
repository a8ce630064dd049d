#include "cli/tag_command.hpp"

#include <fmt/format.h>

#include "base/text.hpp"

namespace huewright {
namespace {

Result<TagParts> tagPartsOf(const std::string& text) {
  const auto colon = text.find(':');
  if (colon == std::string::npos) return fail(Code::BadMix, text);
  const auto strong = numberOf(std::string_view(text).substr(0, colon)), weak = numberOf(std::string_view(text).substr(colon + 1));
  if (!strong || !weak) return fail(Code::BadMix, text);
  return TagParts{*strong, *weak};
}

Result<double> tagNumberOf(const std::string& text, std::string_view what) {
  const auto n = numberOf(text);
  if (!n) return fail(Code::BadNumber, fmt::format("\"{}\" is not a number for the {}. Give it in figures, such as 4", text, what));
  return *n;
}

/// Fills in what the texts tell; an empty one tells nothing.
std::optional<Problem> takeFacts(TagText& tag, const std::string& mix, const std::string& coats, const std::string& carrier) {
  if (!mix.empty()) {
    const auto parts = tagPartsOf(mix);
    if (!parts) return parts.error();
    tag.parts = *parts;
  }
  if (!coats.empty()) {
    const auto n = tagNumberOf(coats, "coats");
    if (!n) return n.error();
    tag.coats = *n;
  }
  if (!carrier.empty()) {
    const auto n = tagNumberOf(carrier, "carrier");
    if (!n) return n.error();
    tag.carrier = *n;
  }
  return {};
}

std::string withoutEnds(const std::string& text) {
  const auto first = text.find_first_not_of(' ');
  return first == std::string::npos ? std::string() : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

/// "NAME" or "NAME=STRONG:WEAK,COATS,CARRIER", on top of what the options tell for all.
Result<TagText> tagOf(const std::string& word, const TagText& all) {
  TagText tag = all;
  const auto equals = word.rfind('=');
  tag.name = withoutEnds(word.substr(0, equals));
  if (equals == std::string::npos) return tag;
  std::vector<std::string> facts{""};
  for (const char c : word.substr(equals + 1))
    if (c == ',') facts.emplace_back();
    else facts.back() += c;
  if (facts.size() > 3)
    return fail(Code::BadChoice, "\"" + word + "\" tells more than mix, coats and carrier. Write a tag as NAME=STRONG:WEAK,COATS,CARRIER, such as \"frame 3=1:4,4,5\"");
  facts.resize(3);
  if (const auto problem = takeFacts(tag, withoutEnds(facts[0]), withoutEnds(facts[1]), withoutEnds(facts[2]))) return std::unexpected(*problem);
  return tag;
}

}  // namespace

Result<TagRequest> tagRequest(const Arguments& arguments) {
  TagRequest request;
  const auto given = [&](const char* option) {
    const std::string* text = arguments.value(option);
    return text ? *text : std::string();
  };
  TagText all;
  if (const auto problem = takeFacts(all, given("--mix"), given("--coats"), given("--carrier"))) return std::unexpected(*problem);
  if (const std::string* paper = arguments.value("--paper")) request.paper = *paper;
  if (const std::string* size = arguments.value("--size")) {
    const auto side = numberOf(*size);
    if (!side) return fail(Code::BadNumber, "\"" + *size + "\" is not a number for --size. Give it in millimetres, such as 28");
    request.side = *side;
  }
  if (arguments.files.empty()) return request;
  request.out = arguments.files.back();
  for (std::size_t i = 0; i + 1 < arguments.files.size(); ++i) {
    auto tag = tagOf(arguments.files[i], all);
    if (!tag) return std::unexpected(tag.error());
    request.tags.push_back(std::move(*tag));
  }
  return request;
}

std::string tagText(const TagRequest& request, const TagsWritten& written) {
  const std::string what = written.count == 1 ? "The tag is" : std::to_string(written.count) + " tags are";
  return filled(what + " in {}: print on matt " + written.paper + " at 100 %, cut out, and lay each flat beside its panel.\n", request.out.string());
}

}  // namespace huewright
