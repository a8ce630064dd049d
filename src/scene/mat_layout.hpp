// The printed mat's geometry: where its markers, windows and grey dots lie. Made for printing it and for finding it in a photo.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "photo/geometry.hpp"

namespace huewright {

// All lengths are millimetres; x runs to the right and y down from the sheet's top left corner.

struct MatRect {
  double x = 0, y = 0, width = 0, height = 0;
  bool operator==(const MatRect&) const = default;
};

/// A square fiducial: its black border is one cell wide and holds 4×4 cells.
struct MatMarker {
  int id = 0;                               ///< in the ArUco dictionary
  double x = 0, y = 0, side = 0;            ///< side with the border
  std::array<std::array<bool, 4>, 4> white{};  ///< rows of cells inside the border
};
inline constexpr int kMatMarkerCells = 6;   ///< along a side, with the border

enum class MatWindowKind { Panel, Card, Grey, Black };
inline constexpr std::size_t kMatWindowKindCount = 4;

/// A place for something. It is marked by ticks outside its corners; inside it and close round it the paper is blank.
struct MatWindow {
  MatWindowKind kind{};
  int index = 0;                            ///< among those of its kind, from 0
  MatRect place;
  bool label_below = false;                 ///< else its name stands above it
};

/// All identical. A phone that brightens or darkens parts of a picture makes them differ.
struct MatDots {
  double diameter = 0;
  std::vector<Point> centres;
};

struct MatTicks {
  double gap = 0, length = 0, width = 0;    ///< from the corner outward
};

struct MatLabels {
  double size = 0, gap = 0;                 ///< height of the letters with what hangs below; from the window to the base line or the top
};

/// A line that must measure `length` on paper; x, y: its left end, on the line's upper edge.
struct MatRuler {
  double x = 0, y = 0, length = 0;
};

/// Places of what is only there for people.
struct MatAreas {
  MatRect title, lamp, caution, pictograms, notes;
};

/// One kind of sheet as it lies on one kind of paper.
struct MatLayout {
  std::string name;                         ///< "a4-small"
  std::string sheet, title;                 ///< the kind, "small", and how people call it, "Small"
  std::string paper;                        ///< "a4"
  double page_width = 0, page_height = 0;   ///< of the paper
  double left = 0, top = 0;                 ///< of the sheet on the paper
  double width = 0, height = 0;             ///< of the sheet; smaller than the paper when it is to be cut out
  double clear = 0;                         ///< least blank paper between markers, windows and everything else
  double printer_margin = 0;                ///< rim of the paper that printers leave blank
  std::string dictionary;                   ///< ArUco's name for the set of markers
  std::vector<MatMarker> markers;           ///< clockwise from the top left; no id is on two kinds of sheet
  std::vector<MatWindow> windows;
  std::optional<MatRect> aperture;          ///< cut out of a sheet that is bent round a part
  MatDots dots;
  MatTicks ticks;
  MatLabels labels;
  MatRuler ruler;                           ///< may lie beside a sheet that is to be cut out, like the areas
  MatAreas areas;

  bool isCutOut() const { return width < page_width || height < page_height; }
};

/// Reads calib/mat.json: every sheet on every paper that it is printed on, checked: all things lie on their sheet, nothing overlaps or comes
/// nearer than `clear`, markers are unique across the kinds of sheets. Errors: DataMissing, with what is wrong.
Result<std::vector<MatLayout>> readMatLayouts(const std::filesystem::path& calib);

/// The one of that name, such as "a4". Errors: those of readMatLayouts; DataMissing for a name that is not there.
Result<MatLayout> readMatLayout(const std::filesystem::path& calib, std::string_view name);

/// What a window is called: "Panel A", "Card", "Grey 1", "Black".
std::string matWindowName(const MatWindow& window);

/// True when the two share some area or come nearer to each other than `apart`.
bool closerThan(const MatRect& a, const MatRect& b, double apart);

/// Where a marker lies, and where a dot does.
MatRect placeOf(const MatMarker& marker);
MatRect placeOfDot(const MatDots& dots, std::size_t index);

}  // namespace huewright
