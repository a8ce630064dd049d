// The text of sample-images/truth.json.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "colour/delta_e.hpp"
#include "render/samples.hpp"

namespace huewright::render {
namespace {

std::string number(double value, int decimals) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

// Appending, not adding: g++ 12 warns of the library's own string addition (its bug 105329).
std::string inQuotes(std::string_view text) {
  std::string all(1, '"');
  all.append(text).append(1, '"');
  return all;
}

std::string field(const char* name, const std::string& value) { return inQuotes(name).append(": ").append(value); }

std::string joined(const std::vector<std::string>& parts, const char* between) {
  std::string all;
  for (const auto& p : parts) all += (all.empty() ? "" : between) + p;
  return all;
}

std::string labText(const Lab<D50>& lab) {
  std::string all(1, '[');
  all.append(joined({number(lab.L, 2), number(lab.a, 2), number(lab.b, 2)}, ", ")).append(1, ']');
  return all;
}

// Margin 0: no region is told.
std::string placeFields(const Quad& quad, double margin) {
  const std::string corners = field("quad", inQuotes(quadText(quad)));
  return margin > 0 ? joined({field("region", inQuotes(regionText(quad, margin))), corners}, ", ") : corners;
}

std::string surfaceFields(const SurfaceTruth& s, double margin) {
  return joined({placeFields(s.quad, margin), field("lab", labText(s.lab)), field("y", number(s.y, 4))}, ", ");
}

std::string paintFields(const Paint& p, const std::string& mix, bool stepped = false) {
  const std::string share = field("share", number(p.share, 4));
  return joined({field("mix", inQuotes(mix)), stepped ? share : joined({share, field("coats", number(p.coats, 2))}, ", "),
                 field("carrier_per_tint", number(p.carrier_per_tint, 1)), field("film", number(p.film, 3)),
                 field("ground", inQuotes(nameOf(p.ground))), field("strong", inQuotes(strongName(p.pair))),
                 field("weak", inQuotes(weakName(p.pair)))},
                ", ");
}

std::string steppedText(const PanelTruth& p, const std::vector<double>& steps, const std::string& mix, const Lab<D50>& card, double margin) {
  std::vector<std::string> strips;
  for (std::size_t i = 0; i < p.strips.size(); ++i) {
    const SurfaceTruth& s = p.strips[i];
    strips.push_back("           {" + joined({field("coats", number(steps.at(i), 2)), surfaceFields(s, 0),
                                              field("de00", number(deltaE2000(s.lab, card), 3))}, ", ") + "}");
  }
  return "        {" + joined({placeFields(p.surface.quad, margin), paintFields(p.paint, mix, true),
                               "\"strips\": [\n" + joined(strips, ",\n") + "\n         ]"}, ",\n         ") + "}";
}

std::string panelText(const PanelTruth& p, const std::string& mix, double margin) {
  const std::string advice = joined({field("de00", number(p.de00, 3)), field("best_share", number(p.best_share.value, 4)),
                                     field("de00_at_best_share", number(p.best_share.de00, 3)),
                                     field("best_coats", number(p.best_coats.value, 2)),
                                     field("de00_at_best_coats", number(p.best_coats.de00, 3))},
                                    ", ");
  return "        {" + joined({surfaceFields(p.surface, margin), paintFields(p.paint, mix), advice}, ",\n         ") + "}";
}

std::string photoText(const Sample& sample, const Rendered& r) {
  const SceneSpec& scene = sample.scene;
  const double margin = scene.mat ? 0 : regionMargin(r.size);
  std::vector<std::string> panels, greys;
  for (std::size_t i = 0; i < r.truth.panels.size(); ++i) {
    const PanelTruth& p = r.truth.panels[i];
    panels.push_back(p.strips.empty() ? panelText(p, sample.mixes.at(i), margin)
                                      : steppedText(p, scene.panels.at(i).steps, sample.mixes.at(i), r.truth.card.lab, margin));
  }
  for (const SurfaceTruth& g : r.truth.greys) greys.push_back("        {" + surfaceFields(g, margin) + "}");
  std::vector<std::string> facts{field("width", std::to_string(r.size.width)), field("height", std::to_string(r.size.height)),
                                 field("light", inQuotes(scene.shop.lamp.light)),
                                 field("camera", inQuotes(std::string(1, scene.shop.camera.sensitivity)))};
  if (scene.mat) facts.push_back(field("mat", inQuotes(scene.mat->layout.name)));
  if (!sample.swapped.empty()) facts.push_back(field("swapped", inQuotes(sample.swapped)));
  const std::string card = joined({surfaceFields(r.truth.card, margin),
                                   field("kind", inQuotes("same")) + ", " + paintFields(scene.card.paint, sample.card_mix)},
                                  ",\n         ");
  std::vector<std::string> fields{field("file", inQuotes(sample.file)), field("shows", inQuotes(sample.shows)), joined(facts, ", "),
                                  "\"panels\": [\n" + joined(panels, ",\n") + "\n      ]", "\"card\":\n        {" + card + "}",
                                  "\"greys\": [\n" + joined(greys, ",\n") + "\n      ]"};
  if (r.truth.black) fields.push_back("\"black\":\n        {" + surfaceFields(*r.truth.black, margin) + "}");
  return "    {\n      " + joined(fields, ",\n      ") + "\n    }";
}

}  // namespace

double regionMargin(Size size) { return 0.012 * std::max(size.width, size.height); }

std::string regionText(const Quad& quad, double margin) {
  const auto& c = quad.corners;
  const int left = static_cast<int>(std::ceil(std::max(c[0].x, c[3].x) + margin));
  const int right = static_cast<int>(std::floor(std::min(c[1].x, c[2].x) - margin));
  const int top = static_cast<int>(std::ceil(std::max(c[0].y, c[1].y) + margin));
  const int bottom = static_cast<int>(std::floor(std::min(c[2].y, c[3].y) - margin));
  return std::to_string(left) + "," + std::to_string(top) + "," + std::to_string(right - left) + "," + std::to_string(bottom - top);
}

std::string quadText(const Quad& quad) {
  std::vector<std::string> all;
  for (const Point p : quad.corners) {
    all.push_back(number(p.x, 1));
    all.push_back(number(p.y, 1));
  }
  return joined(all, ",");
}

std::string truthJson(const std::vector<Sample>& all, const std::vector<Rendered>& rendered) {
  std::vector<std::string> photos;
  for (std::size_t i = 0; i < all.size(); ++i) photos.push_back(photoText(all[i], rendered.at(i)));
  return "{\n  \"format\": 1,\n"
         "  \"about\": \"Simulated photographs with invented paints. Places are upright pixels; region is X,Y,W,H well inside the thing, "
         "quad its four corners; what lies on a mat has no region, for the mat is found. "
         "lab is the body colour under D50, 2 degree observer; y its luminance factor; de00 is CIEDE2000 from panel (or "
         "strip) to card. swapped is the second shot, with panel and card changed over.\",\n"
         "  \"photos\": [\n" + joined(photos, ",\n") + "\n  ]\n}\n";
}

}  // namespace huewright::render
