// Everything that can be done, its key, its name and what it does, in one table: buttons, tooltips, the list of keys and the tests all read it.
#pragma once

#include <span>
#include <string>

namespace huewright::desk {

enum class Do {
  // Everywhere.
  PagePanel, PageMixes, PageCamera, PageRoom, PageLive,
  OpenPhoto, Recent, Undo, Redo, StopWork, Keys, Demo,
  TextLarger, TextSmaller, SurroundDarker, SurroundLighter, HideNotice, Quit,
  // The panel page.
  AddAgain, AddChangedOver, AddOtherLight, AddTilted, NextPhoto, PreviousPhoto, PhotoFor, ClosePhoto,
  ZoomIn, ZoomOut, ZoomWhole, ZoomPixels,
  AddPanel, AddCard, AddGrey, AddBlack, NextRegion, RemoveRegion, FindRegions,
  NudgeLeft, NudgeRight, NudgeUp, NudgeDown, Magnifier, ShowMap, ShowMarks, HideRegions,
  SwapSides, OpenGap, NextPanel, Budget, HowSprayed, AddToSeries, UseAsGround,
  // The mixes page.
  NewSeries, OpenSeries, SaveSeries, SaveSeriesAs, OtherGrounds, PourCup, WriteSheet, AcceptMix, RemoveReading, NextReading, UseTints, AddGround, TakeGround, NextGround, RemoveGround,
  // The camera page.
  AddChart, RemoveChart, SaveProfile, UseProfile, NextChart,
  // The live page.
  StartStop, TakeStill, BeginAnew, NextCamera, OpenFilm, UseMarks, LiveSprayed, StillsFolder, FollowFolder, FileByTags, NextArrival, OpenArrival, VapourTold,
  // Across the room.
  RoomStill, RoomAnew, RoomBack,
  // The first steps.
  TakeStep, NextStep, StepBefore, OwnPhoto, NotNow,
  // How it was sprayed.
  SprayedDone, WithoutProfile,
  // The list of files.
  TakeFile, LeaveFiles, NextFile, PreviousFile, FilesDown, FilesUp, FirstFile, LastFile, FolderUp, HomeFolder, NewestFirst, AllFiles, TakeFolder,
  Count,
};

/// Where a key works: on a page, or on what lies over it. What lies over a page has the first say: its keys go before those of everywhere.
enum class Page { Everywhere, Panel, Mixes, Camera, Room, Live, FirstSteps, Sprayed, Files };

struct KeyLine {
  Do what{};
  Page page{};
  int key = 0;                       ///< as GLFW numbers keys: letters by their capital's ASCII code
  bool ctrl = false, shift = false;
  const char* word = "";             ///< on the button
  const char* tip = "";              ///< one plain sentence
  const char* grey = "";             ///< what is missing while the button is grey; empty: it never is
  bool in_field = false;             ///< also while a field is typed in
};

/// In the order of Do, all of them.
std::span<const KeyLine> keyTable();
const KeyLine& keyLine(Do what);

/// "Ctrl+O", "F1", "Left".
std::string keyWords(const KeyLine& line);

/// The page, or what lies over it, whose keys work now; to be set before a frame's views are drawn. In the list of files none but its own do, as letters look for a name there.
void keysOf(Page page);

/// True in the frame in which its key goes down (for nudges, zoom and rows also while it is held). Few react while a text field has the keyboard.
bool keyPressed(Do what);

/// As ImGui knows the button of that action: the table's word (or another) and what tells it from others of the same word.
std::string buttonName(Do what, const char* word = nullptr);

/// What stands beside the pointer on the button of that action: its tip, what is missing while it is grey, its key.
std::string tipWords(Do what, bool enabled);

/// A button with the table's word (or another), and on hovering its tip, its key, and what is missing while it is not enabled. True when clicked or its key was pressed. `on`: drawn as held down.
/// A button that is not enabled reacts to nothing.
bool button(Do what, bool enabled = true, bool on = false, const char* word = nullptr);

/// The same at a size of its own, px. Several may stand for one action; the one that is `keyed` has its key.
bool sizedButton(Do what, float width, float height, bool keyed);

/// A button of that size without any words, which whoever draws it puts over it; its tip and key as ever.
bool blankButton(Do what, float width, float height, bool enabled);

// As GLFW numbers them.
inline constexpr int kKeySpace = 32, kKeyEscape = 256, kKeyEnter = 257, kKeyTab = 258, kKeyBackspace = 259, kKeyDelete = 261, kKeyRight = 262, kKeyLeft = 263, kKeyDown = 264, kKeyUp = 265, kKeyPageUp = 266,
                     kKeyPageDown = 267, kKeyHome = 268, kKeyEnd = 269, kKeyF1 = 290;

}  // namespace huewright::desk
