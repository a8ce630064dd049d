#include <algorithm>
#include <cstdlib>
#include <imgui.h>
#include <imgui_stdlib.h>

#include "desk/browser_files.hpp"
#include "desk/flow.hpp"
#include "desk/short_name.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostPlaces = 6;  // folders of late that have a button

void closeBrowser(BrowserState& browser) {
  const bool newest = browser.newest;
  browser = {};
  browser.newest = newest;
}

/// Hands the files on, if they do something, and puts the browser away.
void choose(DeskState& desk, const std::vector<fs::path>& files, Actions& out) {
  const Asking asking = desk.browser.asking;
  if (const auto action = actionOf(desk.browser, files)) out.push_back(*action);
  if (asking == Asking::Photo) desk.look.page = Page::Panel;
  closeBrowser(desk.browser);
}

void goUp(const FolderShown& folder, Actions& out) {
  if (folder.folder.has_relative_path()) out.push_back(act::ListFolder{folder.folder.parent_path()});
}

/// A file's name is to be written over.
void takeName(BrowserState& browser, const std::string& name) {
  browser.typed = name;
  browser.sure = false;
  browser.retype = true;
}

/// Enter or a double click on a row.
void enterRow(DeskState& desk, const BrowserRow& row, const std::vector<BrowserRow>& rows, Drawing& d) {
  const FolderShown& folder = d.state.folder;
  const FolderEntry* entry = entryOf(row, folder);
  if (!entry) goUp(folder, d.out);
  else if (row.folder) d.out.push_back(act::ListFolder{folder.folder / entry->name});
  else if (isSaving(desk.browser.asking)) takeName(desk.browser, entry->name);
  else if (row.fits) choose(desk, chosenFiles(desk.browser, folder, rows), d.out);
}

/// A row was clicked, or reached with an arrow key: with Ctrl it is chosen beside the others, with Shift all from the last one on.
void takeRow(BrowserState& browser, int row, const FolderShown& folder, const std::vector<BrowserRow>& rows, bool with_ctrl) {
  const bool with_shift = ImGui::GetIO().KeyShift;
  const auto nameAt = [&](int i) -> const std::string* {
    const BrowserRow& one = rows[static_cast<std::size_t>(i)];
    const FolderEntry* entry = entryOf(one, folder);
    return entry && !one.folder && one.fits ? &entry->name : nullptr;
  };
  const int before = browser.selected;
  browser.selected = row;
  const std::string* name = nameAt(row);
  if (!takesSeveral(browser.asking) || (!with_ctrl && !with_shift)) {
    browser.chosen.clear();
    if (isSaving(browser.asking) && name) takeName(browser, *name);
    return;
  }
  if (browser.chosen.empty() && before >= 0 && before < static_cast<int>(rows.size()))
    if (const std::string* old = nameAt(before)) browser.chosen.push_back(*old);
  if (with_shift && before >= 0) {
    for (int i = std::min(before, row); i <= std::max(before, row); ++i)
      if (const std::string* one = nameAt(i); one && !std::ranges::count(browser.chosen, *one)) browser.chosen.push_back(*one);
  } else if (name) {
    if (std::erase(browser.chosen, *name) == 0) browser.chosen.push_back(*name);
  }
}

/// Appends a letter in UTF-8. In: a code point of the first plane, as ImGui hands them out.
void appendLetter(std::string& out, unsigned code) {
  if (code < 0x80) out += static_cast<char>(code);
  else if (code < 0x800) out += {static_cast<char>(0xC0 | (code >> 6)), static_cast<char>(0x80 | (code & 0x3F))};
  else out += {static_cast<char>(0xE0 | (code >> 12)), static_cast<char>(0x80 | ((code >> 6) & 0x3F)), static_cast<char>(0x80 | (code & 0x3F))};
}

void dropLetter(std::string& words) {
  while (!words.empty() && (static_cast<unsigned char>(words.back()) & 0xC0) == 0x80) words.pop_back();
  if (!words.empty()) words.pop_back();
}

