#include "session/series_names.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <string>

namespace huewright {
namespace {

using PanelsThere = std::span<const SeriesPanel>;

std::string numberedName(const std::string& name, int n) { return n == 1 ? name : fmt::format("{} {}", name, n); }

/// Strips without a tag: all get one piece that no other has. True when they are there already.
bool nameStrips(PanelsThere there, std::vector<SeriesPanel>& strips, const std::string& photo) {
  for (int n = 1;; ++n) {
    const std::string name = numberedName(photo, n);
    for (SeriesPanel& strip : strips) strip.piece = name;
    const auto is_there = [&](const SeriesPanel& strip) { return std::ranges::any_of(there, [&](const SeriesPanel& one) { return one.piece == name && sameReading(one, strip); }); };
    if (std::ranges::all_of(strips, is_there)) return true;
    if (std::ranges::find(there, name, &SeriesPanel::piece) == there.end()) return false;
  }
}

/// A name that no other panel has. True when the reading is there already.
bool nameOne(PanelsThere there, SeriesPanel& panel, const std::function<std::string(int)>& nth) {
  for (int n = 1;; ++n) {
    panel.name = nth(n);
    const auto at = std::ranges::find(there, panel.name, &SeriesPanel::name);
    if (at == there.end()) return false;
    if (sameReading(*at, panel)) return true;
  }
}

std::string pieceByTag(PanelsThere there, const SeriesPanel& panel, double carrier_per_tint) {
  const auto otherwise = [&](const SeriesPanel& one) {
    return one.strong != panel.strong || one.weak != panel.weak || one.carrier_per_tint.value_or(carrier_per_tint) != panel.carrier_per_tint.value_or(carrier_per_tint);
  };
  for (int n = 1;; ++n) {
    std::string label = numberedName(panel.piece, n);
    if (std::ranges::none_of(there, [&](const SeriesPanel& one) { return one.piece == label && otherwise(one); })) return label;
  }
}

}  // namespace

bool sameReading(const SeriesPanel& a, const SeriesPanel& b) { return a.strong == b.strong && a.weak == b.weak && a.coats == b.coats && a.lab == b.lab; }

void nameAnew(PanelsThere there, double carrier_per_tint, std::vector<SeriesPanel>& panels, const JudgeReport& report) {
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

}  // namespace huewright
