// A sitting's state with one photo of invented content, and a stand-in that takes the actions which views of photos need.
#pragma once

#include <algorithm>

#include "desk_driver.hpp"

namespace huewright::fixtures {

/// A photo of 2000 × 1500 with a preview of half that size; a panel, a card and a grey on it.
inline void addPhoto(SittingState& state, int id, PhotoRole role) {
  PlannedPhoto planned;
  planned.id = id;
  planned.file = "/shop/photos/bench-" + std::to_string(id) + ".jpg";
  planned.role = role;
  state.plan.photos.push_back(planned);
  PhotoShown photo;
  photo.id = id;
  photo.size = {2000, 1500};
  photo.preview = patternPicture({1000, 750}, 0.5);
  photo.facts = "JPEG, 2000 × 1500, sRGB";
  if (role == PhotoRole::First) {
    photo.regions.panels = {toQuad({400, 400, 400, 500})};
    photo.regions.card = toQuad({900, 400, 400, 500});
    photo.regions.greys = {toQuad({1500, 400, 200, 200})};
    photo.found = true;
  }
  state.photos.push_back(photo);
  if (state.shown == 0) state.shown = id;
}

/// Takes regions, and which photo is shown, as a sitting does.
inline void takeActions(DeskDriver& driver) {
  driver.apply = [&driver](const Action& action) {
    if (const auto* set = std::get_if<act::SetRegions>(&action)) {
      const auto at = std::ranges::find(driver.state.photos, set->id, &PhotoShown::id);
      if (at != driver.state.photos.end()) at->regions = set->regions;
    }
    if (const auto* show = std::get_if<act::ShowPhoto>(&action)) driver.state.shown = show->id;
    if (const auto* list = std::get_if<act::ListFolder>(&action); list && !list->folder.empty()) driver.state.folder.folder = list->folder;
  };
}

}  // namespace huewright::fixtures
