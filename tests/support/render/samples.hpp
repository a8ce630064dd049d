// The photographs of sample-images/: a frame builder's teal. All of it is invented and simulated.
#pragma once

#include <string>
#include <vector>

#include "render/picture_file.hpp"

namespace huewright::render {

struct Sample {
  std::string file;                  ///< "too-strong.jpg"
  std::string shows;                 ///< one sentence
  SceneSpec scene;
  std::uint64_t seed = 0;
  FileOptions options;
  std::vector<std::string> mixes;    ///< strong:weak of each panel
  std::string card_mix;
  std::string swapped{};             ///< the file of the second shot, with panel and card changed over; empty: there is none
};

std::vector<Sample> samples();

/// How far inside a thing's edges its region stays, pixels.
double regionMargin(Size size);

/// An upright rectangle that stays at least `margin` pixels inside a nearly upright quad, as "X,Y,W,H".
std::string regionText(const Quad& quad, double margin);

/// Eight numbers, x1,y1,…,x4,y4, one decimal.
std::string quadText(const Quad& quad);

/// truth.json for the samples and what was rendered of them (the same order). What lies on a mat has no regions: the mat is found.
std::string truthJson(const std::vector<Sample>& all, const std::vector<Rendered>& rendered);

}  // namespace huewright::render
