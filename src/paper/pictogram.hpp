// Small line drawings that tell how to photograph; drawn by ourselves.
#pragma once

#include <string_view>

#include "paper/pen.hpp"

namespace huewright {

enum class Pictogram { LampAt45, CameraSquareOn, NoFlash, OnePlane, DryToTouch, BendRound };
inline constexpr int kPictogramCount = static_cast<int>(Pictogram::BendRound) + 1;

/// Draws it in black into the square with that top left corner and side, mm.
void draw(Pen& pen, Pictogram pictogram, Point corner, double side);

/// The few words that belong under it.
std::string_view caption(Pictogram pictogram);

/// A triangle with its top corner at that point and an exclamation mark in it, that many mm high.
void drawWarning(Pen& pen, Point corner, double height);

}  // namespace huewright
