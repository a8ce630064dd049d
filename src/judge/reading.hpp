// Panels and card read from one photo, with everything that could have moved them.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/caution.hpp"
#include "camera/light.hpp"
#include "camera/patch.hpp"
#include "camera/profile.hpp"
#include "judge/budget.hpp"
#include "judge/known_grey.hpp"
#include "photo/photo.hpp"
#include "scene/scene.hpp"

namespace huewright {

/// When a cause is drawn anew.
enum class Renewal {
  Photo,  ///< in every photo, also of things that nothing moved
  SetUp,  ///< whenever panel and card are laid anew
  Never,  ///< the same for this camera, grey and kind of room
};

/// One independent cause, moved by one standard deviation: what it does to each colour, ΔLab. Causes that move panel and card
/// alike cancel in their difference by themselves; the joint covariance of all colours is the sum of the outer products.
struct Influence {
  Part part{};
  std::vector<Vec3> on_lab;  ///< panels in order, then the card
  Renewal renewal = Renewal::SetUp;
};

struct ColourReading {
  Lab<D50> lab;
  Vec3 lab_sd{};              ///< standard deviations of L*, a*, b*, all causes; zero for a card given as numbers
  Xyz<D50> xyz;               ///< corrected for light
  std::size_t pixels = 0;     ///< inside the region, masked ones included
  double clipped = 0;         ///< share of kept pixels with a channel at an end of its range, 0..1
  double masked = 0;          ///< share left out as glare or shadow, 0..1
  double grain = 0;           ///< as Patch::grain
};

/// What evened out the light.
enum class LightFrom { Nothing, Greys, Paper, Sheet };

/// "nothing", "greys", "paper", "sheet".
std::string_view lightFromName(LightFrom from);

struct Reading {
  std::vector<ColourReading> panels;
  ColourReading card;
  bool card_in_photo = true;  ///< false: the card is numbers, exact by definition
  std::vector<Influence> influences;
  std::vector<Caution> cautions;
  double grey_grain = 0;               ///< the largest of the greys' Patch::grain
  LightFrom light_from = LightFrom::Nothing;
  GreyUsed grey{};                     ///< what the greys' own colour was taken from
  std::optional<double> paper_residual;///< relative, of the light map: what its smooth surface leaves of the paper
  std::optional<double> veil;          ///< share of white that a black chip showed and that was taken off
  ProfileKind profile = ProfileKind::None;
  std::optional<double> loo_de00;
  Light light;                         ///< that the colours were corrected by
  std::optional<ColourMap> map;        ///< of a chart's profile: photographed XYZ go through it first, by way of device values
  Mat3 device_from_xyz = Mat3::identity();
  Vec3 gain{1, 1, 1};                  ///< of the map
  Vec3 veil_xyz{};                     ///< after the map: taken off glossy surfaces before the light
  std::vector<double> evened;          ///< a panel: natural log of what the slopes inside panel and card took off its brightness
};

/// Whether a surface mirrors the room.
enum class Gloss { Yes, No, Unsure };

struct MeasureOptions {
  std::optional<double> grey_y;        ///< luminance factor of the grey patch, 0..1; absent: 0.18 is assumed and said
  std::optional<Lab<D50>> card_lab;    ///< the card as numbers instead of a region
  std::optional<LightMap> sheet{};     ///< from a photo of a plain sheet in the same set-up; else the scene's own paper is used
  bool by_slopes = true;               ///< even out what the slopes inside panel and card tell; not for one of a pair that cancels it
  Gloss card_gloss = Gloss::Unsure;    ///< whether the card mirrors the room as the panel does; matters with a black chip only
  std::optional<LightSlope> course{};  ///< of the light, as a chart in the photo shows it
  std::optional<KnownGrey> grey{};     ///< as measured beside a chart, for all greys in the photo; grey_y comes before it
};

/// The greys' true colour as the options have it: a neutral of grey_y, else the measured grey, else a neutral of kAssumedGreyY.
Xyz<D50> greyColour(const MeasureOptions& options);

inline constexpr double kAssumedGreyY = 0.18;
inline constexpr double kPaperY = 0.83;   ///< luminance factor of white printing paper; 0.78 to 0.90 (from memory)

/// Reads all regions in one pass over the photo: linear, veil, light map, grey gain, Lab (D50, 2°).
/// Errors: of Photo::pixels; RegionTooSmall, RegionAllMasked, GreyUnusable, BlackUnusable, NoCard, NoPanel.
Result<Reading> measure(Photo& photo, const Scene& scene, const CameraProfile& profile, const MeasureOptions& options);

/// Multiplies what the camera's rendering, its tone curve and colours, leaves unknown by a factor (renderingFactor), and sets every lab_sd anew.
void widenRendering(Reading& reading, double factor);

/// Sets every lab_sd from the influences.
void refreshDeviations(Reading& reading);

/// Covariance of u (see deltaVector) of one panel against the card, of all parts or of one only.
Mat3 covarianceOfDifference(const Reading& reading, std::size_t panel, const Mat3& by_panel, const Mat3& by_card,
                            std::optional<Part> only = {});

}  // namespace huewright
