#include "cli/mat_command.hpp"

#include "base/text.hpp"

namespace huewright {

Result<MatRequest> matRequest(const Arguments& arguments) {
  MatRequest request;
  if (arguments.files.size() > 1)
    return fail(Code::BadChoice, "mat writes one sheet, and " + std::to_string(arguments.files.size()) + " files were named. Write them one by one");
  if (!arguments.files.empty()) request.out = arguments.files.front();
  if (const std::string* paper = arguments.value("--paper")) request.paper = *paper;
  request.small = arguments.has("--small");
  request.strip = arguments.has("--strip");
  return request;
}

std::string matText(const MatRequest& request, const MatWritten& written) {
  const std::string what = request.strip ? "strip" : request.small ? "small mat" : "mat";
  const std::string how = written.cut_out ? ", check that its line is 100 mm long, and cut it out.\n" : ", and check that its line is 100 mm long.\n";
  return filled("The " + what + " is in {}: print it on " + written.paper + " at 100 %" + how, request.out.string());
}

}  // namespace huewright