/// Arrow keys and letters. True when another row is at hand and must be seen.
bool listKeys(DeskState& desk, const std::vector<BrowserRow>& rows, Drawing& d) {
  BrowserState& browser = desk.browser;
  const FolderShown& folder = d.state.folder;
  const ImGuiIO& io = ImGui::GetIO();
  const int last = static_cast<int>(rows.size()) - 1;
  int to = browser.selected;
  if (keyPressed(Do::NextFile)) to = std::min(last, to + 1);
  if (keyPressed(Do::PreviousFile)) to = std::max(0, to - 1);
  if (keyPressed(Do::FilesDown)) to = std::min(last, to + 10);
  if (keyPressed(Do::FilesUp)) to = std::max(0, to - 10);
  bool moved = to != browser.selected && to >= 0 && to <= last;
  if (moved) {
    takeRow(browser, to, folder, rows, false);
    if (!isSaving(browser.asking)) browser.typed.clear();
  }
  if (isSaving(browser.asking)) return moved;
  if (keyPressed(Do::FirstFile) && last >= 0) browser.selected = 0, moved = true;
  if (keyPressed(Do::LastFile) && last >= 0) browser.selected = last, moved = true;
  if (!io.KeyCtrl)
    for (const ImWchar letter : io.InputQueueCharacters)
      if (letter >= 0x20 && letter != 0x7f) {
        appendLetter(browser.typed, letter);
        if (const int row = rowOf(browser.typed, folder, rows); row >= 0) browser.selected = row, browser.chosen.clear(), moved = true;
      }
  return moved;
}

void places(BrowserState& browser, Drawing& d) {
  const FolderShown& folder = d.state.folder;
  Flow flow;
  // While a name is typed to jump to, Backspace takes its last letter.
  const bool jumping = !isSaving(browser.asking) && !browser.typed.empty();
  if (flow.button(Do::FolderUp)) {
    if (jumping && keyPressed(Do::FolderUp)) dropLetter(browser.typed);
    else goUp(folder, d.out);
  }
  const char* home = std::getenv("HOME");
  if (home && flow.button(Do::HomeFolder)) d.out.push_back(act::ListFolder{home});
  std::vector<fs::path> shown;
  for (const fs::path& file : d.state.recent) {
    const fs::path parent = file.parent_path();
    if (parent.empty() || parent == folder.folder || std::ranges::count(shown, parent) || shown.size() >= kMostPlaces) continue;
    shown.push_back(parent);
    const std::string name = parent.has_filename() ? parent.filename().string() : parent.string();
    const std::string words = shortName(name, ImGui::GetFont(), 200 * d.look.scale);
    flow.next(buttonWidth(words.c_str()));
    if (ImGui::Button((words + "##" + parent.string()).c_str())) d.out.push_back(act::ListFolder{parent});
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s\nA folder of late.", parent.c_str());
  }
  if (flow.button(Do::NewestFirst, true, browser.newest)) browser.newest = !browser.newest, browser.selected = -1;
  if (flow.button(Do::AllFiles, true, browser.all)) browser.all = !browser.all, browser.selected = -1;
}

