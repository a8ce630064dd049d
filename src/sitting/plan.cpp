#include "sitting/plan.hpp"

#include <algorithm>
#include <array>

namespace huewright {
namespace {

struct RoleRow {
  std::string_view name, words;
};
constexpr std::array<RoleRow, kPhotoRoleCount> kRoles{{{"first", "the photo that is judged"},
                                                       {"again", "the same again"},
                                                       {"changed-over", "panel and card changed over"},
                                                       {"other-light", "in another light"},
                                                       {"tilted", "tilted"}}};

}  // namespace

std::string_view photoRoleName(PhotoRole role) { return kRoles[static_cast<std::size_t>(role)].name; }
std::string_view photoRoleWords(PhotoRole role) { return kRoles[static_cast<std::size_t>(role)].words; }
bool takesRegions(PhotoRole role) { return role == PhotoRole::First || role == PhotoRole::OtherLight || role == PhotoRole::Tilted; }

const PlannedPhoto* photoOf(const Plan& plan, int id) {
  const auto at = std::ranges::find(plan.photos, id, &PlannedPhoto::id);
  return at == plan.photos.end() ? nullptr : &*at;
}

const PlannedPhoto* firstPhoto(const Plan& plan) {
  const auto at = std::ranges::find(plan.photos, PhotoRole::First, &PlannedPhoto::role);
  return at == plan.photos.end() ? nullptr : &*at;
}

}  // namespace huewright
