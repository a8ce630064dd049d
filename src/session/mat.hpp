// Writes the mat to print. Free of any command line or window.
#pragma once

#include <filesystem>
#include <string>

#include "base/problem.hpp"

namespace huewright {

struct MatRequest {
  std::filesystem::path out;     ///< a .pdf file; one that is there is replaced
  std::string paper = "a4";      ///< "a4" or "letter"
  bool small = false;            ///< half the size, to be cut out
  bool strip = false;            ///< a strip to bend round a tube
};

struct MatWritten {
  std::string paper;             ///< as people call it: "A4", "Letter"
  bool cut_out = false;          ///< the sheet is smaller than the paper
};

/// Draws the sheet and writes it whole or not at all. Checks the request before any file is opened.
/// Errors: BadChoice; DataMissing; WriteFailed, OutOfMemory, Internal.
Result<MatWritten> writeMat(const MatRequest& request, const std::filesystem::path& calib);

}  // namespace huewright
