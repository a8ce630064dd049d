// Everything that is printed on the mat, drawn from its layout; words are strokes that look like words from afar.
#pragma once

#include "render/canvas.hpp"

namespace huewright::render {

void printMat(Canvas& canvas, const Eye& eye, const MatSpec& mat, const Mat3& sheet_to_picture);

/// Smudges at random places of the paper; returns where they are.
std::vector<Smudge> soil(Canvas& canvas, const Eye& eye, const MatSpec& mat, const Mat3& sheet_to_picture, Random random);

}  // namespace huewright::render
