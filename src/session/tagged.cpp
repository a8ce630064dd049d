#include "session/tagged.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

#include "mix/series.hpp"

namespace huewright {
namespace {

double toSegment(Point p, Point a, Point b) {
  const double dx = b.x - a.x, dy = b.y - a.y, length = dx * dx + dy * dy;
  const double t = length > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

double toPanel(Point p, const Quad& panel) {
  if (contains(panel, p)) return 0;
  double least = INFINITY;
  for (std::size_t i = 0; i < 4; ++i) least = std::min(least, toSegment(p, panel.corners[i], panel.corners[(i + 1) % 4]));
  return least;
}

/// A tag and the panel that it is nearest to.
struct TagNear {
  std::size_t tag, panel;
  double distance;
};

std::vector<TagNear> nearest(const TagSearch& found, const std::vector<Quad>& panels) {
  std::vector<TagNear> out;
  for (std::size_t t = 0; t < found.tags.size(); ++t) {
    TagNear best{t, 0, INFINITY};
    for (std::size_t p = 0; p < panels.size(); ++p)
      if (const double d = toPanel(centre(found.tags[t].place), panels[p]); d < best.distance) best = {t, p, d};
    out.push_back(best);
  }
  std::ranges::stable_sort(out, {}, &TagNear::distance);
  return out;
}

/// "the mix 1:3, and its tag "frame 3" says 1:4" for each fact that was told otherwise.
std::vector<std::string> contradictions(const PanelFacts& told, const TagText& tag, bool stepped, double most_coats) {
  std::vector<std::string> out;
  const auto differ = [](double a, double b) { return std::abs(a - b) > 1e-9 * std::max(1.0, std::abs(a)); };
  const auto add = [&](const std::string& said, const std::string& on_tag) { out.push_back(fmt::format("{}, and its tag \"{}\" says {}", said, tag.name, on_tag)); };
  if (told.mix && tag.parts && differ(told.mix->strong * tag.parts->weak, told.mix->weak * tag.parts->strong))
    add("the mix " + partsWords(told.mix->strong, told.mix->weak), partsWords(tag.parts->strong, tag.parts->weak));
  if (!stepped && told.coats && tag.coats && differ(*told.coats, *tag.coats)) add(coatsWords(*told.coats), coatsWords(*tag.coats));
  if (stepped && tag.coats && differ(most_coats, *tag.coats)) add("steps of up to " + coatsWords(most_coats), coatsWords(*tag.coats));
  if (told.carrier && tag.carrier && differ(*told.carrier, *tag.carrier)) add(fmt::format("carrier {:g}", *told.carrier), fmt::format("{:g}", *tag.carrier));
  return out;
}

}  // namespace

Filed fileTags(const TagSearch& found, const Scene& scene, const JudgeRequest& request) {
  const std::vector<Quad>& panels = scene.regions.panels;
  const bool stepped = !request.steps.empty();
  Filed filed;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    PanelFacts told;
    told.coats = stepped ? std::optional(request.steps[i]) : request.coats;
    if (told.coats != 0.0 && !request.mixes.empty()) told.mix = request.mixes.size() == 1 ? request.mixes.front() : request.mixes[i];
    told.carrier = request.carrier;
    filed.panels.push_back(std::move(told));
  }
  for (const SeenTag& tag : found.tags) filed.tags.push_back({tag.text, tag.place, {}});
  if (panels.empty()) return filed;

  std::vector<std::string> taken(panels.size());
  for (const TagNear& near : nearest(found, panels)) {
    const TagText& tag = found.tags[near.tag].text;
    const std::size_t first = stepped ? 0 : near.panel, count = stepped ? panels.size() : 1;
    const std::string name = stepped ? "the stepped panel" : panelName(near.panel, panels.size());
    if (!taken[first].empty()) {
      filed.cautions.push_back({CautionCode::TwoTags, fmt::format("Two tags lie nearest to {}: \"{}\" was used, and \"{}\", which is farther off, was not", name, taken[first], tag.name)});
      continue;
    }
    taken[first] = tag.name;
    filed.tags[near.tag].panel = first;
    const auto sprayed = std::ranges::find_if(filed.panels.begin() + static_cast<std::ptrdiff_t>(first), filed.panels.begin() + static_cast<std::ptrdiff_t>(first + count),
                                              [](const PanelFacts& p) { return p.coats != 0.0; });
    if (sprayed != filed.panels.end()) {
      const double most = stepped ? std::ranges::max(request.steps) : 0;
      for (const std::string& said : contradictions(*sprayed, tag, stepped, most)) filed.cautions.push_back({CautionCode::TagContradicts, fmt::format("Of {} was told {}", name, said)});
    }
    for (std::size_t i = first; i < first + count; ++i) {
      PanelFacts& facts = filed.panels[i];
      facts.tag = tag.name;
      if (!facts.coats) facts.coats = tag.coats;
      if (facts.coats != 0.0 && !facts.mix && tag.parts) facts.mix = Mix{tag.parts->strong, tag.parts->weak};
      if (!facts.carrier) facts.carrier = tag.carrier;
    }
  }
  if (const std::size_t n = found.unread.size(); n > 0)
    filed.cautions.push_back({CautionCode::TagUnread, n == 1 ? "A tag is in the photo, but it cannot be read" : fmt::format("{} tags are in the photo that cannot be read", n)});
  return filed;
}

std::string untold(const std::vector<PanelFacts>& panels) {
  bool mix = false, coats = false, carrier = false;
  for (const PanelFacts& panel : panels) {
    if (panel.coats == 0.0) continue;
    mix = mix || !panel.mix;
    coats = coats || !panel.coats;
    carrier = carrier || !panel.carrier;
  }
  std::vector<std::string> missing;
  if (mix) missing.emplace_back("the mix (--mix)");
  if (coats) missing.emplace_back("the coats (--coats or --steps)");
  if (carrier) missing.emplace_back("the carrier (--carrier)");
  std::string out;
  for (std::size_t i = 0; i < missing.size(); ++i) out += (i == 0 ? "" : i + 1 < missing.size() ? ", " : " and ") + missing[i];
  return out;
}

std::string untold(const JudgeReport& report) {
  std::vector<PanelFacts> panels;
  for (std::size_t i = 0; i < report.mixes.size(); ++i) panels.push_back({report.mixes[i], report.coats[i], report.carriers[i], {}});
  return untold(panels);
}

bool toldByTags(const JudgeReport& report) {
  constexpr std::array kAgainst{CautionCode::TagContradicts, CautionCode::TwoTags, CautionCode::TagUnread};
  if (std::ranges::any_of(report.cautions, [&](const Caution& caution) { return std::ranges::find(kAgainst, caution.code) != kAgainst.end(); })) return false;
  for (std::size_t i = 0; i < report.panel_tags.size(); ++i) {
    if (report.coats[i] == 0.0) continue;
    const auto tells = [&](const TagReport& tag) { return tag.panel && tag.text.name == report.panel_tags[i] && tag.text.parts && (report.stepped || tag.text.coats); };
    if (std::ranges::none_of(report.tags, tells)) return false;
  }
  return true;
}

}  // namespace huewright
