// What the mouse does on a photo: zoom, pull the photo along, drag regions and draw new ones. No drawing.
#pragma once

#include "desk/photo_place.hpp"
#include "desk/region_parts.hpp"
#include "desk/view.hpp"

namespace huewright::desk {

/// The mouse in one frame; screen pixels.
struct Hand {
  Point pointer;
  Point pulled;                      ///< since the last frame
  double wheel = 0;                  ///< notches, away from the person positive
  bool over = false;                 ///< the pointer is over the photo's field and nothing else has it
  bool pressed = false, held = false, released = false;   ///< first button, pressed over the field
  bool middle = false;               ///< second or third button held: pulls the photo along, whatever lies there
  double reach = 12;                 ///< how near to a corner is on it
  double dead = 3;                   ///< a drag begins after so much
};

/// Factor of one notch of the wheel. Chosen by hand.
inline constexpr double kWheelFactor = 1.25;

/// Keeps a place in the view's state.
void keepPlace(PhotoViewState& view, const PhotoPlace& place);

/// Takes the frame's mouse in, changes the place, and pushes the regions that were changed. editable: regions of this photo are set by hand.
/// Gives the regions as they are to be drawn, also before the sitting has taken them.
Regions moveHand(PhotoViewState& view, PhotoPlace& place, const PhotoShown& photo, bool editable, const Hand& hand, Actions& out);

/// Moves the chosen region by so many full-size pixels; pulls the photo along by so many screen pixels where none is chosen. joins: a key that is held.
void nudge(PhotoViewState& view, PhotoPlace& place, const PhotoShown& photo, bool editable, Point by, double photo_step, bool joins, Actions& out);

/// "marking the panel", "marking a grey".
std::string wordsOfMarking(PartKind kind);

}  // namespace huewright::desk
