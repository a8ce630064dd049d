// What a person has opened and chosen in a sitting: all that is kept, undone and saved. What the program finds out from it stands in state.hpp.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "judge/ranking.hpp"
#include "judge/standards.hpp"
#include "mix/series.hpp"
#include "photo/geometry.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// What a photo of the panel is for.
enum class PhotoRole {
  First,        ///< the photo that is judged; there is at most one
  Again,        ///< the same set-up once more, averaged with the first
  ChangedOver,  ///< panel and card in each other's places, or the mat turned by half
  OtherLight,   ///< the same two in another lamp's light
  Tilted,       ///< the same two from a low angle
};
inline constexpr std::size_t kPhotoRoleCount = 5;

/// "first", "again", "changed-over", "other-light", "tilted".
std::string_view photoRoleName(PhotoRole role);
/// As people read it: "the same again".
std::string_view photoRoleWords(PhotoRole role);
/// Whether regions can be marked in it by hand; in the others things lie where they lie in the first one.
bool takesRegions(PhotoRole role);

struct PlannedPhoto {
  int id = 0;                                   ///< unique in the sitting, from 1
  std::filesystem::path file;
  PhotoRole role = PhotoRole::First;
  std::optional<Regions> by_hand{};             ///< absent: what the mat shows is taken; only of the first, another light's and a tilted one
};

/// How the panel was sprayed, and how it is to be judged.
struct Choices {
  std::vector<Mix> mixes{};                     ///< parts of strong and weak tint: none, one for all panels, or one a panel
  std::optional<double> coats{};
  std::vector<double> steps{};                  ///< a stepped panel's coats as the picture shows them; coats is not looked at then
  std::optional<double> carrier{};              ///< volumes to one of tint
  std::string stage{};                          ///< of kStages, or empty; for the series
  CardKind card_kind = CardKind::Unknown;
  std::optional<Lab<D50>> card_lab{};           ///< the card as numbers
  double tolerance = 1.0;                       ///< ΔE00
  std::optional<double> grey_y{};               ///< luminance factor of the grey patch
  bool kept_grey = true;                        ///< use the grey that was measured and kept, if there is one and grey_y is not told
  Encoding encoding = Encoding::Auto;
  bool use_chart = true;                        ///< a chart in the photo is looked for
  std::optional<std::filesystem::path> profile{};
};

struct Plan {
  std::vector<PlannedPhoto> photos;
  Choices choices;
  std::optional<Series> series;                 ///< the open series; nothing before one is begun or opened
  std::filesystem::path series_file;            ///< where it was opened or saved last; empty: nowhere yet
  bool series_saved = true;                     ///< the file holds what is here
  std::optional<std::filesystem::path> tints;   ///< a tint file for the series
  std::optional<double> part_coats;             ///< coats that lie on the real part
  std::vector<std::filesystem::path> chart_photos;   ///< for the camera's profile
  Encoding chart_encoding = Encoding::Auto;
};

/// The photo with that id, or nullptr.
const PlannedPhoto* photoOf(const Plan& plan, int id);
/// The first photo, or nullptr.
const PlannedPhoto* firstPhoto(const Plan& plan);

}  // namespace huewright
