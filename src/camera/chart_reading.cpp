#include "camera/chart_reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "camera/robust.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

// Tuned. Twelve photographs of whole charts came to errors of 2.1 to 4.5 with at most one patch beyond kSamePatch; grids laid over them one row off, and
// grids of other things, to errors of 23 and more with at most 11 patches within it. The border lies at the geometric mean.
constexpr double kMostError = 10;
// A chart with much of it hidden: half of the patches agree, and well. Only the sentence hangs on this: such a grid is refused either way.
constexpr double kHalf = 0.5, kWell = 8;
constexpr double kRim = 0.15;           // of a patch's side, left out at each edge
constexpr double kLeastRim = 2;         // pixels: a lens's and a JPEG's blur
constexpr double kLeastSwap = 8;        // ΔE*ab: patches that are nearer to each other cannot be told apart
constexpr double kPatchClipped = 0.05;  // share of the pixels
constexpr double kUnevenShare = 0.1;    // of a patch's parts; phones' noise and JPEG left none, see chart_reading_test
constexpr double kWhiteness = 0.4;      // of glare: its weakest over its strongest channel
constexpr double kAlike = 4;            // pixels whose noise goes together, after a filter pattern and compression; judgement
constexpr double kNoiseLimit = 4;       // standard deviations of a part's mean
constexpr int kParts = 5;               // along a patch's side

Quad square(const Mat3& h, std::size_t patch, int columns, double side) {
  const double x = static_cast<double>(patch % static_cast<std::size_t>(columns)) + 0.5, y = static_cast<double>(patch / static_cast<std::size_t>(columns)) + 0.5;
  const double half = 0.5 * side;
  return {{{onPhoto(h, {x - half, y - half}), onPhoto(h, {x + half, y - half}), onPhoto(h, {x + half, y + half}), onPhoto(h, {x - half, y + half})}}};
}

double shortestSide(const Quad& quad) {
  double shortest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = quad.corners[i], b = quad.corners[(i + 1) % 4];
    shortest = std::min(shortest, std::hypot(a.x - b.x, a.y - b.y));
  }
  return shortest;
}

bool inside(const Quad& quad, Size size) {
  return std::ranges::all_of(quad.corners, [&](Point p) { return p.x >= 0 && p.y >= 0 && p.x <= size.width && p.y <= size.height; });
}

/// Camera RGB to something like XYZ, so that regions are sampled in channels near those of sRGB.
Mat3 likeXyz(const PhotoFacts& facts) {
  if (!facts.camera_rgb) return Mat3::identity();
  const Mat3 balance = Mat3::diagonal(facts.balance.value_or(Vec3{1, 1, 1}));
  const Mat3 all = facts.builtin.value_or(kSrgbToXyzD50) * balance;
  return std::abs(determinant(all)) > 1e-9 ? all : kSrgbToXyzD50;
}

/// Camera RGB through a matrix, so that it can be sampled like XYZ.
void carryOver(Raster& raster, const Mat3& to_xyz) {
  for (std::size_t i = 0; i + 2 < raster.xyz.size(); i += 3) {
    const Vec3 xyz = to_xyz * Vec3{raster.xyz[i], raster.xyz[i + 1], raster.xyz[i + 2]};
    for (std::size_t c = 0; c < 3; ++c) raster.xyz[i + c] = static_cast<float>(xyz[c]);
  }
}

void carryBack(Patch& patch, const Mat3& to_xyz) {
  const Mat3 back = inverse(to_xyz);
  const Vec3 rgb = back * toVec(patch.mean);
  patch.mean = {rgb[0], rgb[1], rgb[2]};
  patch.of_mean = back * patch.of_mean * transpose(back);
}

/// How much of a patch is not of one colour.
struct ChartEvenness {
  double share = 0;       // of the parts that differ
  double lighter = 0;     // their mean L* less that of the median
  double stronger = 0;    // the same of C*ab
  Vec3 added{};           // their mean light less that of the median, linear sRGB
};