void fileList(DeskState& desk, const std::vector<BrowserRow>& rows, bool bring, Drawing& d) {
  const FolderShown& folder = d.state.folder;
  const float scale = d.look.scale, tall = ImGui::GetFrameHeight(), pad = 8 * scale, wide = ImGui::GetContentRegionAvail().x;
  const float date = ImGui::CalcTextSize("2026-11-28 14:03").x + 2 * pad, size = ImGui::CalcTextSize("999.9 MB").x + 2 * pad;
  const bool dates = wide > date + size + 220 * scale, sizes = wide > size + 160 * scale;
  const float name_room = wide - (dates ? date : 0) - (sizes ? size : 0) - 2 * pad;
  if (bring) {
    const float top = tall * static_cast<float>(desk.browser.selected);
    if (top < ImGui::GetScrollY()) ImGui::SetScrollY(top);
    if (top + tall > ImGui::GetScrollY() + ImGui::GetWindowHeight()) ImGui::SetScrollY(top + tall - ImGui::GetWindowHeight());
  }
  int clicked = -1, entered = -1;
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {0, 0});
  ImGuiListClipper clipper;
  clipper.Begin(static_cast<int>(rows.size()), tall);
  ImDrawList* list = ImGui::GetWindowDrawList();
  while (clipper.Step())
    for (int i = clipper.DisplayStart; i < clipper.DisplayEnd; ++i) {
      const BrowserRow& row = rows[static_cast<std::size_t>(i)];
      const FolderEntry* entry = entryOf(row, folder);
      ImGui::PushID(i);
      const ImVec2 at = ImGui::GetCursorScreenPos();
      if (ImGui::InvisibleButton("row", {std::max(1.0f, wide), tall})) clicked = i;
      const bool over = ImGui::IsItemHovered();
      if (over && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left)) entered = i;
      ImGui::PopID();
      const bool chosen = entry && std::ranges::count(desk.browser.chosen, entry->name), at_hand = i == desk.browser.selected;
      if (chosen || at_hand || over) list->AddRectFilled(at, {at.x + wide, at.y + tall}, ink(chosen || at_hand ? d.look.greys.held : d.look.greys.hovered));
      if (at_hand) list->AddRectFilled(at, {at.x + 4 * scale, at.y + tall}, ink(d.look.greys.type));
      const std::uint32_t colour = ink(row.fits ? d.look.greys.type : d.look.greys.weak_type, row.fits ? 255 : 150);
      const float y = at.y + 0.5f * (tall - ImGui::GetFontSize());
      const std::string name = !entry ? "one folder up" : row.folder ? entry->name + "/" : entry->name;
      list->AddText({at.x + pad, y}, colour, shortName(name, ImGui::GetFont(), name_room).c_str());
      if (!entry || row.folder) continue;
      const std::string bytes = sizeWords(entry->bytes);
      if (sizes) list->AddText({at.x + wide - (dates ? date : 0) - pad - ImGui::CalcTextSize(bytes.c_str()).x, y}, colour, bytes.c_str());
      if (dates) list->AddText({at.x + wide - date + pad, y}, colour, entry->when.c_str());
    }
  ImGui::PopStyleVar();
  if (entered >= 0) enterRow(desk, rows[static_cast<std::size_t>(entered)], rows, d);
  else if (clicked >= 0) takeRow(desk.browser, clicked, folder, rows, ImGui::GetIO().KeyCtrl);
}

