// The text of sample-images/truth.json.
#include <algorithm>
#include <cmath>
#include <cstdio>

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

std::string surfaceFields(const SurfaceTruth& s, double margin) {
  return joined({field("region", inQuotes(regionText(s.quad, margin))), field("quad", inQuotes(quadText(s.quad))),
                 field("lab", labText(s.lab)), field("y", number(s.y, 4))},
                ", ");
}

std::string paintFields(const Paint& p, const std::string& mix) {
  return joined({field("mix", inQuotes(mix)), field("share", number(p.share, 4)), field("coats", number(p.coats, 2)),
                 field("carrier_per_tint", number(p.carrier_per_tint, 1)), field("film", number(p.film, 3)),
                 field("ground", inQuotes(nameOf(p.ground))), field("strong", inQuotes(strongName(p.pair))),
                 field("weak", inQuotes(weakName(p.pair)))},
                ", ");
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
  const double margin = regionMargin(r.size);
  const Shop& shop = sample.scene.shop;
  std::vector<std::string> panels, greys;
  for (std::size_t i = 0; i < r.truth.panels.size(); ++i) panels.push_back(panelText(r.truth.panels[i], sample.mixes.at(i), margin));
  for (const SurfaceTruth& g : r.truth.greys) greys.push_back("        {" + surfaceFields(g, margin) + "}");
  const std::string facts = joined({field("width", std::to_string(r.size.width)), field("height", std::to_string(r.size.height)),
                                    field("light", inQuotes(shop.lamp.light)),
                                    field("camera", inQuotes(std::string(1, shop.camera.sensitivity)))},
                                   ", ");
  const std::string card = joined({surfaceFields(r.truth.card, margin),
                                   field("kind", inQuotes("same")) + ", " + paintFields(sample.scene.card.paint, sample.card_mix)},
                                  ",\n         ");
  return "    {\n      " +
         joined({field("file", inQuotes(sample.file)), field("shows", inQuotes(sample.shows)), facts,
                 "\"panels\": [\n" + joined(panels, ",\n") + "\n      ]", "\"card\":\n        {" + card + "}",
                 "\"greys\": [\n" + joined(greys, ",\n") + "\n      ]"},
                ",\n      ") +
         "\n    }";
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
         "quad its four corners. "
         "lab is the body colour under D50, 2 degree observer; y its luminance factor; de00 is CIEDE2000 from panel to card.\",\n"
         "  \"photos\": [\n" + joined(photos, ",\n") + "\n  ]\n}\n";
}

}  // namespace huewright::render
