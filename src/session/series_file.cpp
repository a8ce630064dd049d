#include "session/series_file.hpp"

#include <nlohmann/json.hpp>

#include "photo/write.hpp"
#include "session/joining_cautions.hpp"
#include "session/series.hpp"
#include "session/series_names.hpp"
#include "session/series_text.hpp"
#include "session/set_up.hpp"
#include "session/text_file.hpp"

namespace huewright {
namespace {

using GrowingJson = nlohmann::ordered_json;

/// What names and readings are told apart by. The file may still lack the ground, so it is not read as a whole series.
std::vector<SeriesPanel> panelsThere(const GrowingJson& json) {
  std::vector<SeriesPanel> panels;
  for (const GrowingJson& one : json) {
    SeriesPanel panel;
    panel.name = one.value("name", "");
    panel.piece = one.value("piece", "");
    panel.strong = one.value("strong", 0.0);
    panel.weak = one.value("weak", 0.0);
    panel.coats = one.value("coats", 0.0);
    if (one.contains("carrier_per_tint")) panel.carrier_per_tint = one["carrier_per_tint"].get<double>();
    panel.lab = {one["lab"][0].get<double>(), one["lab"][1].get<double>(), one["lab"][2].get<double>()};
    panels.push_back(std::move(panel));
  }
  return panels;
}

std::optional<Lab<D50>> targetIn(const GrowingJson& json) {
  if (!json.contains("target")) return {};
  const auto& lab = json["target"]["lab"];
  return Lab<D50>{lab[0].get<double>(), lab[1].get<double>(), lab[2].get<double>()};
}

}  // namespace

Result<void> fitForSeries(const JudgeRequest& request) {
  const bool tags_looked_for = usesMat(request) || request.chart_use != ChartUse::None;  // they may tell the rest
  if (!tags_looked_for && (request.mixes.empty() || (!request.coats && request.steps.empty()) || !request.carrier))
    return fail(Code::BadChoice, "A series needs to know --mix, --carrier, and --coats or --steps");
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
  const double carrier = begun ? read->carrier_per_tint : json["carrier_per_tint"].get<double>();
  const bool own_ground = read->ground && json.contains("ground");
  for (SeriesPanel& panel : read->panels) {
    const double its_own = panel.carrier_per_tint.value_or(read->carrier_per_tint);
    panel.carrier_per_tint = its_own == carrier ? std::nullopt : std::optional(its_own);
    if (own_ground) panel.ground = read->ground->lab;
  }
  nameAnew(panelsThere(json["panels"]), carrier, read->panels, report);
  if (read->panels.empty()) return std::nullopt;
  if (auto full = noRoomCaution(json["panels"].size(), read->panels.size())) return full;
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
  return otherCardCaution(targetIn(json), read->target);
}

}  // namespace huewright
