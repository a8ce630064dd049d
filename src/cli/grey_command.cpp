#include "cli/grey_command.hpp"

#include "base/text.hpp"
#include "cli/help.hpp"
#include "cli/judge_command.hpp"

namespace huewright {
namespace {

constexpr std::size_t kGreyWidth = 96;

}  // namespace

Result<GreyWish> greyWish(const Arguments& arguments) {
  const bool show = arguments.has("--show"), forget = arguments.has("--forget");
  if (!show && !forget) return GreyWish::Measure;
  if (arguments.options.size() > 1 || !arguments.files.empty())
    return fail(Code::BadChoice, std::string(show ? "--show" : "--forget") + " stands alone: give it without a photo and without other options");
  return show ? GreyWish::Show : GreyWish::Forget;
}

Result<GreyRequest> greyRequest(const Arguments& arguments) {
  GreyRequest request;
  if (arguments.files.size() > 1)
    return fail(Code::BadChoice, "grey takes one photo, and " + std::to_string(arguments.files.size()) + " files were named");
  if (!arguments.files.empty()) request.photo = arguments.files.front();
  if (const std::string* text = arguments.value("--grey")) {
    const auto quad = parseQuad(*text);
    if (!quad) return std::unexpected(quad.error());
    request.grey = *quad;
  }
  if (const auto problem = takeChartAndEncoding(arguments, request)) return std::unexpected(*problem);
  if (const std::string* out = arguments.value("--out")) request.out = *out;
  return request;
}

std::string greyText(const GreyRequest& request, const GreyReport& report, bool elsewhere) {
  std::string out;
  for (const std::string& sentence : report.sentences) out += wrapped(sentence, kGreyWidth, 0);
  out += filled("It is kept in {}.\n", request.out.string());
  out += elsewhere ? "Give that file to judge and map with --grey-from.\n" : "From now on judge and map take every grey in a photo for this one.\n";
  if (!report.cautions.empty()) {
    out += "\nTake with care\n";
    for (const Caution& caution : report.cautions) out += wrapped("- " + sentence(caution), kGreyWidth, 2, 2);
  }
  return out;
}

std::string keptGreyText(const KeptGrey& grey, const std::filesystem::path& path) {
  std::string out = wrapped("The kept grey patch has " + greyWords(grey.colour) + ".", kGreyWidth, 0);
  std::string from;
  if (!grey.photo.empty()) from += " from " + grey.photo;
  if (!grey.day.empty()) from += ", taken on " + grey.day;
  if (!grey.camera.empty()) from += (from.empty() ? " with " : ", with ") + grey.camera;
  if (!grey.chart.empty()) from += " (chart: " + grey.chart + ")";
  if (!from.empty()) out += wrapped(filled("It was measured{}.", from), kGreyWidth, 0);
  return out + filled("It is kept in {}.\n", path.string());
}

std::string noGreyText() {
  return wrapped("No grey patch is kept. Photograph yours beside a colour chart, and say where it lies: huewright grey PHOTO --grey X,Y,WIDTH,HEIGHT.", kGreyWidth, 0);
}

std::optional<std::filesystem::path> greyFrom(const Arguments& arguments, const Result<std::filesystem::path>& standard) {
  if (const std::string* from = arguments.value("--grey-from")) return *from == "none" ? std::nullopt : std::optional<std::filesystem::path>(*from);
  std::error_code error;
  if (standard && std::filesystem::exists(*standard, error)) return *standard;
  return {};
}

}  // namespace huewright
