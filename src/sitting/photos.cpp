#include "sitting/inside.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "sitting/window_words.hpp"

namespace huewright {
namespace {

void put(const Result<OpenedPhoto>& opened, PhotoShown& shown) {
  shown.opening = false;
  if (!opened) {
    shown.trouble = windowWords(opened.error());
    return;
  }
  shown.facts = opened->facts;
  shown.size = opened->size;
  shown.preview = opened->preview;
}

}  // namespace

PhotoShown* Sitting::Inside::shownPhoto(int id) {
  const auto at = std::ranges::find(state.photos, id, &PhotoShown::id);
  return at == state.photos.end() ? nullptr : &*at;
}
PlannedPhoto* Sitting::Inside::planned(int id) {
  const auto at = std::ranges::find(state.plan.photos, id, &PlannedPhoto::id);
  return at == state.plan.photos.end() ? nullptr : &*at;
}

void Sitting::Inside::showPhotos() {
  std::vector<PhotoShown> next;
  for (const PlannedPhoto& photo : state.plan.photos) {
    PhotoShown shown;
    shown.id = photo.id;
    if (const PhotoShown* old = shownPhoto(photo.id)) shown = *old;
    else shown.opening = true;
    if (photo.by_hand) {
      shown.regions = *photo.by_hand;
      shown.found = false;
    } else if (!shown.found) {
      shown.regions = {};
    }
    next.push_back(std::move(shown));
  }
  state.photos = std::move(next);
  if (!shownPhoto(state.shown)) state.shown = state.photos.empty() ? 0 : state.photos.front().id;
  for (const PhotoShown& shown : state.photos)
    if (shown.opening && !quick.busy("photo " + std::to_string(shown.id))) readPhoto(shown.id);
}

void Sitting::Inside::readPhoto(int id) {
  quick.post("photo " + std::to_string(id), "Opening the photo", [this, id, file = planned(id)->file, encoding = state.plan.choices.encoding](const Progress&) -> Finish {
    return [this, id, opened = openForShow(file, {}, encoding)] {
      if (PhotoShown* shown = shownPhoto(id)) put(opened, *shown);
    };
  });
}

void Sitting::Inside::open(const act::OpenPhotos& wish) {
  if (wish.files.empty()) return;
  quick.post(fmt::format("open {}", ++opens), "Opening the photo", [this, wish, encoding = state.plan.choices.encoding](const Progress& progress) -> Finish {
    std::vector<Result<OpenedPhoto>> opened;
    for (const fs::path& file : wish.files) {
      if (progress.stopped()) return {};
      opened.push_back(openForShow(file, {}, encoding));
      progress.done(static_cast<double>(opened.size()) / static_cast<double>(wish.files.size()));
    }
    return [this, wish, opened = std::move(opened)] { takeIn(wish, opened); };
  });
}

void Sitting::Inside::takeIn(const act::OpenPhotos& wish, const std::vector<Result<OpenedPhoto>>& opened) {
  for (std::size_t i = 0; i < opened.size(); ++i)
    if (!opened[i]) return say(opened[i].error());
  Plan& plan = state.plan;
  const bool anew = wish.role == PhotoRole::First;
  if (!anew && !firstPhoto(plan)) return say("Open the photo of the panel first; others can be added to it then.", true);
  remember(anew ? "opening a photo" : "adding a photo");
  if (anew) {
    state.followed.came_last = false;
    plan.photos.clear();
    // Another panel: its mix is another one, what the card is and how it is judged are not.
    if (!wish.same_panel) plan.choices.mixes.clear(), plan.choices.coats.reset(), plan.choices.steps.clear();
  } else if (wish.role != PhotoRole::Again) {
    std::erase_if(plan.photos, [&](const PlannedPhoto& p) { return p.role == wish.role; });
  }
  for (std::size_t i = 0; i < opened.size(); ++i) {
    PlannedPhoto photo{next_id++, wish.files[i], i == 0 ? wish.role : PhotoRole::Again, {}};
    if (i == 0) photo.by_hand = wish.by_hand;
    PhotoShown shown;
    shown.id = photo.id;
    put(opened[i], shown);
    if (i == 0) state.shown = photo.id;
    plan.photos.push_back(std::move(photo));
    state.photos.push_back(std::move(shown));
    lately(wish.files[i]);
  }
  follow();
}

}  // namespace huewright