/// Compares the means of the parts of a patch in CIELAB, XYZ times `scale` counting as that under D50. What noise does to a part's mean counts for nothing.
ChartEvenness evenness(const Raster& raster, const Quad& quad, double scale) {
  std::array<Vec3, std::size_t{kParts} * kParts> sum{};
  std::array<Mat3, sum.size()> squares{};
  std::array<int, sum.size()> count{};
  const Point a = quad.corners[0], b = quad.corners[1], d = quad.corners[3];
  const double det = (b.x - a.x) * (d.y - a.y) - (b.y - a.y) * (d.x - a.x);  // a patch is all but a parallelogram
  if (!(det > 0)) return {};
  for (int y = 0; y < raster.rect.height; ++y)
    for (int x = 0; x < raster.rect.width; ++x) {
      const double px = raster.rect.x + x + 0.5 - a.x, py = raster.rect.y + y + 0.5 - a.y;
      const double u = (px * (d.y - a.y) - py * (d.x - a.x)) / det, v = (py * (b.x - a.x) - px * (b.y - a.y)) / det;
      if (!(u >= 0 && v >= 0 && u < 1 && v < 1)) continue;
      const auto part = static_cast<std::size_t>(static_cast<int>(v * kParts) * kParts + static_cast<int>(u * kParts));
      const float* xyz = raster.xyz.data() + 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(raster.rect.width) + static_cast<std::size_t>(x));
      const Vec3 pixel{xyz[0], xyz[1], xyz[2]};
      sum[part] = sum[part] + pixel;
      squares[part] = squares[part] + outer(pixel, pixel);
      ++count[part];
    }
  std::vector<Vec3> labs;
  std::array<std::vector<double>, 3> values;
  for (std::size_t i = 0; i < sum.size(); ++i) {
    if (count[i] == 0) continue;
    const Vec3 xyz = scale / count[i] * sum[i];
    labs.push_back(toVec(toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]})));
    for (std::size_t c = 0; c < 3; ++c) values[c].push_back(labs.back()[c]);
  }
  if (labs.empty()) return {};
  const Vec3 middle{medianOf(values[0]), medianOf(values[1]), medianOf(values[2])};
  const Vec3 of_middle = toVec(toXyz(Lab<D50>{middle[0], middle[1], middle[2]}));
  const Mat3 to_lab = scale * labByXyz(Xyz<D50>{of_middle[0], of_middle[1], of_middle[2]});
  std::vector<double> noise;  // of the parts' means
  for (std::size_t i = 0; i < sum.size(); ++i) {
    if (count[i] < 2) continue;
    const double n = count[i];
    const Mat3 of_pixel = 1 / (n - 1) * (squares[i] + -1 / n * outer(sum[i], sum[i]));
    const Mat3 of_lab = to_lab * of_pixel * transpose(to_lab);
    noise.push_back(std::sqrt(std::max(0.0, of_lab(0, 0) + of_lab(1, 1) + of_lab(2, 2)) * kAlike / n));
  }
  const double limit = noise.empty() ? kUnevenPart : std::hypot(kUnevenPart, kNoiseLimit * medianOf(noise));
  ChartEvenness e;
  double differ = 0;
  for (const Vec3& lab : labs) {
    if (length(lab - middle) <= limit) continue;
    ++differ;
    e.lighter += lab[0] - middle[0];
    e.stronger += chroma(lab) - chroma(middle);
    e.added = e.added + kXyzD50ToSrgb * (toVec(toXyz(Lab<D50>{lab[0], lab[1], lab[2]})) - of_middle);
  }
  e.share = differ / static_cast<double>(labs.size());
  if (differ > 0) e.lighter /= differ, e.stronger /= differ;
  return e;
}

std::string listed(const std::vector<std::string>& names) {
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i) all += (i == 0 ? "" : i + 1 < names.size() ? ", " : " and ") + names[i];
  return all;
}

/// "Three patches of the chart are".
std::string patchesAre(std::size_t count) {
  static constexpr std::array kNames{"No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine"};
  const std::string number = count < kNames.size() ? kNames[count] : std::to_string(count);
  return number + (count == 1 ? " patch of the chart is" : " patches of the chart are");
}

/// The picture's sides beyond which some of the quads reach.
std::string sidesBeyond(std::span<const Quad> quads, Size size) {
  std::array<bool, 4> beyond{};
  for (const Quad& quad : quads)
    for (const Point& p : quad.corners) {
      beyond[0] = beyond[0] || p.x < 0;
      beyond[1] = beyond[1] || p.x > size.width;
      beyond[2] = beyond[2] || p.y < 0;
      beyond[3] = beyond[3] || p.y > size.height;
    }
  static constexpr std::array kSides{"left", "right", "top", "bottom"};
  std::vector<std::string> names;
  for (std::size_t i = 0; i < beyond.size(); ++i)
    if (beyond[i]) names.emplace_back(kSides[i]);
  return listed(names);
}

