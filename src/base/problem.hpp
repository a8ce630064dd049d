// What went wrong, as a code and a plain sentence. Every room returns these; nobody prints or exits but the command line.
#pragma once

#include <cstddef>
#include <expected>
#include <string>
#include <string_view>
#include <utility>

namespace huewright {

/// Every way a job can fail. The order is that of the sentence table in problem.cpp; a test ties the two.
enum class Code {
  // Wrong use: seen before any file is opened. Exit code 2.
  BadOption,
  BadRegion,
  ZeroRegion,
  BadNumber,
  BadMix,
  BadSteps,
  BadChoice,
  TooManyPanels,
  NoPanel,
  NoCard,
  TwoCards,
  NoPhoto,
  NoGrey,
  FileThere,
  // The input cannot be used. Exit code 3.
  FileMissing,
  FileIsFolder,
  FileNotRegular,
  FileEmpty,
  FileUnreadable,
  FormatUnknown,
  PhotoTruncated,
  PhotoCorrupt,
  PhotoTooLarge,
  PhotoCmyk,
  PhotoLab,
  PhotoOneChannel,
  PhotoEmpty,
  PhotoUnsupported,
  RawUnknown,
  ProfileUnusable,
  RegionOutside,
  RegionTooSmall,
  RegionFolded,
  RegionsOverlap,
  RegionAllMasked,
  GreyUnusable,
  GreyUnfit,
  KeptGreyUnusable,
  MatNotFound,
  MatMarkers,
  MatMirrored,
  MatNotFlat,
  MatCut,
  TwoMats,
  MatEmpty,
  MatNoCard,
  MatMixes,
  ChartNotFound,
  NoProfile,
  ChartDataUnusable,
  ProfileFileUnusable,
  SheetUnusable,
  BlackUnusable,
  StepsNotFound,
  SwappedUnusable,
  RepeatsUnusable,
  ViewUnusable,
  CupUnusable,
  SeriesUnusable,
  SeriesUntold,
  TintFileUnusable,
  FolderUnusable,
  CameraUnusable,
  PlacesLost,
  LiveMoving,
  MemoryUnusable,
  // Our own fault. Exit code 4.
  Internal,
  // Disk, data or machine. Exit code 5.
  WriteFailed,
  RemoveFailed,
  NoUserFolder,
  NoWindow,
  DataMissing,
  ModuleMissing,
  CameraLost,
  OutOfMemory,
  Stopped,
};

/// One more than the last code: the size of the sentence table.
inline constexpr std::size_t kCodeCount = static_cast<std::size_t>(Code::Stopped) + 1;

/// A failure: what kind, and the particular thing (a file's name, an option's text, a place in the picture).
struct Problem {
  Code code{};
  std::string detail;
};

/// A value, or the Problem that stood in its way.
template <class T>
using Result = std::expected<T, Problem>;

/// Shorthand for `return fail(Code::FileMissing, path);`.
inline std::unexpected<Problem> fail(Code code, std::string detail = {}) {
  return std::unexpected(Problem{code, std::move(detail)});
}

/// The plain sentence for a problem, on one line: what is wrong and what to do. Its detail stands where the table has {}.
std::string sentence(const Problem& problem);

/// A stable lower-case word for a code, such as "photo-truncated", for machine-read output.
std::string_view codeName(Code code);

/// The process exit code that belongs to a code: 2 wrong use, 3 input, 4 our fault, 5 disk, data or machine.
int exitCode(Code code);

}  // namespace huewright
