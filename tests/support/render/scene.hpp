// A bench with panels, a card and grey patches, photographed. The truth is known.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "photo/geometry.hpp"
#include "render/camera.hpp"
#include "render/chart.hpp"
#include "render/lamp.hpp"
#include "render/mat.hpp"
#include "render/paint.hpp"
#include "render/place.hpp"
#include "render/solve.hpp"
#include "render/style.hpp"

namespace huewright::render {

enum class Bench { DarkCloth, GreyCard, WhitePaper, Wood };

/// Where the camera stands. The plane is drawn as the picture's own pixels would show it straight on.
struct View {
  double tilt_deg = 0;       ///< the far (upper) edge recedes
  double turn_deg = 0;       ///< the right edge recedes
  double roll_deg = 0;       ///< clockwise
  double zoom = 1;
};

/// Lamp, camera, style, view and bench: what changes from shop to shop.
struct Shop {
  std::string name;
  Lamp lamp;
  Camera camera;
  Style style;
  View view;
  Bench bench = Bench::GreyCard;
  double veil = 0;           ///< uniform mirrored part of white added on glossy surfaces (panels and a painted card), 0..0.05
};

/// What a random shop may be like.
struct ShopOptions {
  std::vector<std::string> lights{"D65", "D50", "A", "FL2", "FL11", "LED-B1", "LED-B3", "LED-B5", "LED-V1", "ID65"};
  std::string cameras = "abc";
  double max_falloff = 0.10;
  double max_vignette = 0.05;
  double second_lamp_chance = 0;
  double max_veil = 0.004;
  double max_iso = 800;
  double balance_error = 0.03;       ///< one standard deviation of the red and blue gains' logarithms
  double max_tilt_deg = 8;
  double linear_chance = 0;          ///< of a linear TIFF instead of a JPEG
  bool plain_style = false;          ///< JPEGs without a picture style
};
Shop randomShop(std::uint64_t seed, const ShopOptions& options = {});

/// Shops with the cameras of kUnseenCameras under lamps that the others do not have, to state figures on and never to tune on. Frozen.
ShopOptions unseenShops();

/// What lies on top of a surface's colour.
struct Finish {
  double flake = 1;                  ///< scales the ground's sparkle and angle dependence; 0: as if the ground were plain
  double mottle = 0.015;             ///< relative spread of the film from place to place, one standard deviation
  double mottle_px = 14;             ///< its length
  double film_slope = 0;             ///< relative change of the film from left to right
  bool glossy = true;                ///< mirrors the shop's veil
  std::vector<Glare> glare;
  int dust = 0;                      ///< specks
  double bevel_px = 0;               ///< width of a lighter and darker edge, drawn inside the quad
};

/// The line that masking tape leaves where two strips meet. Pixels of the straight view.
struct TapeSpec {
  double width_px = 0;               ///< 0: no line
  double ridge = 0.25;               ///< relative change of the brightness on it, such as 0.25 or −0.3
  double wobble_px = 0;              ///< how far the edge strays from a straight line, one standard deviation
};

struct PanelSpec {
  Paint paint;
  Finish finish;
  Place place;
  std::vector<double> steps{};       ///< coats of each strip along the panel's longer side, from its own left or top end; paint.coats is ignored
  std::vector<double> step_widths{}; ///< of the strips, in any unit; empty: all alike
  TapeSpec tape{};
};

enum class CardKind { Same, OtherPigments, Printed };

struct CardSpec {
  CardKind kind = CardKind::Same;
  Paint paint;                       ///< what it is, or what it imitates
  int pigment_set = 0;               ///< of OtherPigments, 0..2
  std::optional<Spectrum> body;      ///< overrides all: any reflectance
  Finish finish;                     ///< flake and mottle matter for Same only
  Place place;
  double border_px = 0;              ///< width of a white border around the region (not part of it)
};

struct GreySpec {
  double y = 0.19;                   ///< luminance factor under D50, exactly
  double tilt = 0.012;               ///< departure from flat, relative
  Place place;
};

/// A chip that shows what the room mirrors into a clear coat.
struct ChipSpec {
  double y = 0.004;                  ///< luminance factor of its body
  bool glossy = true;                ///< mirrors the shop's veil
  std::vector<Glare> glare{};
  Place place{};
};

/// Anything flat that lies about on the bench, under all else.
struct ClutterSpec {
  Place place;
  Spectrum body{};
  double texture = 0.01;             ///< relative spread of the brightness from pixel to pixel, one standard deviation
  double bevel_px = 0;
  bool shadow = true;                ///< false: printed on what lies below
};

struct SceneSpec {
  Size size{900, 600};
  Shop shop;
  std::vector<PanelSpec> panels{PanelSpec{}};
  CardSpec card;
  std::vector<GreySpec> greys{GreySpec{}};
  std::optional<CastShadow> shadow;
  bool drop_shadows = true;          ///< soft shadows of the things on the bench
  std::optional<ChipSpec> black{};
  std::optional<MatSpec> mat{};      ///< things without a place lie in its windows and turn with it
  std::optional<ChartSpec> chart{};  ///< without a place: the largest one that is free; with a mat: beside the page
  bool has_card = true;              ///< false: no card in the picture; its truth still says what it would be
  std::vector<ClutterSpec> clutter{};
};

struct SurfaceTruth {
  Quad quad;                         ///< upright pixels, clockwise from top left
  Lab<D50> lab;                      ///< body colour, mean over the region; no mirror reflection, noise or flake texture
  double y = 0;                      ///< luminance factor under D50
};

struct PanelTruth {
  SurfaceTruth surface;
  Paint paint;
  double de00 = 0;                   ///< to the card
  Best best_share;                   ///< at the coats that the panel has; not for a stepped panel
  Best best_coats;                   ///< at the share that the panel has
  std::vector<SurfaceTruth> strips{};  ///< of a stepped panel, in the order of its steps; quads from boundary to boundary, colours without the lines
};

/// A smudge on the paper, picture pixels.
struct Smudge {
  Point at;
  double radius = 0;                 ///< the longer one
};

struct Truth {
  std::vector<PanelTruth> panels;
  SurfaceTruth card;
  std::vector<SurfaceTruth> greys;
  std::optional<SurfaceTruth> black{};
  std::optional<SurfaceTruth> paper{};  ///< the page, or the plain sheet
  std::optional<Mat3> mat{};         ///< the mat's millimetres, as printed, to picture pixels (homogeneous)
  std::vector<Smudge> dirt{};
  std::optional<ChartTruth> chart{};
};

struct Rendered {
  Size size;
  std::vector<float> linear;         ///< output primaries, interleaved, before encoding; 0..1 where nothing is over-exposed
  Regions regions;                   ///< the true quads
  Truth truth;
  Style style;                       ///< how it wants to be encoded: the shop's
};

/// Reflectance of the card's body without mottle.
Spectrum cardBody(const CardSpec& card);
inline Lab<D50> cardLab(const CardSpec& card) { return labUnderD50(cardBody(card)); }

/// The same spec and seed always give the same picture. Quads start at the thing's own top left corner, wherever that is after a turn.
/// Throws std::invalid_argument when a panel, grey or chip is to lie in a window that the mat does not have, and when no place is free for a chart.
Rendered render(const SceneSpec& scene, std::uint64_t seed);

/// What the sensor gave, before any development.
struct RawPicture {
  Size size;
  std::vector<float> sensor;         ///< R, G, B of the camera, interleaved: linear, not balanced, 1 where the sensor is full; with noise, so also below 0
  Vec3 neutral{1, 1, 1};             ///< what the camera took for white, largest 1
  Camera camera;
  Regions regions;
  Truth truth;
};

/// The same scene as a camera raw picture: every pixel has all three colours, as if it were three pixels of the sensor; noise from pixel to pixel is
/// independent, whatever camera.noise_correlation says. The shop's style does not matter. The same seed gives the same scene as render().
RawPicture renderRaw(const SceneSpec& scene, std::uint64_t seed);

/// The same camera, light, shadow and view, but only a large sheet of matt white paper (the mat's, if there is one) over the whole
/// picture or, if given, over a part of the bench.
Rendered plainSheet(const SceneSpec& scene, std::uint64_t seed, const std::optional<Place>& part = {});

/// Panel 0 and the card exchange their places: windows on a mat; else centres and turns, and each keeps its own size. What the lamp mirrors stays
/// where it was.
SceneSpec swapped(SceneSpec scene);

/// The sheet with everything on it, or without a mat all things, turned by 180° in the plane. Camera, light, shadow and what the lamp mirrors stay.
SceneSpec halfTurned(SceneSpec scene);

}  // namespace huewright::render
