// A second, independent renderer: a panel, a card and a grey on a bench under a near lamp, photographed. It shares with the first one (render/) only
// the random numbers, the observer and the meaning of its truth. It is there to state coverage on a world that was built differently.
//
// Frozen: tune nothing on it, neither in the program nor in itself. Never look at single pictures of this to change a constant, and never at errors
// or coverage on it to change anything. Its constants are invented or common practice (no source), chosen before any picture was judged; a defect is
// mended only when a test of physics shows it, and every figure stated before is then stated anew.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <vector>

#include "photo/geometry.hpp"
#include "render2/camera.hpp"
#include "render2/cards.hpp"
#include "render2/light.hpp"
#include "render2/tone.hpp"
#include "render2/view.hpp"

namespace huewright::render2 {

/// A rectangle on the bench, cm.
struct Place {
  Point middle{};
  double width = 0, height = 0, turn_deg = 0;
};

/// How evenly a film was laid.
struct Finish {
  double mottle = 0.012;     ///< relative spread of the film from place to place, one standard deviation, stripes included
  double stripes = 0.4;      ///< their part of that variance, 0..1
  double slope_x = 0, slope_y = 0;  ///< relative change of the film over the thing's width, and over its height
  double gloss = 1;          ///< how much of the room it mirrors, 1: a clear coat
};

struct GreySpec {
  double y = 0.19;           ///< luminance factor under D50, exactly
  double tilt = 0;           ///< of its spectrum, relative, from end to end
};

enum class Bench { DarkRubber, GreyBoard, Plywood, LightPaper };

struct Spec {
  Size size{1000, 680};
  LightSpec light;
  ViewSpec view;
  CameraSpec camera;
  ToneSpec tone;
  Bench bench = Bench::GreyBoard;
  double room = 0.05;        ///< brightness of what glossy surfaces mirror, part of a white diffuser's in the middle …
  double room_x = 0, room_y = 0;  ///< … and its relative growth over light.half_width to the right, and downwards
  Paint panel;
  Finish panel_finish;
  Place panel_place{{-10, -3}, 13, 15, 0};
  CardBody card;
  Finish card_finish;
  Place card_place{{10, -3}, 11, 13, 0};
  GreySpec grey;
  Place grey_place{{0, 10.5}, 6, 5, 0};
  std::optional<Place> chart{};      ///< of the board
};

struct SpecOptions {
  double de00 = 1;           ///< wanted true distance; the picture's was within 0.01 of it in 800 tried: no film is even
  CardKind card = CardKind::Same;
  bool linear = false;       ///< a linear 16-bit TIFF, else a JPEG
  bool chart = false;
};

/// The same seed and options always give the same scene. Throws std::runtime_error when no paint can be found for it (never in 1200 tried).
Spec randomSpec(std::uint64_t seed, const SpecOptions& options = {});

struct Truth {
  Lab<D50> panel, card;      ///< body colours at 45°:0° under D50, means over the region; no mirror reflection, noise or flakes' grain
  double de00 = 0;           ///< between them
  double grey_y = 0;
  double share = 0;          ///< of the panel's strong tint, 0..1
  double best_share = 0;     ///< that brings it nearest to the card
  int stronger = 0;          ///< 1: more of the strong tint brings it nearer; −1: less
};

struct Rendered {
  Size size;
  std::vector<float> linear;         ///< output primaries, interleaved
  ToneSpec tone;
  bool p3 = false;
  char camera = 'f';
  Regions regions;                   ///< the true quads, clockwise from the thing's own top left
  std::optional<Quad> chart;         ///< outer corners of the chart's corner patches
  Truth truth;
};

/// The same spec and seed always give the same picture.
Rendered render(const Spec& spec, std::uint64_t seed);

/// What the sensor would see without noise, filters and lens: three values a pixel, interleaved, 1 where it is full.
std::vector<float> onSensor(const Spec& spec, std::uint64_t seed);

Spectrum greyBody(const GreySpec& grey);

/// Linear: a 16-bit TIFF with its profile; else a JPEG. EXIF has make "Simulated" and model "Camera F" or "Camera G".
/// Throws std::runtime_error when the file cannot be written.
void writePicture(const std::filesystem::path& path, const Rendered& picture);

}  // namespace huewright::render2
