#include "scene/mat_finder.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <new>
#include <opencv2/imgproc.hpp>

#include "scene/homography.hpp"
#include "scene/marker_search.hpp"

namespace huewright {
namespace {

// The standard deviation of the markers' corners about the homography that is still taken for a flat sheet: blur and noise came to 0.07 pixels on
// simulated photos, a twentieth of a marker's size by which it stands nearer or farther to 0.9. Common sense, no source, for real paper and lenses.
constexpr double kFlatPixels = 0.35;  // preview pixels
constexpr double kRoughPixels = 1.2;  // the same where a marker's corners are only rough
constexpr double kFlatSides = 0.010;  // as a share of a marker's side: paper that is curled a little, a lens that bends lines a little
constexpr double kOthersSides = 0.15; // beyond this the markers are arranged quite differently: they are somebody else's

/// What was seen of one kind of sheet.
struct Sighting {
  const MatLayout* layout = nullptr;
  std::vector<SeenMarker> seen, mirrored;
  bool repeated = false;  // some marker is there twice

  std::size_t needed() const { return std::max<std::size_t>(2, layout->markers.size() - 1); }
  bool enough() const { return seen.size() >= needed(); }
  bool complete() const { return seen.size() == layout->markers.size(); }
};

std::vector<std::uint8_t> greyOf(const Preview& preview) {
  std::vector<std::uint8_t> grey(preview.rgb.size() / 3);
  const cv::Mat rgb(preview.size.height, preview.size.width, CV_8UC3, const_cast<std::uint8_t*>(preview.rgb.data()));  // is only read
  cv::Mat out(preview.size.height, preview.size.width, CV_8U, grey.data());
  cv::cvtColor(rgb, out, cv::COLOR_RGB2GRAY);
  return grey;
}

/// One entry for each kind of sheet, most markers seen first.
std::vector<Sighting> sightings(const GreyView& picture, std::span<const MatLayout> layouts, SearchEffort effort) {
  std::vector<Sighting> sheets;
  std::vector<MatMarker> wanted;
  for (const MatLayout& layout : layouts) {
    if (std::ranges::any_of(sheets, [&](const Sighting& other) { return other.layout->sheet == layout.sheet; })) continue;
    sheets.push_back({&layout, {}, {}});
    wanted.insert(wanted.end(), layout.markers.begin(), layout.markers.end());
  }
  for (const SeenMarker& seen : searchMarkers(picture, wanted, effort))
    for (Sighting& sheet : sheets) {
      if (std::ranges::find(sheet.layout->markers, seen.id, &MatMarker::id) == sheet.layout->markers.end()) continue;
      auto& list = seen.mirrored ? sheet.mirrored : sheet.seen;
      if (std::ranges::find(list, seen.id, &SeenMarker::id) == list.end()) list.push_back(seen);
      else sheet.repeated = sheet.repeated || !seen.mirrored;
    }
  std::ranges::stable_sort(sheets, std::ranges::greater{}, [](const Sighting& sheet) { return sheet.seen.size(); });
  return sheets;
}

/// "top left", or just "left" where markers are only side by side.
std::string cornerName(const MatLayout& layout, const MatMarker& marker) {
  const auto spread = [&](double MatMarker::* axis) {
    const auto [low, high] = std::ranges::minmax(layout.markers, {}, axis);
    return high.*axis - low.*axis;
  };
  std::string name;
  if (spread(&MatMarker::y) > 0) name = marker.y + marker.side / 2 < layout.height / 2 ? "top" : "bottom";
  if (spread(&MatMarker::x) > 0) name += std::string(name.empty() ? "" : " ") + (marker.x + marker.side / 2 < layout.width / 2 ? "left" : "right");
  return name;
}

std::string listed(const std::vector<std::string>& names) {
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i) all += (i == 0 ? "" : i + 1 < names.size() ? ", " : " and ") + names[i];
  return all;
}

std::vector<const MatMarker*> missing(const Sighting& sheet) {
  std::vector<const MatMarker*> out;
  for (const MatMarker& marker : sheet.layout->markers)
    if (std::ranges::find(sheet.seen, marker.id, &SeenMarker::id) == sheet.seen.end()) out.push_back(&marker);
  return out;
}

std::string missingMarkers(const Sighting& sheet) {
  std::vector<std::string> names;
  for (const MatMarker* marker : missing(sheet)) names.push_back(cornerName(*sheet.layout, *marker));
  const bool many = names.size() > 1;
  return "The mat's marker" + std::string(many ? "s" : "") + " at its " + listed(names) + (many ? " were" : " was") + " not seen";
}

/// Nothing but mirror images of a sheet's markers: a mirrored picture.
bool mirrored(const std::vector<Sighting>& sheets) {
  return std::ranges::any_of(sheets, [](const Sighting& sheet) { return sheet.mirrored.size() >= 2 && sheet.mirrored.size() > sheet.seen.size(); });
}

/// The fit to all corners, four a marker, or without those of one edge where that halves what is left: dirt and fingertips that touch a marker
/// move an edge of it. A whole marker that stands elsewhere is no such thing: then the sheet is not flat. Three markers alone cannot tell.
std::optional<HomographyFit> withoutSpoilt(const std::vector<Point>& on_sheet, const std::vector<Point>& in_picture) {
  constexpr double kUsual = 0.12;  // preview pixels: no reason to look
  const auto all = fitHomography(on_sheet, in_picture);
  const std::size_t markers = on_sheet.size() / 4;
  if (!all || all->sd < kUsual || markers < 4) return all;
  auto best = all;
  for (std::size_t marker = 0; marker < markers; ++marker)
    for (std::size_t edge = 0; edge < 4; ++edge) {
      std::vector<Point> sheet, picture;
      for (std::size_t i = 0; i < on_sheet.size(); ++i) {
        if (i / 4 == marker && (i % 4 == edge || i % 4 == (edge + 1) % 4)) continue;
        sheet.push_back(on_sheet[i]);
        picture.push_back(in_picture[i]);
      }
      const auto without = fitHomography(sheet, picture);
      if (without && without->sd < best->sd) best = without;
    }
  return best->sd < 0.5 * all->sd ? best : all;
}

Result<FoundMat> settleSheet(const Sighting& sheet, const Preview& preview) {
  const MatLayout& layout = *sheet.layout;
  std::vector<Point> on_sheet, in_picture;
  double sides = 0;
  for (const SeenMarker& seen : sheet.seen) {
    const MatRect place = placeOf(*std::ranges::find(layout.markers, seen.id, &MatMarker::id));
    const double right = place.x + place.width, bottom = place.y + place.height;
    on_sheet.insert(on_sheet.end(), {{place.x, place.y}, {right, place.y}, {right, bottom}, {place.x, bottom}});
    in_picture.insert(in_picture.end(), seen.corners.begin(), seen.corners.end());
    sides += std::sqrt(std::abs(signedArea(Quad{seen.corners})));
  }
  const auto fit = withoutSpoilt(on_sheet, in_picture);
  const double side = sides / static_cast<double>(sheet.seen.size());
  if (!fit || fit->sd > kOthersSides * side) return fail(Code::MatNotFound);
  const double pixels = std::ranges::any_of(sheet.seen, &SeenMarker::rough) ? kRoughPixels : kFlatPixels;
  if (fit->sd > std::max(pixels, kFlatSides * side)) return fail(Code::MatNotFlat);
  for (const Point& corner : {Point{0, 0}, Point{layout.width, 0}, Point{layout.width, layout.height}, Point{0, layout.height}})
    if (!(areaScale(fit->matrix, corner) > 0)) return fail(Code::MatNotFlat);

  FoundMat mat{layout, Mat3::diagonal({1 / preview.scale, 1 / preview.scale, 1}) * fit->matrix, {}, {}, {}, fit->sd};
  for (const MatMarker* marker : missing(sheet)) mat.missed.push_back(marker->id);
  std::vector<std::string> cut;
  const auto add = [&](const MatRect& rect, const std::string& name) {
    const Quad quad = mat.place(rect);
    const bool inside = std::ranges::all_of(quad.corners, [&](Point p) {
      return p.x >= 0 && p.y >= 0 && p.x * preview.scale <= preview.size.width && p.y * preview.scale <= preview.size.height;
    });
    if (!inside) cut.push_back(name);
    return quad;
  };
  for (const MatWindow& window : layout.windows) mat.windows.push_back(add(window.place, matWindowName(window)));
  if (layout.aperture) mat.aperture = add(*layout.aperture, "the aperture");
  if (!cut.empty()) return fail(Code::MatCut, listed(cut));
  return mat;
}

Result<FoundMat> findSheet(const Preview& preview, std::span<const MatLayout> layouts) {
  const std::vector<std::uint8_t> grey = greyOf(preview);
  std::vector<Sighting> sheets = sightings({preview.size, grey}, layouts, SearchEffort::Quick);
  if (sheets.empty()) return fail(Code::MatNotFound);
  if (!sheets.front().complete() && !mirrored(sheets)) {
    // Even with three of four the last one is worth the time: what is worked out from three is less sure at the fourth corner.
    auto more = sightings({preview.size, grey}, layouts, SearchEffort::Thorough);
    if (more.front().seen.size() > sheets.front().seen.size() || mirrored(more)) sheets = std::move(more);
  }
  if (mirrored(sheets)) return fail(Code::MatMirrored);
  // A single stray marker of another sheet is no second mat.
  if (std::ranges::any_of(sheets, &Sighting::repeated) || (sheets.size() > 1 && sheets[0].enough() && sheets[1].seen.size() >= 2))
    return fail(Code::TwoMats);
  const Sighting& best = sheets.front();
  if (best.seen.empty()) return fail(Code::MatNotFound);
  if (!best.enough()) return fail(Code::MatMarkers, missingMarkers(best));
  return settleSheet(best, preview);
}

}  // namespace

