// Everything that can be done, its key, its name and what it does, in one table: buttons, tooltips, the list of keys and the tests all read it.
#pragma once

#include <span>
#include <string>

namespace huewright::desk {

enum class Do {
  // Everywhere.
  PagePanel, PageMixes, PageCamera, PageRoom,
  OpenPhoto, Recent, Undo, Redo, StopWork, Keys, Demo,
  TextLarger, TextSmaller, SurroundDarker, SurroundLighter, HideNotice, Quit,
  // The panel page.
  AddAgain, AddChangedOver, AddOtherLight, AddTilted, NextPhoto, PreviousPhoto, ClosePhoto,
  ZoomIn, ZoomOut, ZoomWhole, ZoomPixels,
  AddPanel, AddCard, AddGrey, AddBlack, NextRegion, RemoveRegion, FindRegions,
  NudgeLeft, NudgeRight, NudgeUp, NudgeDown, Magnifier, ShowMap, ShowMarks, HideRegions,
  SwapSides, OpenGap, NextPanel, Budget, HowSprayed, AddToSeries, UseAsGround,
  // The mixes page.
  NewSeries, OpenSeries, SaveSeries, SaveSeriesAs, OtherGrounds, PourCup, WriteSheet, AcceptMix, RemoveReading, NextReading, UseTints,
  // The camera page.
  AddChart, RemoveChart, SaveProfile, UseProfile, NextChart,
  Count,
};

/// Where a key works.
enum class Page { Everywhere, Panel, Mixes, Camera, Room };

struct KeyLine {
  Do what{};
  Page page{};
  int key = 0;                       ///< as GLFW numbers keys: letters by their capital's ASCII code
  bool ctrl = false, shift = false;
  const char* word = "";             ///< on the button
  const char* tip = "";              ///< one plain sentence
};

/// In the order of Do, all of them.
std::span<const KeyLine> keyTable();
const KeyLine& keyLine(Do what);

/// "Ctrl+O", "F1", "Left".
std::string keyWords(const KeyLine& line);

/// The page whose keys work now; to be set before a frame's views are drawn. Nothing reacts to keys while a text field has the keyboard, or `off`.
void keysOf(Page page, bool off);

/// True in the frame in which its key goes down (for nudges also while it is held).
bool keyPressed(Do what);

/// As ImGui knows the button of that action: the table's word (or another) and what tells it from others of the same word.
std::string buttonName(Do what, const char* word = nullptr);

/// A button with the table's word (or another), and its tip and key on hovering. True when clicked or its key was pressed. `on`: drawn as held down. A button that is not enabled reacts to nothing.
bool button(Do what, bool enabled = true, bool on = false, const char* word = nullptr);

// As GLFW numbers them.
inline constexpr int kKeyEscape = 256, kKeyEnter = 257, kKeyTab = 258, kKeyBackspace = 259, kKeyDelete = 261, kKeyRight = 262, kKeyLeft = 263, kKeyDown = 264, kKeyUp = 265, kKeyPageUp = 266,
                     kKeyPageDown = 267, kKeyHome = 268, kKeyEnd = 269, kKeyF1 = 290;

}  // namespace huewright::desk
