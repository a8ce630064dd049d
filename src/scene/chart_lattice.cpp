#include "scene/chart_lattice.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <optional>

#include "scene/homography.hpp"

namespace huewright {
namespace {

// Common sense and what the photographs of charts showed.
constexpr double kNearestStep = 1.0, kFarthestStep = 2.8;  // a step over a cell's side without its blurred rim
constexpr double kSameArea = 2.6;                          // ratio between neighbours
constexpr std::size_t kNeighbours = 8;                     // of a seed that are tried for its first two steps
constexpr double kMiss = 0.25;                             // of a step, from where a neighbour is expected
constexpr double kOff = 0.13;                              // of a step, from the final homography
constexpr double kLeastCellStray = 1.5;                    // preview pixels; nearer centres are never left out of a fit
constexpr double kLatticeSkew = 0.3;                       // of a cell's sides against the steps
constexpr std::size_t kLargestLattice = 200;               // cells: tiles and grilles go on for ever
constexpr std::size_t kEnoughWays = 12;                    // first steps that are tried for one seed

using Place = std::pair<int, int>;

struct Grown {
  std::map<Place, std::size_t> at;
};

Point minus(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
Point plus(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
double norm(Point a) { return std::hypot(a.x, a.y); }

/// Cells sorted by x, so that those near a place are found quickly.
class Field {
 public:
  explicit Field(std::span<const FlatCell> cells) : cells_(cells) {}

  template <class Visit>
  void near(Point at, double reach, const Visit& visit) const {
    auto from = std::ranges::lower_bound(cells_, at.x - reach, {}, [](const FlatCell& c) { return c.centre.x; });
    for (; from != cells_.end() && from->centre.x <= at.x + reach; ++from)
      if (norm(minus(from->centre, at)) <= reach) visit(static_cast<std::size_t>(from - cells_.begin()));
  }

  const FlatCell& operator[](std::size_t i) const { return cells_[i]; }

 private:
  std::span<const FlatCell> cells_;
};

bool alike(const FlatCell& a, const FlatCell& b) { return a.area <= kSameArea * b.area && b.area <= kSameArea * a.area; }

/// True when the cell's own sides run along the two steps, and both are as large a part of them.
bool inLine(const FlatCell& cell, Point u, Point v) {
  const double det = cross(u, v);
  if (!(det > 0) || det < 0.5 * norm(u) * norm(v)) return false;
  // The moments in units of the steps: (side / step)² / 12 on the diagonal.
  const auto moment = [&](Point p, Point q) { return p.x * q.x * cell.xx + (p.x * q.y + p.y * q.x) * cell.xy + p.y * q.y * cell.yy; };
  const Point across{v.y / det, -v.x / det}, down{-u.y / det, u.x / det};  // rows of the inverse of (u v)
  const double a = moment(across, across), b = moment(down, down), c = moment(across, down);
  const auto fits = [](double m) { return m > 0.30 * 0.30 / 12 && m < 1.05 * 1.05 / 12; };
  return fits(a) && fits(b) && a < 2.2 * b && b < 2.2 * a && std::abs(c) <= kLatticeSkew * std::sqrt(a * b);
}

/// The step from a cell, as its neighbours have it, else as given.
Point stepAt(const Field& field, const Grown& grown, Place place, Place step, Point otherwise) {
  const auto find = [&](int c, int r) -> std::optional<Point> {
    const auto found = grown.at.find({c, r});
    return found == grown.at.end() ? std::nullopt : std::optional(field[found->second].centre);
  };
  const auto [c, r] = place;
  const auto [dc, dr] = step;
  const auto here = find(c, r);
  if (const auto behind = find(c - dc, r - dr); here && behind) return minus(*here, *behind);
  for (const int side : {1, -1}) {
    const auto a = find(c + side * dr, r + side * dc), b = find(c + dc + side * dr, r + dr + side * dc);
    if (a && b) return minus(*b, *a);
  }
  return otherwise;
}

Grown grow(const Field& field, std::size_t seed, Point u, Point v) {
  struct Open {
    Place place;
    Point u, v;
  };
  Grown grown{{{{0, 0}, seed}}};
  std::map<std::size_t, bool> used{{seed, true}};
  std::deque<Open> open{{{0, 0}, u, v}};
  while (!open.empty() && grown.at.size() < kLargestLattice) {
    const Open now = open.front();
    open.pop_front();
    const FlatCell& cell = field[grown.at.at(now.place)];
    const Point along = stepAt(field, grown, now.place, {1, 0}, now.u), down = stepAt(field, grown, now.place, {0, 1}, now.v);
    for (const Place& step : {Place{1, 0}, Place{0, 1}, Place{-1, 0}, Place{0, -1}}) {
      const Place next{now.place.first + step.first, now.place.second + step.second};
      if (grown.at.contains(next)) continue;
      const Point straight = step.first != 0 ? Point{step.first * along.x, step.first * along.y} : Point{step.second * down.x, step.second * down.y};
      const Point way = stepAt(field, grown, now.place, step, straight);
      const Point expected = plus(cell.centre, way);
      std::optional<std::size_t> best;
      double nearest = kMiss * std::min(norm(along), norm(down));
      field.near(expected, nearest, [&](std::size_t i) {
        const double off = norm(minus(field[i].centre, expected));
        if (off <= nearest && !used.contains(i) && alike(field[i], cell)) best = i, nearest = off;
      });
      if (!best || !inLine(field[*best], along, down)) continue;
      grown.at[next] = *best;
      used[*best] = true;
      open.push_back({next, along, down});
    }
  }
  return grown;
}

/// Least squares, without the pairs that are off by more than three times the median distance.
std::optional<HomographyFit> robustFit(std::vector<Point> from, std::vector<Point> to) {
  std::optional<HomographyFit> fit;
  for (int round = 0; round < 4; ++round) {
    fit = fitHomography(from, to);
    if (!fit) return std::nullopt;
    std::vector<double> off;
    for (std::size_t i = 0; i < from.size(); ++i) off.push_back(norm(minus(mapped(fit->matrix, from[i]), to[i])));
    std::vector<double> sorted = off;
    std::ranges::nth_element(sorted, sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2));
    const double most = std::max(kLeastCellStray, 3 * sorted[sorted.size() / 2]);
    std::vector<Point> kept_from, kept_to;
    for (std::size_t i = 0; i < from.size(); ++i)
      if (off[i] <= most) kept_from.push_back(from[i]), kept_to.push_back(to[i]);
    if (kept_from.size() == from.size() || kept_from.size() < 8) break;
    from = std::move(kept_from), to = std::move(kept_to);
  }
  return fit;
}

/// The homography of what was grown, without cells that are off it, and with those that it passes over.
std::optional<Lattice> settleLattice(const Field& field, Grown grown, std::size_t least) {
  std::optional<HomographyFit> fit;
  for (int round = 0; round < 4; ++round) {
    std::vector<Point> from, to;
    for (const auto& [place, i] : grown.at) {
      from.push_back({place.first + 0.5, place.second + 0.5});
      to.push_back(field[i].centre);
    }
    const auto flat = [&](int Place::* axis) { return std::ranges::all_of(grown.at, [&](const auto& e) { return e.first.*axis == grown.at.begin()->first.*axis; }); };
    if (from.size() < std::max<std::size_t>(least, 4) || flat(&Place::first) || flat(&Place::second)) return std::nullopt;
    fit = robustFit(from, to);
    if (!fit) return std::nullopt;
    int left = from.empty() ? 0 : grown.at.begin()->first.first, right = left, top = 0, bottom = 0;
    for (const auto& [place, i] : grown.at) {
      left = std::min(left, place.first), right = std::max(right, place.first);
      top = std::min(top, place.second), bottom = std::max(bottom, place.second);
    }
    if (round == 3 || (right - left + 3) * (bottom - top + 3) > 1000) break;
    Grown again;
    std::map<std::size_t, bool> used;
    for (int r = top - 1; r <= bottom + 1; ++r)
      for (int c = left - 1; c <= right + 1; ++c) {
        const Point at{c + 0.5, r + 0.5};
        const double scale = areaScale(fit->matrix, at);
        if (!(scale > 0) || !(scale < 1e6)) continue;
        const Point expected = mapped(fit->matrix, at);
        const Point u = minus(mapped(fit->matrix, {c + 1.0, r + 0.5}), mapped(fit->matrix, {c + 0.0, r + 0.5}));
        const Point v = minus(mapped(fit->matrix, {c + 0.5, r + 1.0}), mapped(fit->matrix, {c + 0.5, r + 0.0}));
        std::optional<std::size_t> best;
        double nearest = kOff * std::sqrt(scale);
        field.near(expected, nearest, [&](std::size_t i) {
          const double off = norm(minus(field[i].centre, expected));
          if (off <= nearest && inLine(field[i], u, v)) best = i, nearest = off;
        });
        if (best && !used.contains(*best)) again.at[{c, r}] = *best, used[*best] = true;
      }
    grown = std::move(again);
  }
  Lattice lattice{fit->matrix, {}, fit->sd};
  for (const auto& [place, i] : grown.at) {
    if (!(areaScale(fit->matrix, {place.first + 0.5, place.second + 0.5}) > 0)) return std::nullopt;
    lattice.cells.push_back({place.first, place.second, field[i].centre});
  }
  return lattice;
}

}  // namespace

std::vector<Lattice> lattices(std::span<const FlatCell> given, std::size_t least) {
  std::vector<FlatCell> cells(given.begin(), given.end());
  std::ranges::sort(cells, {}, [](const FlatCell& c) { return c.centre.x; });
  const Field field(cells);
  std::vector<char> used(cells.size());
  std::vector<Lattice> all;
  for (std::size_t seed = 0; seed < cells.size(); ++seed) {
    if (used[seed]) continue;
    const double side = std::sqrt(cells[seed].area);
    std::vector<std::size_t> around;
    field.near(cells[seed].centre, kFarthestStep * side, [&](std::size_t i) {
      if (i != seed && norm(minus(cells[i].centre, cells[seed].centre)) >= kNearestStep * side && alike(cells[i], cells[seed])) around.push_back(i);
    });
    if (around.size() < 2) continue;
    const auto away = [&](std::size_t i) { return norm(minus(cells[i].centre, cells[seed].centre)); };
    std::ranges::sort(around, {}, away);
    if (around.size() > kNeighbours) around.resize(kNeighbours);
    std::optional<Grown> best;
    std::size_t ways = 0;
    for (std::size_t a = 0; a < around.size() && ways < kEnoughWays; ++a)
      for (std::size_t b = a + 1; b < around.size() && ways < kEnoughWays; ++b) {
        const Point u = minus(cells[around[a]].centre, cells[seed].centre);
        Point v = minus(cells[around[b]].centre, cells[seed].centre);
        if (cross(u, v) < 0) v = {-v.x, -v.y};
        if (!inLine(cells[seed], u, v)) continue;
        ++ways;
        Grown grown = grow(field, seed, u, v);
        if (!best || grown.at.size() > best->at.size()) best = std::move(grown);
      }
    if (!best || best->at.size() < least) continue;
    for (const auto& [place, i] : best->at) used[i] = 1;
    if (auto lattice = settleLattice(field, *best, least)) {
      // The same once more from another seed, or turned by a right angle.
      const auto same = [&](const Lattice& other) {
        return 2 * std::ranges::count_if(lattice->cells, [&](const LatticeCell& cell) {
                 return std::ranges::find(other.cells, cell.centre, &LatticeCell::centre) != other.cells.end();
               }) > std::ranges::ssize(lattice->cells);
      };
      const auto found = std::ranges::find_if(all, same);
      if (found == all.end()) all.push_back(std::move(*lattice));
      else if (found->cells.size() < lattice->cells.size()) *found = std::move(*lattice);
    }
  }
  std::ranges::stable_sort(all, std::ranges::greater{}, [](const Lattice& l) { return l.cells.size(); });
  return all;
}

}  // namespace huewright