ChartRefusal refusal(ChartFault fault, std::string sentence, double error, std::vector<std::string> patches = {}) {
  return {fault, std::move(sentence), std::move(patches), {}, error};
}

ChartRefusal notItsColours(double error) {
  return refusal(ChartFault::NotItsColours, "A chart-like grid was found, but its colours are not the chart's", error);
}

std::vector<std::string> namesOf(const ChartReference& reference, const std::vector<bool>& which) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < which.size(); ++i)
    if (which[i]) names.push_back(reference.patches[i].name);
  return names;
}

/// What the match says of the grid as a whole; nothing when it is the chart.
std::optional<ChartRefusal> judged(const ChartMatch& match, const ChartReference& reference) {
  std::vector<double> off;
  for (const double value : match.off)
    if (std::isfinite(value)) off.push_back(value);
  const auto half = static_cast<std::size_t>(std::ceil(kHalf * static_cast<double>(reference.patches.size())));
  const bool whole = match.error <= kMostError && match.agreeing * 10 >= off.size() * 8;
  if (off.size() < half || match.agreeing < half) return notItsColours(match.error);
  if (!whole) {
    std::ranges::sort(off);
    double best = 0;
    for (std::size_t i = 0; i < half; ++i) best += off[i] / static_cast<double>(half);
    if (best > kWell) return notItsColours(match.error);
  }
  if (match.arrangement.mirrored) return refusal(ChartFault::Mirrored, "The chart is mirrored", match.error);
  if (whole) return std::nullopt;
  std::vector<bool> covered;
  for (const double value : match.off) covered.push_back(std::isfinite(value) && value > kSamePatch);
  return refusal(ChartFault::Hidden, "Part of the chart is hidden, or in another light than the rest", match.error, namesOf(reference, covered));
}

/// True when a colour is that of the patch with white light added.
bool veiled(const Lab<D50>& seen, const Lab<D50>& published) {
  const Vec3 of_light = toVec(toXyz(seen)) - toVec(toXyz(published)), white = kWhite<D50>;
  const double added = dot(of_light, white) / dot(white, white);
  if (!(added > 0)) return false;
  const Vec3 xyz = toVec(toXyz(published)) + added * white;
  return length(toVec(seen) - toVec(toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]}))) <= kSamePatch;
}

/// What one patch shows. `seen`, `off`: from the match.
ChartPatchState stateOf(const Patch& patch, const ChartEvenness& even, const Lab<D50>& seen, const Lab<D50>& published, double off) {
  if (patch.clipped_top > kPatchClipped) return ChartPatchState::BurntOut;
  if (patch.pixels == 0) return ChartPatchState::Covered;
  // Parts in glare have white light added to them, which makes them paler; where they are the most, the rest has less of it and is stronger.
  const double step = 0.5 * kUnevenPart;
  const auto [least, most] = std::ranges::minmax(even.added);
  const bool white = least > 0 ? least > kWhiteness * most : most < 0 && most < kWhiteness * least;
  const bool glare = white && ((even.lighter > step && even.stronger < step) || (even.lighter < -step && even.stronger > step));
  if (even.share > kUnevenShare) return glare ? ChartPatchState::Glare : ChartPatchState::Covered;
  if (off > kSamePatch) return veiled(seen, published) ? ChartPatchState::Glare : ChartPatchState::Covered;
  return ChartPatchState::Good;
}

/// Patches each of which shows the other's colour rather than its own.
std::vector<std::pair<std::size_t, std::size_t>> changedPlaces(const ChartMatch& match, const ChartReference& reference) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  const auto lab = [&](std::size_t i) { return toVec(reference.patches[i].lab); };
  const auto as = [&](std::size_t a, std::size_t b) {
    return std::isfinite(match.off[a]) && match.off[a] > kLeastSwap && length(toVec(match.seen[a]) - lab(b)) < 0.5 * match.off[a];
  };
  for (std::size_t a = 0; a < match.off.size(); ++a)
    for (std::size_t b = a + 1; b < match.off.size(); ++b)
      if (as(a, b) && as(b, a)) pairs.emplace_back(a, b);
  return pairs;
}

