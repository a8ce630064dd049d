#include "scene/scene.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace huewright {
namespace {

struct Named {
  std::string name;
  Quad* quad;
};

double shortestRegionSide(const Quad& quad) {
  double shortest = 1e300;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = quad.corners[i], b = quad.corners[(i + 1) % 4];
    shortest = std::min(shortest, std::hypot(a.x - b.x, a.y - b.y));
  }
  return shortest;
}

}  // namespace

std::string panelName(std::size_t index, std::size_t count) {
  return count < 2 ? "the panel" : std::string("panel ") + static_cast<char>('A' + static_cast<int>(index));
}

std::string greyName(std::size_t index, std::size_t count) {
  return count < 2 ? "the grey patch" : "grey patch " + std::to_string(index + 1);
}

std::string Scene::nameOfPanel(std::size_t index) const {
  return index < panel_names.size() ? panel_names[index] : panelName(index, regions.panels.size());
}

Result<Scene> arrange(const Regions& given, Size picture, const Limits& limits) {
  if (given.panels.size() > static_cast<std::size_t>(limits.panels))
    return fail(Code::TooManyPanels, std::to_string(given.panels.size()));
  Scene scene;
  scene.regions = given;
  std::vector<Named> all;
  auto& r = scene.regions;
  for (std::size_t i = 0; i < r.panels.size(); ++i) all.push_back({panelName(i, r.panels.size()), &r.panels[i]});
  if (r.card) all.push_back({"the card", &*r.card});
  for (std::size_t i = 0; i < r.greys.size(); ++i) all.push_back({greyName(i, r.greys.size()), &r.greys[i]});
  if (r.black) all.push_back({"the black chip", &*r.black});

  for (auto& [name, quad] : all) {
    *quad = clockwise(*quad);
    for (const Point& p : quad->corners) {
      const bool inside = p.x >= 0 && p.y >= 0 && p.x <= picture.width && p.y <= picture.height;  // false for NaN too
      if (!inside)
        return fail(Code::RegionOutside, "The region of " + name + " reaches outside the picture, which is " +
                                             std::to_string(picture.width) + " by " + std::to_string(picture.height) + " pixels");
    }
    if (!isConvex(*quad)) return fail(Code::RegionFolded, name);
    if (shortestRegionSide(*quad) < kShortestSide)
      return fail(Code::RegionTooSmall, "The region of " + name + " is under " + std::to_string(static_cast<int>(kShortestSide)) +
                                            " pixels across");
  }
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = i + 1; j < all.size(); ++j)
      if (overlap(*all[i].quad, *all[j].quad))
        return fail(Code::RegionsOverlap, all[i].name + " and " + all[j].name);
  return scene;
}

}  // namespace huewright
