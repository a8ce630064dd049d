// Writes tags to print. Free of any command line or window.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "paper/tag_sheet.hpp"
#include "scene/tag_text.hpp"

namespace huewright {

struct TagRequest {
  std::vector<TagText> tags;
  std::filesystem::path out;     ///< a .pdf file; one that is there is replaced
  std::string paper = "a4";      ///< "a4" or "letter"
  double side = kTagSide;        ///< mm, of the black frame
};

struct TagsWritten {
  std::size_t count = 0;
  std::string paper;             ///< as people call it: "A4", "Letter"
};

/// Draws the sheet and writes it whole or not at all. Checks the request before any file is opened.
/// Errors: BadChoice, BadMix, BadNumber; WriteFailed, OutOfMemory, Internal.
Result<TagsWritten> writeTags(const TagRequest& request);

}  // namespace huewright