std::unexpected<ChartRefusal> photoProblem(Problem problem) {
  ChartRefusal refused = refusal(ChartFault::PhotoProblem, sentence(problem), std::numeric_limits<double>::infinity());
  refused.problem = std::move(problem);
  return std::unexpected(std::move(refused));
}

/// The chart's own units to those of the grid in which it lies turned.
Mat3 ownUnits(ChartArrangement arrangement, int columns, int rows) {
  if (!arrangement.turned) return Mat3::identity();
  return {{{{-1, 0, static_cast<double>(columns)}, {0, -1, static_cast<double>(rows)}, {0, 0, 1}}}};
}

int quarterTurns(const Mat3& h, int columns, int rows) {
  const Point left = onPhoto(h, {0, 0.5 * rows}), right = onPhoto(h, {static_cast<double>(columns), 0.5 * rows});
  constexpr double kQuarter = 1.5707963267948966;
  return (static_cast<int>(std::lround(std::atan2(right.y - left.y, right.x - left.x) / kQuarter)) + 4) % 4;
}

/// Reads and checks a chart whose place is known.
std::expected<ChartReading, ChartRefusal> readAt(Photo& photo, const Mat3& homography, double share, const ChartReference& reference) {
  const std::size_t count = reference.patches.size();
  ChartReading reading;
  reading.homography = homography;
  std::vector<Rect> boxes;
  for (std::size_t i = 0; i < count; ++i) {
    const Quad outer = square(homography, i, reference.columns, share);
    const double side = shortestSide(outer);
    if (side < kSmallestPatch)
      return std::unexpected(refusal(ChartFault::TooSmall, "The chart's patches are under " + std::to_string(static_cast<int>(kSmallestPatch)) +
                                                               " pixels across: photograph the chart from nearer", 0));
    const double rim = std::max(kRim, kLeastRim / side);
    ChartSample s;
    s.name = reference.patches[i].name;
    s.reference = reference.patches[i].lab;
    s.quad = square(homography, i, reference.columns, share * (1 - 2 * rim));
    boxes.push_back(boundingBox(s.quad));
    reading.samples.push_back(std::move(s));
  }
  auto rasters = photo.pixels(boxes);
  if (!rasters) return photoProblem(rasters.error());
  const bool camera_rgb = photo.facts().camera_rgb;
  const Mat3 to_xyz = likeXyz(photo.facts());
  std::vector<GridColour> colours(count);
  double seen = 0, wanted = 0;  // of all patches' luminance: the exposure
  for (std::size_t i = 0; i < count; ++i) {
    Patch& patch = reading.samples[i].patch;
    if (camera_rgb) carryOver((*rasters)[i], to_xyz);
    patch = sample((*rasters)[i], reading.samples[i].quad, Shades::Not);
    seen += std::max(0.0, patch.mean.Y);
    wanted += toXyz(reading.samples[i].reference).Y;
    if (camera_rgb) carryBack(patch, to_xyz);
    colours[i].light = camera_rgb ? toVec(patch.mean) : kXyzD50ToSrgb * toVec(patch.mean);
    // What is burnt out does not take part; nor is it held against the rest.
    if (patch.pixels == 0 || patch.clipped_top > 0.5) colours[i].weight = 0;
  }
  const ChartMatch match = matchChart(colours, reference, {});
  reading.error = match.error;
  reading.slope = match.slope;
  std::vector<bool> glare(count), burnt(count), covered(count);
  for (std::size_t i = 0; i < count; ++i) {
    ChartSample& s = reading.samples[i];
    s.off = match.off[i];
    const ChartEvenness even = evenness((*rasters)[i], s.quad, seen > 0 ? wanted / seen : 1);
    s.uneven = even.share;
    s.state = stateOf(s.patch, even, match.seen[i], s.reference, colours[i].weight > 0 ? s.off : 0);
    glare[i] = s.state == ChartPatchState::Glare;
    burnt[i] = s.state == ChartPatchState::BurntOut;
    covered[i] = s.state == ChartPatchState::Covered;
  }
  for (const auto& [a, b] : changedPlaces(match, reference)) covered[a] = covered[b] = true;
  const auto many = [](const std::vector<bool>& which) { return static_cast<std::size_t>(std::ranges::count(which, true)); };
  const auto refused = [&](ChartFault fault, const char* what, const std::vector<bool>& which) {
    const auto names = namesOf(reference, which);
    return std::unexpected(refusal(fault, patchesAre(names.size()) + " " + what + ": " + listed(names), match.error, names));
  };
  if (many(burnt) > kMostLeftOut) return refused(ChartFault::BurntOut, "burnt out", burnt);
  if (many(glare) > kMostLeftOut) return refused(ChartFault::Glare, "in glare", glare);
  if (const auto bad = judged(match, reference)) return std::unexpected(*bad);
  if (many(covered) > 1) return refused(ChartFault::Hidden, "covered or stained", covered);
  // Two patches that have changed places look like one in glare and one covered.
  const std::size_t most = many(covered) > 0 && many(glare) > 0 ? 1 : kMostLeftOut;
  if (many(burnt) + many(glare) + many(covered) > most) {
    std::vector<bool> all(count);
    for (std::size_t i = 0; i < count; ++i) all[i] = glare[i] || burnt[i] || covered[i];
    return refused(many(covered) > 0 ? ChartFault::Hidden : ChartFault::Glare, "in glare, burnt out or covered", all);
  }
  const double near = 0.5 * (1 - share), right = reference.columns - near, bottom = reference.rows - near;
  reading.corners = {{{onPhoto(homography, {near, near}), onPhoto(homography, {right, near}), onPhoto(homography, {right, bottom}), onPhoto(homography, {near, bottom})}}};
  reading.quarter_turns = quarterTurns(homography, reference.columns, reference.rows);
  return reading;
}

