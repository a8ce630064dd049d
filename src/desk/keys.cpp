#include "desk/keys.hpp"

#include <algorithm>
#include <array>
#include <imgui.h>

namespace huewright::desk {
namespace {

constexpr int kCount = static_cast<int>(Do::Count);
constexpr bool kCtrl = true, kShift = true, kInField = true;

constexpr std::array<KeyLine, kCount> kKeyTable{{
    {Do::PagePanel, Page::Everywhere, kKeyF1, false, false, "Panel", "The photo, and how far the panel is off the card."},
    {Do::PageMixes, Page::Everywhere, kKeyF1 + 1, false, false, "Mixes", "All panels of this colour, and what to spray next."},
    {Do::PageCamera, Page::Everywhere, kKeyF1 + 2, false, false, "Camera", "Teach the program your camera from a photo of a colour chart."},
    {Do::PageRoom, Page::Everywhere, kKeyF1 + 3, false, false, "Across the room", "The verdict in letters to be read from three metres."},
    {Do::PageLive, Page::Everywhere, kKeyF1 + 4, false, false, "Live", "The picture of a camera with its verdict, and photos as they come into a folder."},
    {Do::OpenPhoto, Page::Everywhere, 'O', kCtrl, false, "Open a photo", "Open a photo of a panel beside the wanted colour's card. You can also drop it on the window."},
    {Do::Recent, Page::Everywhere, 'O', kCtrl, kShift, "Recent", "Photos and series that were open lately."},
    {Do::Undo, Page::Everywhere, 'Z', kCtrl, false, "Undo", "Take the last change back.", "Nothing was changed yet."},
    {Do::Redo, Page::Everywhere, 'Z', kCtrl, kShift, "Redo", "Make the change again that was taken back.", "Nothing was taken back."},
    {Do::StopWork, Page::Everywhere, kKeyEscape, false, false, "Stop", "Stop what is being worked at."},
    {Do::Keys, Page::Everywhere, kKeyF1 + 11, false, false, "Keys", "The list of all keys."},
    {Do::Demo, Page::Everywhere, kKeyF1 + 10, false, false, "First steps", "Three steps with an invented job, to see what is where."},
    {Do::TextLarger, Page::Everywhere, '=', kCtrl, false, "Larger type", "Make all type and buttons larger."},
    {Do::TextSmaller, Page::Everywhere, '-', kCtrl, false, "Smaller type", "Make all type and buttons smaller."},
    {Do::SurroundDarker, Page::Everywhere, '[', false, false, "Darker surround", "A darker grey round the colours, for a dim shop."},
    {Do::SurroundLighter, Page::Everywhere, ']', false, false, "Lighter surround", "A lighter grey round the colours, for a bright shop."},
    {Do::HideNotice, Page::Everywhere, kKeyBackspace, false, false, "Hide", "Put this message away."},
    {Do::Quit, Page::Everywhere, 'Q', kCtrl, false, "Close", "Close the window. All that you did is kept."},

    {Do::AddAgain, Page::Panel, 'A', false, false, "Same again", "Add another photo of the same set-up: the average is surer.", "Open a photo of the panel first."},
    {Do::AddChangedOver, Page::Panel, 'C', false, false, "Changed over", "Add a photo with panel and card in each other's places: what the place does to them cancels.", "Open a photo of the panel first."},
    {Do::AddOtherLight, Page::Panel, 'L', false, false, "Other light", "Add a photo of the same two in another light, to see whether they match there too.", "Open a photo of the panel first."},
    {Do::AddTilted, Page::Panel, 'T', false, false, "Tilted", "Add a photo of the same two from a low angle, for metallics.", "Open a photo of the panel first."},
    {Do::NextPhoto, Page::Panel, kKeyPageDown, false, false, "Next photo", "Look at the next photo.", "There is no other photo."},
    {Do::PreviousPhoto, Page::Panel, kKeyPageUp, false, false, "Previous photo", "Look at the photo before.", "There is no other photo."},
    {Do::PhotoFor, Page::Panel, 'W', false, false, "…", "What the photo that is shown is for, or close it.", "No photo is open."},
    {Do::ClosePhoto, Page::Panel, 'W', kCtrl, false, "Close photo", "Close the photo that is shown.", "No photo is open."},
    {Do::ZoomIn, Page::Panel, '=', false, false, "Closer", "Closer; the mouse wheel does it too.", "There is no photo to see yet."},
    {Do::ZoomOut, Page::Panel, '-', false, false, "Further", "Further away; the mouse wheel does it too.", "There is no photo to see yet."},
    {Do::ZoomWhole, Page::Panel, '0', false, false, "Whole", "The whole photo.", "There is no photo to see yet."},
    {Do::ZoomPixels, Page::Panel, '1', false, false, "1:1", "One pixel of the photo on one of the screen.", "There is no photo to see yet."},
    {Do::AddPanel, Page::Panel, 'P', false, false, "Mark panel", "Then draw a rectangle over the panel.", "Show a photo of panel and card first; in a repeat, things lie where they lie in the first photo."},
    {Do::AddCard, Page::Panel, 'K', false, false, "Mark card", "Then draw a rectangle over the wanted colour's card.", "Show a photo of panel and card first; in a repeat, things lie where they lie in the first photo."},
    {Do::AddGrey, Page::Panel, 'G', false, false, "Mark grey", "Then draw a rectangle over a grey patch.", "Show a photo of panel and card first; in a repeat, things lie where they lie in the first photo."},
    {Do::AddBlack, Page::Panel, 'B', false, false, "Mark black", "Then draw a rectangle over a glossy black chip, which shows what the room mirrors.", "Show a photo of panel and card first; in a repeat, things lie where they lie in the first photo."},
    {Do::NextRegion, Page::Panel, kKeyTab, false, false, "Next region", "Choose the next region.", "Nothing is marked in this photo."},
    {Do::RemoveRegion, Page::Panel, kKeyDelete, false, false, "Remove region", "Take the chosen region away.", "Choose a region first: click it, or press Tab."},
    {Do::FindRegions, Page::Panel, 'F', false, false, "Find the mat", "Forget the marks made by hand, and look for the mat again.", "Show a photo of panel and card first; in a repeat, things lie where they lie in the first photo."},
    {Do::NudgeLeft, Page::Panel, kKeyLeft, false, false, "Nudge left", "Move the chosen region, or the photo if none is chosen. With Shift ten times as far."},
    {Do::NudgeRight, Page::Panel, kKeyRight, false, false, "Nudge right", "Move the chosen region, or the photo if none is chosen. With Shift ten times as far."},
    {Do::NudgeUp, Page::Panel, kKeyUp, false, false, "Nudge up", "Move the chosen region, or the photo if none is chosen. With Shift ten times as far."},
    {Do::NudgeDown, Page::Panel, kKeyDown, false, false, "Nudge down", "Move the chosen region, or the photo if none is chosen. With Shift ten times as far."},
    {Do::Magnifier, Page::Panel, 'M', false, false, "Magnifier", "Show the pixels under the pointer, and their values.", "There is no photo to see yet."},
    {Do::ShowMap, Page::Panel, 'D', false, false, "Map", "Show where on the panel it differs from the card, and by how much.", "Show the photo that is judged first."},
    {Do::ShowMarks, Page::Panel, 'X', false, false, "Left out", "Show the pixels that were left out: glare, shadow, and colours the photo could not hold.", "Show the photo that is judged first."},
    {Do::HideRegions, Page::Panel, 'H', false, false, "Hide marks", "Show the photo alone.", "There is no photo to see yet."},
    {Do::SwapSides, Page::Panel, 'S', false, false, "Swap sides", "Panel and card change sides.", "There is no verdict yet."},
    {Do::OpenGap, Page::Panel, 'V', false, false, "Gap", "A gap between the colours, or edge to edge.", "There is no verdict yet."},
    {Do::NextPanel, Page::Panel, 'N', false, false, "Next panel", "The verdict on the next panel or strip.", "There is only one panel."},
    {Do::Budget, Page::Panel, 'U', false, false, "How sure", "What the uncertainty is made of.", "There is no verdict yet."},
    {Do::HowSprayed, Page::Panel, 'E', false, false, "How sprayed", "Say the mix, the coats, what the card is made of, and how near is near enough."},
    {Do::AddToSeries, Page::Panel, kKeyEnter, false, false, "Keep this reading", "Put the panel with its mix and coats into the series.", "There is no verdict to keep yet."},
    {Do::UseAsGround, Page::Panel, 'R', false, false, "It is the ground", "The panel in this photo is bare ground: take its colour as the ground of the series.", "There is no verdict to take it from yet."},

    {Do::NewSeries, Page::Mixes, 'N', kCtrl, false, "New series", "Begin a series of panels for another colour."},
    {Do::OpenSeries, Page::Mixes, 'R', kCtrl, false, "Open a series", "Open a series file."},
    {Do::SaveSeries, Page::Mixes, 'S', kCtrl, false, "Save", "Save the series in its file.", "Begin or open a series first."},
    {Do::SaveSeriesAs, Page::Mixes, 'S', kCtrl, kShift, "Save as", "Save the series in another file.", "Begin or open a series first."},
    {Do::OtherGrounds, Page::Mixes, 'G', false, false, "Other grounds", "How the mix looks over the other grounds.", "Begin or open a series first."},
    {Do::PourCup, Page::Mixes, 'P', false, false, "Pour", "How much of each to pour.", "There is no mix yet: accept one, or keep readings until a next one can be worked out."},
    {Do::WriteSheet, Page::Mixes, 'P', kCtrl, false, "Print sheet", "Write the pour sheet as a PDF to print.", "There is no mix yet: accept one, or keep readings until a next one can be worked out."},
    {Do::AcceptMix, Page::Mixes, 'A', false, false, "Accept", "This reading's mix is the one: other grounds and pouring go by it.", "Choose a reading first: click it, or press Tab."},
    {Do::RemoveReading, Page::Mixes, kKeyDelete, false, false, "Remove", "Take the chosen reading out of the series.", "Choose a reading first: click it, or press Tab."},
    {Do::NextReading, Page::Mixes, kKeyTab, false, false, "Next reading", "Choose the next reading.", "There is no reading yet."},
    {Do::UseTints, Page::Mixes, 'T', false, false, "Known tints", "Use a tint file, so that fewer panels are needed.", "Begin or open a series first."},
    {Do::AddGround, Page::Mixes, 'N', false, false, "Add a ground", "While the other grounds are shown: add one, then give it its name and its numbers.", "No more grounds are taken."},
    {Do::TakeGround, Page::Mixes, 'R', false, false, "Ground from photo", "While the other grounds are shown: add one with the colour of the panel that is judged, which is bare ground.", "Judge a photo of the bare ground first, on the Panel page."},
    {Do::NextGround, Page::Mixes, kKeyTab, false, kShift, "Next ground", "While the other grounds are shown: choose the next one.", "There is no other ground yet."},
    {Do::RemoveGround, Page::Mixes, kKeyDelete, false, kShift, "Remove ground", "While the other grounds are shown: take the chosen one out.", "Choose one of the other grounds first: click its colours, or press Shift+Tab."},

    {Do::AddChart, Page::Camera, 'A', false, false, "Add a chart photo", "Add a photo of a 24-patch colour chart in your light."},
    {Do::RemoveChart, Page::Camera, kKeyDelete, false, false, "Remove", "Take the photo that is shown out.", "There is no chart photo yet."},
    {Do::SaveProfile, Page::Camera, 'S', kCtrl, false, "Keep the profile", "Write the camera's profile, and an ICC file beside it.", "There is no usable profile yet."},
    {Do::UseProfile, Page::Camera, 'U', false, false, "Use a profile", "Judge photos without a chart by a profile that was kept."},
    {Do::NextChart, Page::Camera, kKeyTab, false, false, "Next photo", "Look at the next chart photo.", "There is no other chart photo."},

    {Do::StartStop, Page::Live, 'S', false, false, "Start", "Start the camera that is chosen, or stop it.", "Plug a camera in and press C, or choose a film (F)."},
    {Do::TakeStill, Page::Live, kKeySpace, false, false, "Still", "Keep the newest picture as a photo, and judge that.", "There is no picture yet: start the camera first."},
    {Do::BeginAnew, Page::Live, 'A', false, false, "Begin anew", "Forget the average and look afresh, as for another panel.", "No camera runs."},
    {Do::NextCamera, Page::Live, 'C', false, false, "Next camera", "Look which cameras there are, and choose the next one."},
    {Do::OpenFilm, Page::Live, 'F', false, false, "A film", "Choose a film, or the first of numbered pictures, in place of a camera."},
    {Do::UseMarks, Page::Live, 'M', false, false, "By my marks", "Take panel and card where they are marked by hand in the photo on the Panel page, in place of the mat. Take a still first, and mark them in that."},
    {Do::LiveSprayed, Page::Live, 'E', false, false, "How sprayed", "Say the mix, the coats, what the card is made of, and how near is near enough."},
    {Do::StillsFolder, Page::Live, 'T', false, false, "Stills go to", "Choose the folder for stills."},
    {Do::FollowFolder, Page::Live, 'D', false, false, "Follow a folder", "Judge each photo that comes into a folder, or leave off."},
    {Do::FileByTags, Page::Live, 'I', false, false, "File by tags", "Put photos that come into the series by themselves where their tags tell mix, coats and carrier."},
    {Do::NextArrival, Page::Live, kKeyTab, false, false, "Next arrival", "Choose the next of the photos that came.", "No photo has come yet."},
    {Do::OpenArrival, Page::Live, kKeyEnter, false, false, "Open it", "Make the chosen photo the one that is judged on the Panel page.", "Choose one of the photos that came first: click it, or press Tab."},
    {Do::VapourTold, Page::Live, 'K', false, false, "I know", "Put the words about solvent vapour away for good; the guide has them."},

    {Do::RoomStill, Page::Room, kKeySpace, false, false, "Still", "Keep the newest picture as a photo, and judge that.", "No camera runs."},
    {Do::RoomAnew, Page::Room, 'A', false, false, "Anew", "Forget the average and look afresh, as for another panel.", "No camera runs."},
    {Do::RoomBack, Page::Room, 'B', false, false, "Back", "Back to the page before."},

    {Do::TakeStep, Page::FirstSteps, kKeyEnter, false, false, "Open the sample", "Open what this step is about."},
    {Do::NextStep, Page::FirstSteps, kKeyRight, false, false, "Next step", "Read the next step.", "This is the last step."},
    {Do::StepBefore, Page::FirstSteps, kKeyLeft, false, false, "Step before", "Read the step before.", "This is the first step."},
    {Do::OwnPhoto, Page::FirstSteps, 'B', false, false, "Begin with my own photo", "Put the steps away and open a photo of your own."},
    {Do::NotNow, Page::FirstSteps, kKeyEscape, false, false, "Not now", "Put the steps away; F11 brings them back."},

    {Do::SprayedDone, Page::Sprayed, kKeyEscape, false, false, "Done", "Put this sheet away. All that was typed is kept; in a field, Esc first takes back what is being typed."},
    {Do::WithoutProfile, Page::Sprayed, 'D', false, false, "Do without", "Judge without the camera's profile."},

    {Do::TakeFile, Page::Files, kKeyEnter, false, false, "Open", "Open what is chosen, or write the file. Ctrl and a click chooses one more, Shift and a click all up to there.", "Choose a file or type a name first.", kInField},
    {Do::LeaveFiles, Page::Files, kKeyEscape, false, false, "Leave", "Put the list away and choose nothing.", "", kInField},
    {Do::NextFile, Page::Files, kKeyDown, false, false, "Next file", "Go to the next row. With Shift it is chosen too.", "", kInField},
    {Do::PreviousFile, Page::Files, kKeyUp, false, false, "File before", "Go to the row before. With Shift it is chosen too.", "", kInField},
    {Do::FilesDown, Page::Files, kKeyPageDown, false, false, "Ten further", "Go ten rows down.", "", kInField},
    {Do::FilesUp, Page::Files, kKeyPageUp, false, false, "Ten back", "Go ten rows up.", "", kInField},
    {Do::FirstFile, Page::Files, kKeyHome, false, false, "First", "Go to the first row."},
    {Do::LastFile, Page::Files, kKeyEnd, false, false, "Last", "Go to the last row."},
    {Do::FolderUp, Page::Files, kKeyBackspace, false, false, "Up", "One folder up. While letters are typed to find a name, the last of them goes."},
    {Do::HomeFolder, Page::Files, kKeyHome, kCtrl, false, "Home", "Your own folder.", "", kInField},
    {Do::NewestFirst, Page::Files, 'D', kCtrl, false, "Newest first", "By date, the newest first; else by name.", "", kInField},
    {Do::AllFiles, Page::Files, 'E', kCtrl, false, "All files", "List also the files that cannot be used here.", "", kInField},
    {Do::TakeFolder, Page::Files, kKeyEnter, kCtrl, false, "This folder", "Take the folder whose files are listed, where a folder is asked for.", "", kInField},
}};

constexpr bool inOrder() {
  for (int i = 0; i < kCount; ++i)
    if (static_cast<int>(kKeyTable[static_cast<std::size_t>(i)].what) != i) return false;
  return true;
}
static_assert(inOrder());

Page keys_page = Page::Everywhere;

bool isNudge(Do what) { return what == Do::NudgeLeft || what == Do::NudgeRight || what == Do::NudgeUp || what == Do::NudgeDown; }
bool isRow(Do what) { return what == Do::NextFile || what == Do::PreviousFile || what == Do::FilesDown || what == Do::FilesUp; }
bool repeats(Do what) { return isNudge(what) || isRow(what) || what == Do::ZoomIn || what == Do::ZoomOut || what == Do::FolderUp; }
bool shiftIsFree(Do what) { return isNudge(what) || isRow(what); }

/// Whether the line's key has its meaning where one is now.
bool hasTheSay(const KeyLine& line) {
  if (line.page == keys_page) return true;
  if (line.page != Page::Everywhere || keys_page == Page::Files) return false;
  return std::ranges::none_of(kKeyTable, [&](const KeyLine& other) { return other.page == keys_page && other.key == line.key && other.ctrl == line.ctrl && other.shift == line.shift; });
}

void tipOfItem(Do what, bool enabled) {
  if (!ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled)) return;
  ImGui::BeginTooltip();
  ImGui::PushTextWrapPos(std::min(0.6f * ImGui::GetIO().DisplaySize.x, 30 * ImGui::GetFontSize()));
  ImGui::TextUnformatted(tipWords(what, enabled).c_str());
  ImGui::PopTextWrapPos();
  ImGui::EndTooltip();
}

}  // namespace

