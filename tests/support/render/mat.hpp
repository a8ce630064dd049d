// The printed mat as it lies on the bench: its paper, its print, and the windows that things lie in. All spectra are invented.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "photo/geometry.hpp"
#include "render/spectra.hpp"
#include "scene/mat_layout.hpp"

namespace huewright::render {

/// Matt white paper. What its brightener sends out counts as reflected, the same under every lamp.
struct PaperSpec {
  double y = 0.84;                   ///< luminance factor under D50, exactly
  double brightener = 1;             ///< how bluish: 0 not at all, 1 as office paper, negative: yellowed
  double fibre = 0.01;               ///< relative spread of the brightness from place to place, one standard deviation
};
Spectrum paperBody(const PaperSpec& paper);

/// Toner with that luminance factor where it covers all of the paper.
Spectrum inkBody(double y);

/// One of the layout's windows. The panel of a layout that has none is its aperture.
struct Slot {
  MatWindowKind kind{};
  int index = 0;
  bool operator==(const Slot&) const = default;
};

struct MatSpec {
  MatLayout layout;
  double px_per_mm = 0;              ///< of the straight view; 0: the page takes up 88 % of the picture along the tighter side
  std::optional<Point> centre{};     ///< of the page in the plane, pixels of the straight view; nothing: the picture's middle
  double turn_deg = 0;               ///< clockwise, any angle
  double print_scale_x = 1;          ///< printed width over the layout's, about the page's centre; the page keeps its size
  double print_scale_y = 1;
  double page_width = 0;             ///< of the paper, millimetres; 0: the layout's page, or the sheet when it is to be cut out
  double page_height = 0;
  PaperSpec paper{};
  double ink = 0.04;                 ///< luminance factor of full ink
  double dots = 0.30;                ///< of the dots: ink that covers a share of the paper
  std::vector<Slot> panels{};        ///< where each lies; those without an entry: window number i of their kind
  std::optional<Slot> card = Slot{MatWindowKind::Card};   ///< nothing, or a window that is not there: no card in the picture
  std::vector<Slot> greys{};
  Slot black{MatWindowKind::Black};
  double gap_mm = 1;                 ///< that things stop short of each edge of their window
  double thickness_mm = 1.5;         ///< of the things: how far their shadows reach
  int dirt = 0;                      ///< smudges on the paper, dark or coloured, 3 mm to 15 mm long
  std::uint64_t dirt_seed = 0;       ///< 0: the picture's; else the same dirt in every picture of the sheet

  Slot panelSlot(std::size_t i) const { return i < panels.size() ? panels[i] : Slot{MatWindowKind::Panel, static_cast<int>(i)}; }
  Slot greySlot(std::size_t i) const { return i < greys.size() ? greys[i] : Slot{MatWindowKind::Grey, static_cast<int>(i)}; }
};

/// Width and height of the paper, millimetres.
Point pageSize(const MatSpec& mat);

/// Pixels of the straight view to a millimetre of paper.
double pxPerMm(const MatSpec& mat, Size picture);

/// The layout's millimetres to the plane's pixels, as printed.
Mat3 sheetToPlane(const MatSpec& mat, Size picture);

/// The window, or the aperture for a panel of a layout without panel windows.
std::optional<MatRect> windowOf(const MatLayout& layout, const Slot& slot);
inline bool isAperture(const MatLayout& layout, const Slot& slot) {
  return slot.kind == MatWindowKind::Panel && layout.aperture && windowOf(layout, slot) == layout.aperture;
}

}  // namespace huewright::render
