#include "cli/map_command.hpp"

#include "base/text.hpp"
#include "cli/help.hpp"
#include "cli/judge_command.hpp"

namespace huewright {

Result<MapRequest> mapRequest(const Arguments& arguments, const Standards& standards) {
  MapRequest request;
  if (arguments.files.size() > 2)
    return fail(Code::BadChoice, "map takes a photo and a picture to write, and " + std::to_string(arguments.files.size()) + " files were named");
  Arguments of_judge = arguments;
  if (arguments.files.size() > 1) {
    request.out = arguments.files[1];
    of_judge.files.resize(1);
  }
  auto judge = judgeRequest(of_judge, standards);
  if (!judge) return std::unexpected(judge.error());
  request.judge = std::move(*judge);
  return request;
}

std::string mapText(const MapRequest& request, const MapReport& report) {
  constexpr std::size_t kWidth = 96;
  std::string out = wrapped(report.judge.verdicts[report.judge.main].sentence, kWidth, 0);
  for (const std::string& sentence : report.sentences) out += wrapped(sentence, kWidth, 0);
  out += filled("The map is in {}.\n", request.out.string());
  return out + careText(report.judge);
}

}  // namespace huewright
