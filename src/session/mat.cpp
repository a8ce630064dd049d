#include "session/mat.hpp"

#include <algorithm>
#include <optional>

#include "base/text.hpp"
#include "paper/mat_sheet.hpp"
#include "photo/write.hpp"

namespace huewright {
namespace {

bool isNamedPdf(const std::filesystem::path& path) {
  std::string ending = path.extension().string();
  std::ranges::transform(ending, ending.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return ending == ".pdf";
}

std::optional<Problem> wrong(const MatRequest& request) {
  if (request.out.empty()) return Problem{Code::BadChoice, "No file was named for the mat. Name the PDF to write, such as mat.pdf"};
  // A photo must not be written over by a slip.
  if (!isNamedPdf(request.out))
    return Problem{Code::BadChoice, "The mat is a PDF, and \"" + request.out.string() + "\" is not named like one. Let the name end in .pdf"};
  if (request.paper != "a4" && request.paper != "letter")
    return Problem{Code::BadChoice, "\"" + request.paper + "\" is not a word for --paper. Say a4 or letter"};
  if (request.small && request.strip) return Problem{Code::BadChoice, "Both --small and --strip were given. Keep one of the two"};
  return {};
}

}  // namespace

Result<MatWritten> writeMat(const MatRequest& request, const std::filesystem::path& calib) {
  if (auto problem = wrong(request)) return std::unexpected(*problem);
  const auto layout = readMatLayout(calib, request.paper + (request.small ? "-small" : request.strip ? "-strip" : ""));
  if (!layout) return std::unexpected(layout.error());
  const auto pdf = matPdf(*layout);
  if (!pdf) return std::unexpected(pdf.error());
  if (const auto written = writeWhole(request.out, *pdf); !written) return std::unexpected(written.error());
  return MatWritten{capitalised(request.paper), layout->isCutOut()};
}

}  // namespace huewright
