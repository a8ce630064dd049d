// Cards of several kinds that look alike, and panels at a wanted true distance from them.
#pragma once

#include <functional>
#include <optional>

#include "render/random.hpp"
#include "render2/film.hpp"

namespace huewright::render2 {

using render::Random;

enum class CardKind {
  Same,     ///< the panel's paint and ground
  Similar,  ///< the same tints over another ground, or another maker's tints, mixed and sprayed to look like it
  Printed,  ///< process inks on paper
  Other     ///< opaque paint of other pigments
};

/// What a card is made of: a paint, or any reflectance.
struct CardBody {
  CardKind kind = CardKind::Same;
  std::optional<Paint> paint{};      ///< Same and Similar
  Spectrum reflectance{};            ///< at 45°:0°
};

/// Other stuff that looks like `wanted` under D50 within a ΔE*ab of 0.02. Nothing when these inks or pigments cannot.
std::optional<Spectrum> printed(const Lab<D50>& wanted, Random& random);
std::optional<Spectrum> otherPigments(const Lab<D50>& wanted, Random& random);

/// A card of that kind that looks like the paint, exactly or, Similar, within a ΔE*ab of 2.
std::optional<CardBody> makeCard(CardKind kind, const Paint& paint, Random& random);

/// The same ground and tints with share, coats and black such that it looks like `wanted` within a ΔE*ab of 0.003. Nothing when they cannot.
std::optional<Paint> matched(const Paint& start, const Lab<D50>& wanted);

/// From a paint that looks like `card`: share or coats moved until ΔE00 is `de00` within 1e-4. Nothing when they cannot go so far.
std::optional<Paint> movedAway(const Paint& match, const Lab<D50>& card, double de00, bool by_share, bool up);

/// The share 0..1 at which the paint, all else kept, comes nearest to the card.
double bestShare(const Paint& paint, const Lab<D50>& card);

/// Three numbers at which `look` is nearest to `wanted`, by damped Newton steps from `start`, and the ΔE*ab that is left.
struct Fit {
  Vec3 at{};
  double left = 0;
};
Fit fitLook(const std::function<Lab<D50>(const Vec3&)>& look, const Lab<D50>& wanted, const Vec3& start);

}  // namespace huewright::render2
