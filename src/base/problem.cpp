#include "base/problem.hpp"

#include <array>

#include "base/text.hpp"

namespace huewright {
namespace {

constexpr int kUse = 2;
constexpr int kInput = 3;
constexpr int kFault = 4;
constexpr int kMachine = 5;

struct ProblemRow {
  Code code;
  std::string_view name;
  int exit;
  std::string_view text;
};

constexpr std::array<ProblemRow, kCodeCount> kProblemRows{{
    {Code::BadOption, "bad-option", kUse, "{}. See huewright --help for the words it knows."},
    {Code::BadRegion, "bad-region", kUse,
     "\"{}\" is not a region. Give X,Y,WIDTH,HEIGHT or four corners X1,Y1,X2,Y2,X3,Y3,X4,Y4, in pixels."},
    {Code::ZeroRegion, "zero-region", kUse, "The region \"{}\" has no area. Give it a width and a height above zero."},
    {Code::BadNumber, "bad-number", kUse, "{}."},
    {Code::BadMix, "bad-mix", kUse,
     "\"{}\" is not a mix. Give the parts of strong and weak tint, such as 1:3, with at least one part above zero."},
    {Code::BadSteps, "bad-steps", kUse,
     "\"{}\" is not a list of coats. Give one number for each strip as the panel shows them, rising or falling, such as 0,1,2,3,4."},
    {Code::BadChoice, "bad-choice", kUse, "{}."},
    {Code::TooManyPanels, "too-many-panels", kUse, "{} panels were given; one photo holds at most 12. Judge them in two photos."},
    {Code::NoPanel, "no-panel", kUse, "No panel was given. Say where it is in the photo with --panel X,Y,WIDTH,HEIGHT."},
    {Code::NoCard, "no-card", kUse,
     "No card was given. Say where the wanted colour is with --card X,Y,WIDTH,HEIGHT, or give its numbers with --card-lab L,a,b."},
    {Code::TwoCards, "two-cards", kUse, "Both --card and --card-lab were given. Keep one of the two."},
    {Code::NoPhoto, "no-photo", kUse, "No photo was given. Name the picture file to judge."},
    {Code::NoGrey, "no-grey", kUse, "No grey patch was given. Say where it lies beside the chart with --grey X,Y,WIDTH,HEIGHT."},
    {Code::FileThere, "file-there", kUse, "\"{}\" is there already and was left as it is. Choose another name, or move it away first."},

    {Code::FileMissing, "file-missing", kInput, "There is no file \"{}\". Check the name and the folder."},
    {Code::FileIsFolder, "file-is-folder", kInput, "\"{}\" is a folder. Name a picture file in it."},
    {Code::FileNotRegular, "file-not-regular", kInput,
     "\"{}\" is a pipe or a device, not a file. Save the picture to a file first."},
    {Code::FileEmpty, "file-empty", kInput, "\"{}\" is empty. Copy the picture from the camera again."},
    {Code::FileUnreadable, "file-unreadable", kInput, "\"{}\" cannot be opened for reading. Check its permissions."},
    {Code::FormatUnknown, "format-unknown", kInput,
     "\"{}\" is not a picture that can be read here. Use JPEG, PNG, TIFF, HEIC, HEIF, AVIF, DNG or the camera's raw file."},
    {Code::PhotoTruncated, "photo-truncated", kInput,
     "\"{}\" ends too early: part of the picture is missing. Copy it from the camera again."},
    {Code::PhotoCorrupt, "photo-corrupt", kInput, "\"{}\" is damaged and cannot be trusted. Copy it from the camera again."},
    {Code::PhotoTooLarge, "photo-too-large", kInput, "{}. Cut the picture down to the panel, the card and the grey patch."},
    {Code::PhotoCmyk, "photo-cmyk", kInput, "\"{}\" holds CMYK printing colours, not what a camera saw. Use the camera's own file."},
    {Code::PhotoLab, "photo-lab", kInput, "\"{}\" holds CIELAB values, not what a camera saw. Use the camera's own file."},
    {Code::PhotoOneChannel, "photo-one-channel", kInput, "\"{}\" is black and white: it holds no colour. Take a colour photo."},
    {Code::PhotoEmpty, "photo-empty", kInput, "\"{}\" is a picture file without a picture in it. Use the camera's own file."},
    {Code::PhotoUnsupported, "photo-unsupported", kInput, "{}. Save it as JPEG, PNG or TIFF with 8 or 16 bits."},
    {Code::RawUnknown, "raw-unknown", kInput,
     "\"{}\" is a raw file of a camera that is not known here. Use the camera's JPEG, or a DNG made from it."},
    {Code::ProfileUnusable, "profile-unusable", kInput,
     "The colour profile inside \"{}\" cannot be used. Save the picture again as sRGB, or say what it holds with --encoding."},
    {Code::RegionOutside, "region-outside", kInput, "{}. Move the region inside the picture."},
    {Code::RegionTooSmall, "region-too-small", kInput, "{}. Mark a larger region, or photograph from nearer."},
    {Code::RegionFolded, "region-folded", kInput,
     "The corners of {} cross over, bend inward or lie in one line. Give them in order, going round the edge."},
    {Code::RegionsOverlap, "regions-overlap", kInput, "{} overlap. Mark each in a place of its own."},
    {Code::RegionAllMasked, "region-all-masked", kInput,
     "{} is glare, shadow or dirt almost everywhere: no colour could be read. Turn it or the lamp and photograph again."},
    {Code::GreyUnusable, "grey-unusable", kInput, "{}. Put a neutral grey patch in even light and photograph again."},
    {Code::GreyUnfit, "grey-unfit", kInput, "The grey patch was not kept: {}."},
    {Code::KeptGreyUnusable, "kept-grey-unusable", kInput,
     "The kept grey cannot be used: {}. Measure the patch again with huewright grey, or judge without it by --grey-from none."},
    {Code::MatNotFound, "mat-not-found", kInput,
     "No mat was found in the photo. Keep its markers in the picture, or say where things are with --panel and --card."},
    {Code::MatMarkers, "mat-markers", kInput,
     "{}. Keep all markers of the mat in the picture, uncovered and sharp; of four, one may be hidden."},
    {Code::MatMirrored, "mat-mirrored", kInput,
     "The mat in the photo is mirrored, as front cameras do. Use the camera's own file, or the camera on the back."},
    {Code::MatNotFlat, "mat-not-flat", kInput,
     "The mat in the photo is bent or folded: its markers do not lie in one plane. Lay it flat and photograph again."},
    {Code::MatCut, "mat-cut", kInput,
     "Part of the mat is outside the picture: {}. Photograph again with the whole mat in the picture."},
    {Code::TwoMats, "two-mats", kInput, "Two mats are in the photo. Keep one in the picture and photograph again."},
    {Code::MatEmpty, "mat-empty", kInput, "The mat was found, but {} seems to be empty. Lay panel and card in their windows and photograph again."},
    {Code::MatNoCard, "mat-no-card", kInput, "The strip in the photo has no place for a card. Give the wanted colour as numbers with --card-lab."},
    {Code::MatMixes, "mat-mixes", kInput, "{}. Give one mix for all panels, or one for each panel on the mat, in its order."},
    {Code::ChartNotFound, "chart-not-found", kInput, "No chart could be used: {}."},
    {Code::NoProfile, "no-profile", kInput, "No camera profile could be made: {}."},
    {Code::ChartDataUnusable, "chart-data-unusable", kInput,
     "The chart data cannot be used: {}. Correct the file, or leave it out to use the published values."},
    {Code::ProfileFileUnusable, "profile-file-unusable", kInput, "The camera profile cannot be used: {}."},
    {Code::SheetUnusable, "sheet-unusable", kInput,
     "The photo of the plain sheet cannot be used: {}. Leave camera and lamp where they are, cover everything with matt white paper, and expose so that it does not burn out."},
    {Code::BlackUnusable, "black-unusable", kInput,
     "The black chip cannot be used: {}. Lay a glossy black piece flat beside the panel, or leave --black out."},
    {Code::StepsNotFound, "steps-not-found", kInput,
     "{}. Mark the stepped panel from edge to edge, and say only the coats that can be told apart."},
    {Code::SwappedUnusable, "swapped-unusable", kInput,
     "The second photo, with panel and card changed over, cannot be used: {}. Change them over, leave camera and lamp as they are, and photograph again."},
    {Code::RepeatsUnusable, "repeats-unusable", kInput,
     "The photos cannot be combined: {}. Photograph one set-up several times with one camera, and move nothing but the camera."},
    {Code::ViewUnusable, "view-unusable", kInput,
     "The second view cannot be used: {}. Photograph the same panel, card and grey again, on the mat, or say where they lie."},
    {Code::CupUnusable, "cup-unusable", kInput, "What is in the cup cannot become the wanted mix: {}. Start with an empty cup, or want another mix."},
    {Code::SeriesUnusable, "series-unusable", kInput, "The series cannot be used: {}."},
    {Code::SeriesUntold, "series-untold", kInput, "A series needs to know more of every panel, and no tag in the photo tells it: {}. Tell it, or lay a printed tag beside the panel."},
    {Code::TintFileUnusable, "tint-file-unusable", kInput, "The tint file cannot be used: {}."},
    {Code::FolderUnusable, "folder-unusable", kInput, "The folder \"{}\" cannot be watched: there is none of that name, or it cannot be read. Check its name and its permissions, or make it first."},
    {Code::CameraUnusable, "camera-unusable", kInput, "{}."},
    {Code::PlacesLost, "places-lost", kInput, "The camera shows something else than when the places were given. Move it back, take away what lies before it, or give the places anew."},
    {Code::LiveMoving, "live-moving", kInput, "The picture moves, so there is no verdict yet. Keep the camera still."},
    {Code::MemoryUnusable, "memory-unusable", kInput, "What was kept of the last sitting cannot be read, so a new one is begun. The old one lies in \"{}\"."},

    {Code::Internal, "internal", kFault, "Huewright made a mistake of its own ({}). Nothing was changed; please report it."},

    {Code::WriteFailed, "write-failed", kMachine, "\"{}\" could not be written; nothing was left half written. Check the folder and the free space."},
    {Code::RemoveFailed, "remove-failed", kMachine, "\"{}\" could not be removed. Check the permissions of its folder."},
    {Code::NoUserFolder, "no-user-folder", kMachine,
     "There is no place for what is kept: neither XDG_DATA_HOME nor HOME names a folder. Set one of them, or name a file with --out."},
    {Code::NoWindow, "no-window", kMachine, "No window can be opened here ({}). Start it from a desktop, or use the huewright command instead."},
    {Code::DataMissing, "data-missing", kMachine, "The data file \"{}\" is missing or damaged. Install Huewright again."},
    {Code::ModuleMissing, "module-missing", kMachine, "{}."},
    {Code::CameraLost, "camera-lost", kMachine, "The camera \"{}\" gives no more pictures. Plug it in again, and close other programs that use it."},
    {Code::OutOfMemory, "out-of-memory", kMachine, "There is not enough memory for {}. Close other programs or use a smaller picture."},
    {Code::Stopped, "stopped", kMachine, "Stopped before it was done; nothing was changed."},
}};

constexpr bool problemsInOrder() {
  for (std::size_t i = 0; i < kProblemRows.size(); ++i)
    if (static_cast<std::size_t>(kProblemRows[i].code) != i || kProblemRows[i].text.empty()) return false;
  return true;
}
static_assert(problemsInOrder(), "the sentence table must follow the order of Code");

const ProblemRow& problemRow(Code code) { return kProblemRows[static_cast<std::size_t>(code)]; }

}  // namespace

std::string sentence(const Problem& problem) { return filled(problemRow(problem.code).text, problem.detail); }

std::string_view codeName(Code code) { return problemRow(code).name; }

int exitCode(Code code) { return problemRow(code).exit; }

}  // namespace huewright
