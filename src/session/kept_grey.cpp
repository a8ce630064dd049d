#include "session/kept_grey.hpp"

#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <optional>

#include "photo/file_bytes.hpp"
#include "photo/write.hpp"
#include "session/rounded.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr std::string_view kWhat = "huewright grey patch";
constexpr double kNormal95 = 1.96;

Json keptTriple(const Vec3& v) { return Json::array({rounded(v[0]), rounded(v[1]), rounded(v[2])}); }

Json textOrNull(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

std::optional<double> numberIn(const Json& json, double low, double high) {
  if (!json.is_number()) return {};
  const double v = json.get<double>();
  if (!(v >= low && v <= high)) return {};
  return v;
}

std::optional<Vec3> tripleIn(const Json& json, const char* field, const Vec3& low, const Vec3& high) {
  const auto at = json.find(field);
  if (at == json.end() || !at->is_array() || at->size() != 3) return {};
  Vec3 v{};
  for (std::size_t k = 0; k < 3; ++k) {
    const auto n = numberIn((*at)[k], low[k], high[k]);
    if (!n) return {};
    v[k] = *n;
  }
  return v;
}

std::string textIn(const Json& json, const char* field) {
  const auto at = json.find(field);
  return at != json.end() && at->is_string() ? at->get<std::string>() : std::string{};
}

std::string minus(double v, int decimals) {
  const std::string text = fmt::format("{:.{}f}", std::abs(v), decimals);
  const bool zero = text.find_first_not_of("0.") == std::string::npos;
  return (v < 0 && !zero ? "−" : "") + text;
}

}  // namespace

std::string keptGreyText(const KeptGrey& grey) {
  Json json;
  json["format"] = 1;
  json["what"] = kWhat;
  json["lab"] = keptTriple(toVec(grey.colour.lab));
  json["lab_sd"] = keptTriple(grey.colour.lab_sd);
  json["y"] = rounded(luminanceOf(grey.colour));
  json["y_sd"] = rounded(luminanceSd(grey.colour));
  json["camera"] = textOrNull(grey.camera);
  json["date"] = textOrNull(grey.day);
  json["chart"] = textOrNull(grey.chart);
  json["photo"] = textOrNull(grey.photo);
  json["region"] = Json::array();
  for (const Point& p : grey.region.corners) json["region"].push_back(Json::array({rounded(p.x), rounded(p.y)}));
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::expected<KeptGrey, std::string> parseKeptGrey(std::string_view text) {
  const Json json = Json::parse(text, nullptr, false);
  if (json.is_discarded() || !json.is_object()) return std::unexpected("it is not JSON");
  if (textIn(json, "what") != kWhat) return std::unexpected("it is not a grey patch");
  const auto format = json.find("format");
  if (format == json.end() || *format != 1) return std::unexpected("its format is another than 1");
  KeptGrey grey;
  const auto lab = tripleIn(json, "lab", {20, -30, -30}, {100, 30, 30}), sd = tripleIn(json, "lab_sd", {1e-4, 1e-4, 1e-4}, {20, 20, 20});
  if (!lab) return std::unexpected("its \"lab\" is not the colour of a grey");
  if (!sd) return std::unexpected("its \"lab_sd\" does not hold three deviations above 0");
  grey.colour = {{(*lab)[0], (*lab)[1], (*lab)[2]}, *sd};
  constexpr double kRounding = 2e-4;  // both have four decimals
  const auto y = json.find("y");
  if (y == json.end() || !numberIn(*y, luminanceOf(grey.colour) - kRounding, luminanceOf(grey.colour) + kRounding))
    return std::unexpected("its \"y\" does not agree with its \"lab\"");
  grey.camera = textIn(json, "camera");
  grey.day = textIn(json, "date");
  grey.chart = textIn(json, "chart");
  grey.photo = textIn(json, "photo");
  if (const auto region = json.find("region"); region != json.end() && region->is_array() && region->size() == 4)
    for (std::size_t i = 0; i < 4; ++i)
      if ((*region)[i].is_array() && (*region)[i].size() == 2)
        grey.region.corners[i] = {numberIn((*region)[i][0], -1e9, 1e9).value_or(0), numberIn((*region)[i][1], -1e9, 1e9).value_or(0)};
  return grey;
}

Result<KeptGrey> readKeptGrey(const fs::path& path) {
  Limits limits;
  limits.file_bytes = 1U << 20;
  const auto bytes = FileBytes::read(path, limits);
  if (!bytes) {
    std::string why = "\"" + path.string() + "\" cannot be opened";
    if (bytes.error().code == Code::FileMissing) why = "there is no file \"" + path.string() + "\"";
    if (bytes.error().code == Code::PhotoTooLarge) why = "\"" + path.string() + "\" is too large for one";
    if (bytes.error().code == Code::FileEmpty) why = "\"" + path.string() + "\" is empty";
    return fail(Code::KeptGreyUnusable, why);
  }
  auto grey = parseKeptGrey({reinterpret_cast<const char*>(bytes->bytes().data()), bytes->bytes().size()});
  if (!grey) return fail(Code::KeptGreyUnusable, "\"" + path.string() + "\": " + grey.error());
  return std::move(*grey);
}

Result<void> keepGrey(const KeptGrey& grey, const fs::path& path) {
  std::error_code error;
  if (path.has_parent_path()) fs::create_directories(path.parent_path(), error);
  if (error) return fail(Code::WriteFailed, path.string());
  return writeWhole(path, keptGreyText(grey));
}

Result<bool> forgetGrey(const fs::path& path) {
  std::error_code error;
  const auto status = fs::symlink_status(path, error);
  if (status.type() == fs::file_type::not_found) return false;
  if (fs::is_directory(status) || !fs::remove(path, error)) return fail(Code::RemoveFailed, path.string());
  return true;
}

std::string greyWords(const KnownGrey& grey) {
  const Vec3 wide{kNormal95 * grey.lab_sd[0], kNormal95 * grey.lab_sd[1], kNormal95 * grey.lab_sd[2]};
  const double a = grey.lab.a, b = grey.lab.b;
  std::string words = fmt::format("L* {:.1f} ± {:.1f}, as a share of white {:.3f} ± {:.3f}; ", grey.lab.L, wide[0], luminanceOf(grey), kNormal95 * luminanceSd(grey));
  const std::string of_a = fmt::format("a* {} ± {:.1f}", minus(a, 1), wide[1]), of_b = fmt::format("b* {} ± {:.1f}", minus(b, 1), wide[2]);
  const bool red = std::abs(a) > wide[1], blue = std::abs(b) > wide[2];
  if (!red && !blue) return words + "no tint of its own can be seen (" + of_a + ", " + of_b + ")";
  constexpr double kSlight = 3;  // CIELAB units; judgement
  words += std::hypot(a, b) < kSlight ? "it is slightly " : "it is ";
  const char *hue_a = a > 0 ? "reddish" : "greenish", *hue_b = b > 0 ? "yellowish" : "bluish";
  if (red && blue) return words + hue_a + " and " + hue_b + " (" + of_a + ", " + of_b + ")";
  return words + (red ? hue_a : hue_b) + " (" + (red ? of_a : of_b) + ")";
}

}  // namespace huewright
