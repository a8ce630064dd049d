// The pour sheet as a web page: one file, without scripts and without anything from elsewhere; it prints on one page unless names or tints are many.
#pragma once

#include <string>

#include "paper/pour_sheet.hpp"

namespace huewright {

/// UTF-8 HTML. Whatever stands in the sheet's words is shown as it is, never taken for markup.
std::string pourSheetHtml(const PourSheet& sheet);

}  // namespace huewright
