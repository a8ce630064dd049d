// The pour sheet: one page to stand beside the cup, as a PDF or as a web page. All words and numbers come ready made.
#pragma once

#include <string>
#include <vector>

#include "paper/pen.hpp"

namespace huewright {

/// One pouring, in words.
struct PourSheetLine {
  std::string name;
  std::string add_ml, add_g;       ///< empty where not known
  std::string until;               ///< what scale or cup shows then; empty where not known
  std::string off;                 ///< how far the amount may be off
};

/// A layer in the drawn cup.
struct PourSheetLayer {
  double to = 0;                   ///< its upper edge, 0 … 1 of the finished mix
  std::string label;               ///< "4.4 mL"
  std::string mark;                ///< the line on a cup with a scale of parts; empty without
  bool in_cup = false;             ///< was in the cup before
};

struct PourSheet {
  std::string title;               ///< "Pour sheet"
  std::string mix;                 ///< the mix in one line
  std::vector<std::string> facts;  ///< what it is for, how much
  std::string until_head;          ///< "scale shows", "cup shows"
  std::vector<PourSheetLine> lines;
  std::vector<PourSheetLayer> layers;  ///< from the bottom
  std::string cup_caption;
  std::vector<std::string> notes;
  int coats = 0;                   ///< boxes to tick; 0 for none
  std::vector<std::string> cautions;
  std::string paper = "a4";        ///< "a4" or "letter"
};

/// One page of that paper: vectors only, no date, the same bytes every time on a machine with the same fonts. What is too long is set smaller.
/// Errors: Internal, OutOfMemory.
Result<std::string> pourSheetPdf(const PourSheet& sheet);

/// The same page as a picture. In: dpi, 20 … 1200. Errors: Internal, OutOfMemory.
Result<DrawnPicture> pourSheetPicture(const PourSheet& sheet, double dpi);

/// Corners of the ink of every line of type, mm from the page's top left: for the tests.
std::vector<Quad> pourSheetTypeBoxes(const PourSheet& sheet);

}  // namespace huewright
