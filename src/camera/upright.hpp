// A panel turned upright: its quad in the photo warped into a rectangle, evened for the light, quieted, and shown.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "camera/mask.hpp"
#include "colour/matrix.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// From photographed to corrected XYZ at a place of the photo (upright full-size pixels), such as Light::correction.
using Correction = std::function<Mat3(Point)>;

/// Size of the upright picture of a quad: its sides' mean lengths, never enlarged, the longer side at most `longest`; at least 1 × 1.
Size uprightSize(const Quad& quad, int longest);

/// The quad as a rectangle of that size, its first corner at the top left. In: pixels that cover the quad (beyond them the nearest is taken); the quad
/// convex and clockwise. Projective, averaged in linear light over each pixel's area (up to 8 × 8 bilinear samples). Out: rect starts at (0, 0);
/// a pixel's clip bits are set when a quarter of its samples have them.
/// Source: Heckbert, Fundamentals of Texture Mapping and Image Warping (1989), section 2.2.3.
Raster rectify(const Raster& photo, const Quad& quad, Size size);

/// The places of the photo that the middles of the upright picture's pixels show, row by row.
std::vector<Point> uprightPlaces(const Quad& quad, Size size);

/// Applies a correction to the upright picture of that quad. It is asked at a grid of at most 33 × 33 places and interpolated between them.
void correct(Raster& upright, const Quad& quad, const Correction& correction);

/// What each pixel of an upright picture shows: glare and shadow by blocks, as `mask` finds them. What all four sides of the panel share is
/// the film's edge and no shadow: a ring that is by up to a quarter deeper or lighter than the middle is levelled before it is judged.
std::vector<Kept> keptPixels(const Raster& upright);

/// By how much a map of that size is smoothed before colours are compared: 1/150 of its longer side, at least one pixel. A colour difference is never
/// negative, so that the noise of single pixels would all count as difference.
double mapSmoothing(Size size);

/// Gaussian smoothing in linear light, by a standard deviation in pixels (below 0.3 nothing is done). What is not `Kept::Yes` lends nothing to its
/// neighbours and stays as it is.
void smooth(Raster& upright, std::span<const Kept> kept, double sd);

/// For showing: 8-bit sRGB codes, interleaved; what lies outside the range is cut off.
std::vector<std::uint8_t> srgbCodes(const Raster& raster);

}  // namespace huewright