std::span<const KeyLine> keyTable() { return kKeyTable; }
const KeyLine& keyLine(Do what) { return kKeyTable[static_cast<std::size_t>(what)]; }

std::string keyWords(const KeyLine& line) {
  std::string out;
  if (line.ctrl) out += "Ctrl+";
  if (line.shift) out += "Shift+";
  switch (line.key) {
    case kKeySpace: return out + "Space";
    case kKeyEscape: return out + "Esc";
    case kKeyEnter: return out + "Enter";
    case kKeyTab: return out + "Tab";
    case kKeyBackspace: return out + "Backspace";
    case kKeyDelete: return out + "Delete";
    case kKeyRight: return out + "Right";
    case kKeyLeft: return out + "Left";
    case kKeyDown: return out + "Down";
    case kKeyUp: return out + "Up";
    case kKeyPageUp: return out + "Page up";
    case kKeyPageDown: return out + "Page down";
    case kKeyHome: return out + "Home";
    case kKeyEnd: return out + "End";
    case '=': return out + "+";
    default: break;
  }
  if (line.key >= kKeyF1 && line.key < kKeyF1 + 12) return out + "F" + std::to_string(line.key - kKeyF1 + 1);
  return out + static_cast<char>(line.key);
}

void keysOf(Page page) { keys_page = page; }