/// The name to write, or what was typed to jump; and the buttons.
void foot(DeskState& desk, const std::vector<BrowserRow>& rows, Drawing& d) {
  BrowserState& browser = desk.browser;
  const FolderShown& folder = d.state.folder;
  ImGui::AlignTextToFramePadding();
  if (takesFolder(browser.asking)) {
    ImGui::TextUnformatted(shortName(folder.folder.string(), ImGui::GetFont(), ImGui::GetContentRegionAvail().x).c_str());
    Flow flow;
    if (flow.button(Do::TakeFolder, folder.trouble.empty())) choose(desk, {folder.folder}, d.out);
    else if (flow.button(Do::LeaveFiles)) closeBrowser(browser);
    else if (keyPressed(Do::TakeFile) && browser.selected >= 0 && browser.selected < static_cast<int>(rows.size())) enterRow(desk, rows[static_cast<std::size_t>(browser.selected)], rows, d);
    return;
  }
  if (!isSaving(browser.asking)) {
    const auto files = chosenFiles(browser, folder, rows);
    ImGui::TextUnformatted(!browser.typed.empty() ? ("Typed: " + browser.typed).c_str() : files.size() == 1 ? shortName(files.front().filename().string(), ImGui::GetFont(), ImGui::GetContentRegionAvail().x).c_str() : " ");
    Flow flow;
    const std::string open = files.size() > 1 ? "Open these " + std::to_string(files.size()) : keyLine(Do::TakeFile).word;
    const bool take = flow.button(Do::TakeFile, !files.empty(), false, open.c_str());
    if (flow.button(Do::LeaveFiles)) closeBrowser(browser);
    else if (take) choose(desk, files, d.out);
    else if (keyPressed(Do::TakeFile) && browser.selected >= 0 && browser.selected < static_cast<int>(rows.size())) enterRow(desk, rows[static_cast<std::size_t>(browser.selected)], rows, d);
    return;
  }
  ImGui::TextUnformatted("Name");
  ImGui::SameLine();
  ImGui::SetNextItemWidth(ImGui::GetContentRegionAvail().x);
  // A field that has the keyboard holds on to its own text: it is left out of one frame when another name is taken.
  if (browser.retype) ImGui::Dummy({0, ImGui::GetFrameHeight()}), browser.retype = false;
  else {
    if (!ImGui::IsAnyItemActive()) ImGui::SetKeyboardFocusHere();
    if (ImGui::InputText("##name", &browser.typed)) browser.sure = false;
  }
  const auto name = nameToWrite(browser.typed, browser.asking);
  const bool there = name && std::ranges::any_of(folder.entries, [&](const FolderEntry& e) { return e.name == *name; });
  if (!name) ImGui::TextWrapped("Type a name for the file; it may hold no slash and not begin with a full stop.");
  else if (there && browser.sure) ImGui::TextWrapped("There is a file %s already. Once more writes over it.", name->c_str());
  else ImGui::TextWrapped("It will be called %s.", name->c_str());
  Flow flow;
  const bool write = flow.button(Do::TakeFile, name.has_value(), false, there && browser.sure ? "Write over it" : "Write");
  if (flow.button(Do::LeaveFiles)) closeBrowser(browser);
  else if (write && there && !browser.sure) browser.sure = true;
  else if (write) choose(desk, {folder.folder / *name}, d.out);
}

}  // namespace

void askForFile(DeskState& desk, Asking asking, Actions& out) {
  closeBrowser(desk.browser);
  desk.browser.asking = asking;
  desk.browser.typed = suggestedName(asking);
  out.push_back(act::ListFolder{});
}

void drawBrowser(DeskState& desk, Drawing& d) {
  BrowserState& browser = desk.browser;
  if (browser.asking == Asking::Nothing) return;
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize(display);
  ImGui::Begin("browser", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoScrollWithMouse);
  const bool appearing = ImGui::IsWindowAppearing();
  if (appearing) ImGui::SetWindowFocus();
  const FolderShown& folder = d.state.folder;
  if (d.look.type.head) ImGui::PushFont(d.look.type.head);
  ImGui::TextWrapped("%s", wordsOfAsking(browser.asking).c_str());
  if (d.look.type.head) ImGui::PopFont();
  ImGui::TextWrapped("%s", folder.folder.c_str());
  places(browser, d);

  const auto rows = browserRows(folder, browser.asking, browser.all, browser.newest);
  takeFolder(browser, folder, rows);
  // The key that opened the browser is none for it.
  const bool bring = !appearing && listKeys(desk, rows, d);
  const float below = (isSaving(browser.asking) ? 3 : 2) * ImGui::GetFrameHeightWithSpacing();
  ImGui::PushStyleColor(ImGuiCol_ChildBg, ImGui::GetStyleColorVec4(ImGuiCol_PopupBg));
  ImGui::BeginChild("files", {0, std::max(ImGui::GetFrameHeight(), ImGui::GetContentRegionAvail().y - below)});
  ImGui::PopStyleColor();
  if (!folder.trouble.empty()) ImGui::TextWrapped("%s", folder.trouble.c_str());
  fileList(desk, rows, bring, d);
  if (folder.trouble.empty() && std::ranges::none_of(rows, [](const BrowserRow& row) { return row.entry >= 0; })) ImGui::TextWrapped(takesFolder(browser.asking) ? "There is no folder in this one." : "Nothing here that can be used.");
  ImGui::EndChild();
  // A file may have been chosen by a double click.
  if (browser.asking != Asking::Nothing) foot(desk, rows, d);
  ImGui::End();
}

}  // namespace huewright::desk
