#include "sitting/inside.hpp"

namespace huewright {

void Sitting::Inside::closePhoto(int id) {
  const PlannedPhoto* photo = planned(id);
  if (!photo) return;
  remember("closing a photo");
  if (photo->role == PhotoRole::First) state.plan.photos.clear();
  else std::erase_if(state.plan.photos, [&](const PlannedPhoto& p) { return p.id == id; });
  follow();
}

void Sitting::Inside::setRole(const act::SetRole& wish) {
  PlannedPhoto* photo = planned(wish.id);
  if (!photo || photo->role == wish.role) return;
  if (photo->role == PhotoRole::First) return say("This is the photo that is judged. Give that place to another one instead.", true);
  remember("changing what a photo is for");
  for (PlannedPhoto& other : state.plan.photos)
    if (other.id != wish.id && other.role == wish.role && wish.role != PhotoRole::Again) other.role = photo->role;
  photo->role = wish.role;
  if (!takesRegions(wish.role)) photo->by_hand.reset();
  for (PhotoShown& shown : state.photos) shown.found = false;
  follow();
}

void Sitting::Inside::setRegions(const act::SetRegions& wish) {
  PlannedPhoto* photo = planned(wish.id);
  if (!photo) return;
  if (!takesRegions(photo->role)) return say("In this photo things lie where they lie in the first one.", true);
  remember(wish.words, wish.joins);
  photo->by_hand = wish.regions;
  follow();
}

void Sitting::Inside::findRegions(int id) {
  PlannedPhoto* photo = planned(id);
  if (!photo || !photo->by_hand) return;
  remember("looking for the mat");
  photo->by_hand.reset();
  follow();
}

}  // namespace huewright