/// A place where the preview shows the chart.
std::expected<ChartReading, ChartRefusal> readPlace(Photo& photo, const ChartPlace& place, const ChartReference& reference) {
  std::vector<Quad> outside;
  for (std::size_t i = 0; i < reference.patches.size(); ++i) {
    const Quad quad = square(place.grid.homography, i, reference.columns, place.grid.patch_share);
    if (!inside(quad, photo.size())) outside.push_back(quad);
  }
  if (!outside.empty())
    return std::unexpected(refusal(ChartFault::CutOff, "The chart is cut off at the " + sidesBeyond(outside, photo.size()), place.match.error));
  // What a preview shows to be hidden may only be glare; the full size tells.
  if (const auto bad = judged(place.match, reference); bad && bad->fault == ChartFault::Mirrored) return std::unexpected(*bad);
  return readAt(photo, place.grid.homography * ownUnits(place.match.arrangement, reference.columns, reference.rows), place.grid.patch_share, reference);
}

}  // namespace

std::expected<ChartReading, ChartRefusal> readChart(Photo& photo, const Preview& preview, std::span<const ChartGrid> grids, const ChartReference& reference) {
  const double none = std::numeric_limits<double>::infinity();
  if (reference.columns <= 0 || reference.rows <= 0 || reference.patches.size() != static_cast<std::size_t>(reference.columns) * static_cast<std::size_t>(reference.rows))
    return photoProblem({Code::Internal, "a chart's reference of the wrong length"});
  const auto pixels = static_cast<std::size_t>(std::max(0, preview.size.width)) * static_cast<std::size_t>(std::max(0, preview.size.height));
  if (preview.rgb.size() != 3 * pixels || !(preview.scale > 0)) return photoProblem({Code::Internal, "a preview of the wrong length"});
  std::vector<ChartPlace> places = chartPlaces(preview, grids, reference);
  if (places.empty()) return std::unexpected(refusal(ChartFault::NoGrid, "No chart was found", none));
  const auto isChart = [&](const ChartPlace& place) {
    const auto bad = judged(place.match, reference);
    return !bad || bad->fault != ChartFault::NotItsColours;
  };
  if (std::ranges::none_of(places, isChart)) {
    const auto best = std::ranges::min_element(places, [](const ChartPlace& a, const ChartPlace& b) { return betterMatch(a.match, b.match); });
    return std::unexpected(notItsColours(best->match.error));
  }
  std::erase_if(places, [&](const ChartPlace& place) { return !isChart(place); });
  std::optional<ChartRefusal> first;
  for (std::size_t i = 0; i < places.size(); ++i) {
    auto reading = readPlace(photo, places[i], reference);
    if (!reading && reading.error().problem) return reading;
    if (!reading) {
      if (!first) first = std::move(reading.error());
      continue;
    }
    for (std::size_t k = 0; k < places.size(); ++k)
      if (k != i) reading->others.push_back(places[k].outline);
    if (first) reading->passed_over = first->sentence;
    return reading;
  }
  return std::unexpected(*first);
}

}  // namespace huewright
