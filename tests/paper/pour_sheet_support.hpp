// Invented pour sheets for the tests.
#pragma once

#include "paper/pour_sheet.hpp"

namespace huewright::pour_test {

inline PourSheet bicycleSheet() {
  PourSheet sheet;
  sheet.title = "Pour sheet: touring bicycle";
  sheet.mix = "teal, strong 1 : aqua, weak 3 + 5 carrier";
  sheet.facts = {"For frame 0.35 m², fork 0.1 m²; 4 coats, spray gun.", "Finished mix: 105.0 mL, 94.8 g."};
  sheet.until_head = "scale shows";
  sheet.lines = {{"teal, strong", "4.4 mL", "4.6 g", "4.6 g", "±2.2 %"}, {"aqua, weak", "13.1 mL", "13.2 g", "17.8 g", "±1.5 %"}, {"carrier", "87.5 mL", "77.0 g", "94.8 g", "±0.3 %"}};
  sheet.layers = {{1 / 24.0, "1:  4.4 mL", "1", false}, {4 / 24.0, "2:  17.5 mL", "4", false}, {1, "3:  105.0 mL", "24", false}};
  sheet.cup_caption = "Straight walls.";
  sheet.notes = {"Strain the mix through 125 µm or finer.", "Give your own with --film or --loss."};
  sheet.coats = 4;
  sheet.cautions = {"Two-pack clear contains isocyanates.", "Solvent vapour burns."};
  return sheet;
}

/// As much as a sheet may have to hold.
inline PourSheet crowdedSheet() {
  PourSheet sheet = bicycleSheet();
  const std::string name = "a tint with a name of as many letters as a name may have ..";
  sheet.title = "Pour sheet: a title that is as long as it may be, sixty letters of it";
  sheet.mix.clear();
  sheet.lines.clear();
  sheet.layers.clear();
  sheet.coats = 50;
  sheet.paper = "letter";
  for (int i = 1; i <= 12; ++i) {
    sheet.mix += (i == 1 ? "" : " : ") + name + " 12.5";
    sheet.lines.push_back({name, "1234.5 mL", "1234.56 g", "12345.67 g", "±12 %"});
    sheet.layers.push_back({0.01 * i, "12345.6 mL", "100", false});
  }
  sheet.lines.push_back({"carrier", "1234.5 mL", "1234.56 g", "12345.67 g", "±12 %"});
  sheet.layers.push_back({1, "123456.7 mL", "120", false});
  for (int i = 0; i < 12; ++i) sheet.notes.push_back("A note of some length that says again and again how much of which tint goes into which cup, so that it runs over more than a line of the page.");
  return sheet;
}

}  // namespace huewright::pour_test