Point FoundMat::place(Point mm) const { return mapped(homography, mm); }

Quad FoundMat::place(const MatRect& rect) const {
  const double right = rect.x + rect.width, bottom = rect.y + rect.height;
  return {{{place(Point{rect.x, rect.y}), place(Point{right, rect.y}), place(Point{right, bottom}), place(Point{rect.x, bottom})}}};
}

Result<FoundMat> findMat(const Preview& preview, std::span<const MatLayout> layouts) {
  const auto pixels = static_cast<std::size_t>(std::max(0, preview.size.width)) * static_cast<std::size_t>(std::max(0, preview.size.height));
  if (preview.rgb.size() != 3 * pixels || !(preview.scale > 0)) return fail(Code::Internal, "a preview of the wrong length");
  constexpr int kSmallest = 64;  // pixels; no mat fits into less, and filters need some room
  if (preview.size.width < kSmallest || preview.size.height < kSmallest) return fail(Code::MatNotFound);
  try {
    return findSheet(preview, layouts);
  } catch (const std::bad_alloc&) {
    return fail(Code::OutOfMemory, "finding the mat");
  } catch (const cv::Exception& error) {
    if (error.code == cv::Error::StsNoMem) return fail(Code::OutOfMemory, "finding the mat");
    return fail(Code::Internal, "finding the mat: " + error.err);
  }
}

}  // namespace huewright
