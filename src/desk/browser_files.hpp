// What the file browser lists, and what choosing a file does. No drawing, and no file is read.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/view.hpp"

namespace huewright::desk {

/// "Choose a photo of the panel beside the card".
std::string wordsOfAsking(Asking asking);
/// True when a file is to be written.
bool isSaving(Asking asking);
/// True when several files may be chosen.
bool takesSeveral(Asking asking);
/// A folder is asked for, not a file.
bool takesFolder(Asking asking);
/// What to open for a file of a film: numbered pictures by their pattern ("f_%03d.png" for f_000.png), all else as it is.
std::string filmOf(const std::string& file);
/// The ending of a file that is written, with its dot.
std::string endingOf(Asking asking);
/// A name to begin with.
std::string suggestedName(Asking asking);

/// True when the name's ending is of a kind that is asked for, in any case.
bool fits(Asking asking, const std::string& name);

struct BrowserRow {
  int entry = -1;                    ///< of FolderShown::entries; -1: one folder up
  bool folder = false, fits = true;
};

/// Up, folders, then files. all: also those that do not fit. newest: files by date, the newest first.
std::vector<BrowserRow> browserRows(const FolderShown& folder, Asking asking, bool all, bool newest);

/// The first row whose name begins with what was typed, capitals or not, or -1.
int rowOf(const std::string& typed, const FolderShown& folder, const std::vector<BrowserRow>& rows);

/// What a row stands for; nullptr for "up".
const FolderEntry* entryOf(const BrowserRow& row, const FolderShown& folder);

/// To be called with each frame's rows: in another folder than the last time nothing is chosen yet, and at hand is the folder that one came up from, else the first file that can be
/// taken, else the first row.
void takeFolder(BrowserState& browser, const FolderShown& folder, const std::vector<BrowserRow>& rows);

/// The files that are chosen: several, or the one at hand if it fits.
std::vector<std::filesystem::path> chosenFiles(const BrowserState& browser, const FolderShown& folder, const std::vector<BrowserRow>& rows);

/// The name with its ending; nothing where it is empty or holds a slash.
std::optional<std::string> nameToWrite(const std::string& typed, Asking asking);

/// "3.4 MB", "12 kB".
std::string sizeWords(std::uintmax_t bytes);

/// What choosing those files does. In: at least one file.
std::optional<Action> actionOf(const BrowserState& browser, const std::vector<std::filesystem::path>& files);

}  // namespace huewright::desk
