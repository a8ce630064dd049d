#include "session/series_file.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <nlohmann/json.hpp>

#include "colour/delta_e.hpp"
#include "photo/write.hpp"
#include "session/series.hpp"
#include "session/series_text.hpp"
#include "session/set_up.hpp"
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

bool bears(const GrowingJson& one, const char* field, const std::string& label) { return one.contains(field) && one[field] == label; }

bool isAmong(const GrowingJson& there, const char* field, const std::string& label) {
  return std::ranges::any_of(there, [&](const GrowingJson& one) { return bears(one, field, label); });
}

/// Strips without a tag: all get one piece that no other has. True when they are there already.
bool nameStrips(const GrowingJson& there, std::vector<SeriesPanel>& strips, const std::string& photo) {
  for (int n = 1;; ++n) {
    const std::string name = numberedName(photo, n);
    const auto is_there = [&](const SeriesPanel& strip) {
      return std::ranges::any_of(there, [&](const GrowingJson& one) { return bears(one, "piece", name) && sameReading(one, strip); });
    };
    for (SeriesPanel& strip : strips) strip.piece = name;
    if (std::ranges::all_of(strips, is_there)) return true;
    if (!isAmong(there, "piece", name)) return false;
  }
}

/// A name that no other panel has. True when the reading is there already.
bool nameOne(const GrowingJson& there, SeriesPanel& panel, const std::function<std::string(int)>& nth) {
  for (int n = 1;; ++n) {
    panel.name = nth(n);
    const auto at = std::ranges::find_if(there, [&](const GrowingJson& one) { return bears(one, "name", panel.name); });
    if (at == there.end()) return false;
    if (sameReading(*at, panel)) return true;
  }
}

/// What a tag names is one piece, whose film all its photos share, unless it was told of another mix or carrier before.
std::string pieceByTag(const GrowingJson& there, const SeriesPanel& panel, double carrier_per_tint) {
  const auto otherwise = [&](const GrowingJson& one, const std::string& label) {
    const double carrier = one.contains("carrier_per_tint") ? one["carrier_per_tint"].get<double>() : carrier_per_tint;
    return bears(one, "piece", label) && (one["strong"] != panel.strong || one["weak"] != panel.weak || carrier != panel.carrier_per_tint.value_or(carrier_per_tint));
  };
  for (int n = 1;; ++n) {
    std::string label = numberedName(panel.piece, n);
    if (std::ranges::none_of(there, [&](const GrowingJson& one) { return otherwise(one, label); })) return label;
  }
}

/// Gives the panels names that no other has, and takes out those that are there already. In: the series' carrier.
void nameAnew(const GrowingJson& there, std::vector<SeriesPanel>& panels, const JudgeReport& report, double carrier_per_tint) {
  const std::string photo = report.photo.path.stem().string();
  std::vector<std::string> own;  // what each is called in its photo, bare ground left out
  for (std::size_t i = 0; i < report.names.size(); ++i)
    if (report.coats[i] != 0) own.push_back(report.names[i]);
  if (report.stepped && std::ranges::all_of(panels, [](const SeriesPanel& strip) { return strip.name.empty(); })) {
    if (nameStrips(there, panels, photo)) panels.clear();
    return;
  }
  std::vector<SeriesPanel> fresh;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    SeriesPanel& panel = panels[i];
    const std::string by_tag = panel.name;
    if (!by_tag.empty()) panel.piece = pieceByTag(there, panel, carrier_per_tint);
    const auto nth = [&](int n) {
      if (!by_tag.empty()) return numberedName(by_tag, n);
      return panels.size() == 1 ? numberedName(photo, n) : fmt::format("{}, {}", numberedName(photo, n), own[i]);
    };
    if (!nameOne(there, panel, nth)) fresh.push_back(panel);
  }
  panels = std::move(fresh);
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
  nameAnew(json["panels"], read->panels, report, carrier);
  if (read->panels.empty()) return std::nullopt;
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
