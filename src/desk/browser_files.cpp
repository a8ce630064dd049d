#include "desk/browser_files.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <string_view>

#include "photo/photo_names.hpp"

namespace huewright::desk {
namespace {

constexpr std::array<std::string_view, 6> kPictureEndings{".png", ".jpg", ".jpeg", ".bmp", ".tif", ".tiff"};  // that make a film

/// ASCII letters made small; all other bytes stay.
std::string smallLetters(std::string words) {
  for (char& c : words)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return words;
}

bool asksForPhoto(Asking asking) {
  return asking == Asking::Photo || asking == Asking::Again || asking == Asking::ChangedOver || asking == Asking::OtherLight || asking == Asking::Tilted || asking == Asking::Chart;
}

}  // namespace

std::string wordsOfAsking(Asking asking) {
  switch (asking) {
    case Asking::Photo: return "Choose a photo of the panel beside the card";
    case Asking::Again: return "Choose more photos of the same set-up";
    case Asking::ChangedOver: return "Choose the photo with panel and card changed over";
    case Asking::OtherLight: return "Choose the photo in another light";
    case Asking::Tilted: return "Choose the tilted photo";
    case Asking::Series: return "Choose a series file";
    case Asking::SaveSeries: return "Save the series as";
    case Asking::Tints: return "Choose a tint file";
    case Asking::Chart: return "Choose photos of the colour chart";
    case Asking::SaveProfile: return "Keep the camera's profile as";
    case Asking::Profile: return "Choose a camera profile";
    case Asking::Sheet: return "Write the pour sheet as";
    case Asking::Film: return "Choose a film, or the first of numbered pictures";
    case Asking::Follow: return "Choose the folder into which photos come";
    case Asking::Stills: return "Choose the folder for stills";
    case Asking::Nothing: break;
  }
  return {};
}

bool isSaving(Asking asking) { return asking == Asking::SaveSeries || asking == Asking::SaveProfile || asking == Asking::Sheet; }
bool takesSeveral(Asking asking) { return asking == Asking::Photo || asking == Asking::Again || asking == Asking::Chart; }
bool takesFolder(Asking asking) { return asking == Asking::Follow || asking == Asking::Stills; }
std::string endingOf(Asking asking) { return asking == Asking::Sheet ? ".pdf" : ".json"; }

std::string suggestedName(Asking asking) {
  switch (asking) {
    case Asking::SaveSeries: return "series.json";
    case Asking::SaveProfile: return "camera.json";
    case Asking::Sheet: return "pour-sheet.pdf";
    default: return {};
  }
}

std::string filmOf(const std::string& file) {
  const std::string low = smallLetters(file);
  const auto dot = low.rfind('.'), slash = low.rfind('/');
  if (dot == std::string::npos || (slash != std::string::npos && dot < slash)) return file;
  if (std::ranges::find(kPictureEndings, low.substr(dot)) == kPictureEndings.end()) return file;
  std::size_t begin = dot;
  while (begin > 0 && low[begin - 1] >= '0' && low[begin - 1] <= '9') --begin;
  if (begin == dot) return file;
  return file.substr(0, begin) + fmt::format("%0{}d", dot - begin) + file.substr(dot);
}

bool fits(Asking asking, const std::string& name) {
  if (takesFolder(asking)) return false;
  if (asking == Asking::Film) return filmOf(name) != name || smallLetters(name).ends_with(".avi") || smallLetters(name).ends_with(".mkv");
  return asksForPhoto(asking) ? hasPhotoEnding(name) : smallLetters(name).ends_with(endingOf(asking));
}

std::vector<BrowserRow> browserRows(const FolderShown& folder, Asking asking, bool all, bool newest) {
  std::vector<BrowserRow> rows;
  if (folder.folder.has_relative_path()) rows.push_back({-1, true, true});
  const std::size_t up = rows.size();
  for (std::size_t i = 0; i < folder.entries.size(); ++i) {
    const FolderEntry& entry = folder.entries[i];
    const bool good = entry.folder || fits(asking, entry.name);
    if (good || all) rows.push_back({static_cast<int>(i), entry.folder, good});
  }
  const auto files = std::stable_partition(rows.begin() + static_cast<std::ptrdiff_t>(up), rows.end(), [](const BrowserRow& row) { return row.folder; });
  const auto when = [&](const BrowserRow& row) { return std::string_view(folder.entries[static_cast<std::size_t>(row.entry)].when); };
  if (newest) std::stable_sort(files, rows.end(), [&](const BrowserRow& a, const BrowserRow& b) { return when(a) > when(b); });
  return rows;
}

int rowOf(const std::string& typed, const FolderShown& folder, const std::vector<BrowserRow>& rows) {
  const std::string low = smallLetters(typed);
  if (low.empty()) return -1;
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (rows[i].entry >= 0 && smallLetters(folder.entries[static_cast<std::size_t>(rows[i].entry)].name).starts_with(low)) return static_cast<int>(i);
  return -1;
}

const FolderEntry* entryOf(const BrowserRow& row, const FolderShown& folder) { return row.entry < 0 ? nullptr : &folder.entries[static_cast<std::size_t>(row.entry)]; }

void takeFolder(BrowserState& browser, const FolderShown& folder, const std::vector<BrowserRow>& rows) {
  // A file that can be taken rather than the way up.
  const auto at_first = [&] {
    const auto file = isSaving(browser.asking) ? rows.end() : std::ranges::find_if(rows, [](const BrowserRow& row) { return !row.folder && row.fits; });
    return rows.empty() ? -1 : file == rows.end() ? 0 : static_cast<int>(file - rows.begin());
  };
  if (browser.folder == folder.folder && browser.selected < static_cast<int>(rows.size())) {
    if (browser.selected < 0) browser.selected = at_first();
    return;
  }
  const std::string left = browser.folder.parent_path() == folder.folder ? browser.folder.filename().string() : std::string();
  browser.folder = folder.folder;
  browser.chosen.clear();
  browser.sure = false;
  if (!isSaving(browser.asking)) browser.typed.clear();
  browser.selected = at_first();
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (const FolderEntry* entry = entryOf(rows[i], folder); entry && !left.empty() && entry->name == left) browser.selected = static_cast<int>(i);
}

std::vector<std::filesystem::path> chosenFiles(const BrowserState& browser, const FolderShown& folder, const std::vector<BrowserRow>& rows) {
  std::vector<std::filesystem::path> files;
  for (const BrowserRow& row : rows)
    if (const FolderEntry* entry = entryOf(row, folder); entry && !row.folder && row.fits && std::ranges::count(browser.chosen, entry->name)) files.push_back(folder.folder / entry->name);
  if (files.empty() && browser.selected >= 0 && browser.selected < static_cast<int>(rows.size())) {
    const BrowserRow& row = rows[static_cast<std::size_t>(browser.selected)];
    if (const FolderEntry* entry = entryOf(row, folder); entry && !row.folder && row.fits) files.push_back(folder.folder / entry->name);
  }
  return files;
}

std::optional<std::string> nameToWrite(const std::string& typed, Asking asking) {
  if (typed.empty() || typed.front() == '.' || typed.find('/') != std::string::npos) return std::nullopt;
  const std::string ending = endingOf(asking);
  return smallLetters(typed).ends_with(ending) ? typed : typed + ending;
}

std::string sizeWords(std::uintmax_t bytes) {
  const auto size = static_cast<double>(bytes);
  if (size < 1e3) return fmt::format("{} B", bytes);
  if (size < 999.5e3) return fmt::format("{:.0f} kB", size / 1e3);
  return size < 999.95e6 ? fmt::format("{:.1f} MB", size / 1e6) : fmt::format("{:.1f} GB", size / 1e9);
}

std::optional<Action> actionOf(const BrowserState& browser, const std::vector<std::filesystem::path>& files) {
  switch (browser.asking) {
    case Asking::Photo: return act::OpenPhotos{files, PhotoRole::First};
    case Asking::Again: return act::OpenPhotos{files, PhotoRole::Again};
    case Asking::ChangedOver: return act::OpenPhotos{files, PhotoRole::ChangedOver};
    case Asking::OtherLight: return act::OpenPhotos{files, PhotoRole::OtherLight};
    case Asking::Tilted: return act::OpenPhotos{files, PhotoRole::Tilted};
    case Asking::Series: return act::OpenSeries{files.front()};
    case Asking::SaveSeries: return act::SaveSeries{files.front()};
    case Asking::Tints: return act::UseTints{files.front()};
    case Asking::Chart: return act::AddChartPhotos{files};
    case Asking::SaveProfile: return act::SaveProfile{files.front()};
    case Asking::Profile: return act::UseProfile{files.front()};
    case Asking::Sheet:
      if (browser.pour) {
        act::WorkOutPour pour{*browser.pour};
        pour.request.out = files;
        return pour;
      }
      break;
    case Asking::Film: return act::StartCamera{filmOf(files.front().string()), browser.marks};
    case Asking::Follow: return act::FollowFolder{files.front()};
    case Asking::Stills: return act::KeepStills{files.front()};
    case Asking::Nothing: break;
  }
  return std::nullopt;
}

}  // namespace huewright::desk
