// Places in a picture. Pixel i spans [i, i+1); all coordinates are upright, full-size pixels.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"

namespace huewright {

struct Size {
  int width = 0, height = 0;
  bool operator==(const Size&) const = default;
};

struct Point {
  double x = 0, y = 0;
  bool operator==(const Point&) const = default;
};

/// Whole pixels: columns [x, x+width), rows [y, y+height).
struct Rect {
  int x = 0, y = 0, width = 0, height = 0;
  bool operator==(const Rect&) const = default;
};

/// Four corners, clockwise from the top left as seen in the upright picture (y points down).
struct Quad {
  std::array<Point, 4> corners{};
  bool operator==(const Quad&) const = default;
};

/// Where things are in a photo.
struct Regions {
  std::vector<Quad> panels;
  std::optional<Quad> card;
  std::vector<Quad> greys;
  std::optional<Quad> black{};  ///< a glossy black chip, which shows what the room mirrors into a clear coat
};

/// Quad of a rectangle's outer edges.
Quad toQuad(const Rect& rect);

/// Smallest whole-pixel rectangle that holds the quad.
Rect boundingBox(const Quad& quad);

/// The part of a rectangle that lies in a picture of that size; at least one pixel of it.
Rect insidePicture(const Rect& rect, Size size);

/// Area by the shoelace formula, square pixels; positive when the corners run clockwise (y down).
double signedArea(const Quad& quad);

/// Mean of the corners.
Point centre(const Quad& quad);

/// True when all four turns go the same way, so that the edges neither cross nor bend inward.
bool isConvex(const Quad& quad);

/// True when the point lies inside or on the edge of a convex, clockwise quad.
bool contains(const Quad& quad, Point point);

/// True when two convex quads share some area (separating-axis test; a shared edge does not count).
bool overlap(const Quad& a, const Quad& b);

/// The quad with every corner moved towards the centre, so that `fraction` (0..1) of each half-extent is cut off.
Quad inset(const Quad& quad, double fraction);

/// Corners turned to run clockwise; the first stays first.
Quad clockwise(const Quad& quad);

/// Reads "X,Y,W,H" or "x1,y1,x2,y2,x3,y3,x4,y4" (pixels, finite numbers; spaces around numbers are allowed).
/// Errors: BadRegion for other text, ZeroRegion for an area of zero.
Result<Quad> parseQuad(const std::string& text);

}  // namespace huewright
