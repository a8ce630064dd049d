#include "cli/profile_command.hpp"

#include "base/text.hpp"
#include "cli/help.hpp"
#include "cli/judge_command.hpp"

namespace huewright {

Result<ProfileRequest> profileRequest(const Arguments& arguments) {
  ProfileRequest request;
  for (const std::string& file : arguments.files) request.photos.push_back(file);
  if (const std::string* chart = arguments.value("--chart")) {
    const auto use = chartUseOf(*chart);
    if (!use) return std::unexpected(use.error());
    request.chart_use = use->first;
    request.chart = use->second;
  }
  if (const std::string* data = arguments.value("--chart-data")) request.chart_data = *data;
  if (const std::string* out = arguments.value("--out")) request.out = *out;
  if (const std::string* icc = arguments.value("--icc")) request.icc = *icc;
  if (const std::string* word = arguments.value("--encoding")) {
    if (*word == "linear") request.encoding = Encoding::Linear;
    else if (*word == "srgb") request.encoding = Encoding::Srgb;
    else if (*word != "auto") return fail(Code::BadChoice, "\"" + *word + "\" is not a word for --encoding. Say auto, linear or srgb");
  }
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
