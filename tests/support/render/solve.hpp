// Panels at a wanted true distance from a card, and the best that a painter could do.
#pragma once

#include <optional>

#include "render/paint.hpp"

namespace huewright::render {

/// Which way from the best match. Stronger: more of the strong tint, or more coats.
enum class Side { Weaker, Stronger };

/// The share (or the coats, 0..16) at which the true ΔE00 between paint and card equals `de00`, everything else of the paint kept.
/// Nothing when the paint cannot get that near or that far. A distance of 0 gives the best match if that is under 0.01.
/// Accuracy: 1e-6 in ΔE00.
std::optional<double> shareForDistance(const Paint& paint, const Lab<D50>& card, double de00, Side side);
std::optional<double> coatsForDistance(const Paint& paint, const Lab<D50>& card, double de00, Side side);

/// The value that brings the paint nearest to the card, and the distance that is left.
struct Best {
  double value = 0, de00 = 0;
};
Best bestShare(const Paint& paint, const Lab<D50>& card);   ///< at the paint's coats, share 0..1
Best bestCoats(const Paint& paint, const Lab<D50>& card);   ///< at the paint's share, coats 0..16

}  // namespace huewright::render
