#include "session/tag.hpp"

#include <fmt/format.h>
#include <optional>

#include "base/text.hpp"
#include "photo/write.hpp"

namespace huewright {
namespace {

std::optional<Problem> wrongTags(const TagRequest& request) {
  if (request.out.empty()) return Problem{Code::BadChoice, "No file was named for the tags. Name the PDF to write last, such as tags.pdf"};
  // A photo must not be written over by a slip.
  if (upperCase(request.out.extension().string()) != ".PDF")
    return Problem{Code::BadChoice, "Tags are written as a PDF, and \"" + request.out.string() + "\" is not named like one. Let the last name end in .pdf"};
  if (request.tags.empty()) return Problem{Code::BadChoice, "No name was given for a tag. Give one before the file, such as \"frame 3\""};
  if (request.paper != "a4" && request.paper != "letter")
    return Problem{Code::BadChoice, "\"" + request.paper + "\" is not a word for --paper. Say a4 or letter"};
  if (!(request.side >= kSmallestTagSide && request.side <= kLargestTagSide))
    return Problem{Code::BadNumber, fmt::format("A tag may be {:g} to {:g} mm wide. Give --size in millimetres within that", kSmallestTagSide, kLargestTagSide)};
  for (const TagText& tag : request.tags)
    if (const auto checked = checkTag(tag); !checked) return checked.error();
  const std::size_t most = tagsOnPage(request.paper == "a4" ? kTagA4 : kTagLetter, request.side);
  if (request.tags.size() > most)
    return Problem{Code::BadChoice, fmt::format("{} tags of this size do not fit on one sheet, which takes {}. Print the rest on another, or smaller ones with --size", request.tags.size(), most)};
  return {};
}

}  // namespace

Result<TagsWritten> writeTags(const TagRequest& request) {
  if (auto problem = wrongTags(request)) return std::unexpected(*problem);
  const auto pdf = tagPdf(request.tags, request.paper == "a4" ? kTagA4 : kTagLetter, request.side);
  if (!pdf) return std::unexpected(pdf.error());
  if (const auto written = writeWhole(request.out, *pdf); !written) return std::unexpected(written.error());
  return TagsWritten{request.tags.size(), capitalised(request.paper)};
}

}  // namespace huewright
