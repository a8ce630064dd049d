#include "session/series_file.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "colour/delta_e.hpp"
#include "photo/write.hpp"
#include "session/series.hpp"
#include "session/series_text.hpp"
#include "session/text_file.hpp"

namespace huewright {
namespace {

using GrowingJson = nlohmann::ordered_json;

/// Of a photo's n-th name: the photo's own, then with a number.
std::string numberedName(const std::string& name, int n) { return n == 1 ? name : fmt::format("{} {}", name, n); }

bool sameReading(const GrowingJson& there, const SeriesPanel& panel) {
  const auto number = [&](const char* field) { return there.contains(field) && there[field].is_number() ? there[field].get<double>() : -1.0; };
  return number("strong") == panel.strong && number("weak") == panel.weak && number("coats") == panel.coats && there.contains("lab") &&
         there["lab"] == GrowingJson::array({panel.lab.L, panel.lab.a, panel.lab.b});
}

/// Gives the panels a name that no other has. False when they are there already.
bool nameAnew(const GrowingJson& there, std::vector<SeriesPanel>& panels, const JudgeReport& report) {
  const std::string photo = report.photo.path.stem().string();
  for (int n = 1;; ++n) {
    const std::string name = numberedName(photo, n);
    std::size_t taken = 0, same = 0;
    for (std::size_t i = 0; i < panels.size(); ++i) {
      SeriesPanel& panel = panels[i];
      if (report.stepped) panel.piece = name;
      else panel.name = panels.size() == 1 ? name : fmt::format("{}, {}", name, report.names[i]);
      const char* field = report.stepped ? "piece" : "name";
      const std::string& label = report.stepped ? panel.piece : panel.name;
      const auto bears = [&](const GrowingJson& one) { return one.contains(field) && one[field] == label; };
      taken += std::ranges::any_of(there, bears) ? 1 : 0;
      same += std::ranges::any_of(there, [&](const GrowingJson& one) { return bears(one) && sameReading(one, panel); }) ? 1 : 0;
    }
    if (same == panels.size()) return false;
    if (taken == 0) return true;
  }
}

std::optional<Lab<D50>> targetIn(const GrowingJson& json) {
  if (!json.contains("target")) return {};
  const auto& lab = json["target"]["lab"];
  return Lab<D50>{lab[0].get<double>(), lab[1].get<double>(), lab[2].get<double>()};
}

}  // namespace

Result<void> fitForSeries(const JudgeRequest& request) {
  if (request.mixes.empty() || (!request.coats && request.steps.empty()) || !request.carrier) return fail(Code::BadChoice, "A series needs to know --mix, --carrier, and --coats or --steps");
  return {};
}

Result<SeriesFile> SeriesFile::open(std::filesystem::path path) {
  SeriesFile file;
  file.path_ = std::move(path);
  std::error_code ignored;
  if (!std::filesystem::exists(file.path_, ignored)) return file;
  auto text = readTextFile(file.path_, Code::SeriesUnusable);
  if (!text) return std::unexpected(text.error());
  if (const auto series = readSeries(*text); !series) return std::unexpected(series.error());
  file.text_ = std::move(*text);
  return file;
}

Result<std::optional<Caution>> SeriesFile::add(const JudgeReport& report, double carrier_per_tint) {
  auto read = seriesOf(report, carrier_per_tint);
  if (!read) return std::unexpected(read.error());
  std::error_code ignored;
  GrowingJson json = GrowingJson::parse(seriesText({}));
  const bool begun = !std::filesystem::exists(path_, ignored);
  if (!begun) {
    auto text = readTextFile(path_, Code::SeriesUnusable);
    if (!text) return std::unexpected(text.error());
    if (*text != text_)  // somebody else wrote it; what was written here may still lack the ground
      if (const auto series = readSeries(*text); !series) return std::unexpected(series.error());
    json = GrowingJson::parse(*text);
  }
  if (!nameAnew(json["panels"], read->panels, report)) return std::nullopt;
  const bool other_carrier = !begun && json["carrier_per_tint"] != read->carrier_per_tint;
  const bool own_ground = read->ground && json.contains("ground");
  for (SeriesPanel& panel : read->panels) {
    if (other_carrier) panel.carrier_per_tint = read->carrier_per_tint;
    if (own_ground) panel.ground = read->ground->lab;
  }
  const GrowingJson fresh = GrowingJson::parse(seriesText(*read));
  if (begun) {
    json = fresh;
  } else {
    for (const char* field : {"target", "ground"})
      if (!json.contains(field) && fresh.contains(field)) json[field] = fresh[field];
    for (const GrowingJson& panel : fresh["panels"]) json["panels"].push_back(panel);
  }
  const std::string text = json.dump(2, ' ', false, GrowingJson::error_handler_t::replace) + "\n";
  if (const auto after = readSeries(text); !after && json.contains("ground")) return std::unexpected(after.error());
  if (const auto written = writeWhole(path_, text); !written) return std::unexpected(written.error());
  text_ = text;
  constexpr double kOtherCard = 2;  // ΔE00, beyond what two readings of one card differ by; a choice
  const auto target = targetIn(json);
  const double apart = target && read->target ? deltaE2000(*target, *read->target) : 0;
  if (apart <= kOtherCard) return std::nullopt;
  return Caution{CautionCode::OtherCard, fmt::format("{:.1f}", apart)};
}

}  // namespace huewright