bool keyPressed(Do what) {
  const KeyLine& line = keyLine(what);
  const ImGuiIO& io = ImGui::GetIO();
  if ((io.WantTextInput && !line.in_field) || !hasTheSay(line)) return false;
  if (io.KeyCtrl != line.ctrl || io.KeyAlt || (io.KeyShift != line.shift && !shiftIsFree(what))) return false;
  return ImGui::IsKeyPressed(line.key, repeats(what));
}

std::string tipWords(Do what, bool enabled) {
  const KeyLine& line = keyLine(what);
  std::string words = line.tip;
  if (!enabled && *line.grey) words += std::string("\n") + line.grey;
  return words + "\nKey: " + keyWords(line);
}

std::string buttonName(Do what, const char* word) { return std::string(word ? word : keyLine(what).word) + "##" + std::to_string(static_cast<int>(what)); }

bool button(Do what, bool enabled, bool on, const char* word) {
  if (!enabled) ImGui::BeginDisabled();
  if (on) ImGui::PushStyleColor(ImGuiCol_Button, ImGui::GetStyleColorVec4(ImGuiCol_ButtonActive));
  const bool clicked = ImGui::Button(buttonName(what, word).c_str());
  if (on) ImGui::PopStyleColor();
  if (!enabled) ImGui::EndDisabled();
  tipOfItem(what, enabled);
  return enabled && (clicked || keyPressed(what));
}

bool sizedButton(Do what, float width, float height, bool keyed) {
  const bool clicked = ImGui::Button(buttonName(what).c_str(), {width, height});
  tipOfItem(what, true);
  return clicked || (keyed && keyPressed(what));
}

bool blankButton(Do what, float width, float height, bool enabled) {
  if (!enabled) ImGui::BeginDisabled();
  const bool clicked = ImGui::Button(buttonName(what, "").c_str(), {width, height});
  if (!enabled) ImGui::EndDisabled();
  tipOfItem(what, enabled);
  return enabled && (clicked || keyPressed(what));
}

}  // namespace huewright::desk
