#include "cli/profile_command.hpp"

#include "base/text.hpp"
#include "cli/help.hpp"
#include "cli/judge_command.hpp"

namespace huewright {

Result<ProfileRequest> profileRequest(const Arguments& arguments) {
  ProfileRequest request;
  for (const std::string& file : arguments.files) request.photos.push_back(file);
  if (const auto problem = takeChartAndEncoding(arguments, request)) return std::unexpected(*problem);
  if (const std::string* out = arguments.value("--out")) request.out = *out;
  if (const std::string* icc = arguments.value("--icc")) request.icc = *icc;
  return request;
}

std::string profileText(const ProfileRequest& request, const ProfileReport& report) {
  constexpr std::size_t kWidth = 96;
  std::string out;
  for (const std::string& sentence : report.health.sentences) out += wrapped(sentence, kWidth, 0);
  if (report.written) out += filled("The profile is in {}.\n", request.out.string());
  else if (!request.out.empty()) out += "Nothing was written.\n";
  if (!report.cautions.empty()) {
    out += "\nTake with care\n";
    for (const Caution& caution : report.cautions) out += wrapped("- " + sentence(caution), kWidth, 2, 2);
  }
  return out;
}

}  // namespace huewright
