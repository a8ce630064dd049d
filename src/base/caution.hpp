// What a reading should be taken with: a code for machines, a sentence for people.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace huewright {

/// The order is that of the sentence table in caution.cpp.
enum class CautionCode {
  Clipped,
  TooDark,
  TooFewPixels,
  Glare,
  Shadow,
  RegionEdge,
  LightNotCorrected,
  LightUneven,
  LightMixed,
  LightColoured,
  GreyNotGrey,
  GreyExposure,
  GreysDisagree,
  GreyUnmeasured,
  AbsoluteNotTrusted,
  CardKindUnknown,
  PaperAsGrey,
  PaperUneven,
  ShadowAcross,
  ShadowOver,
  ToneLocal,
  PrintScale,
  VeilTakenOff,
  BlackNotBlack,
  ShotsApart,
  StepsReversed,
  BalanceDoubtful,
  ProfileLight,
  ProfileCamera,
  OutsideChart,
  ChartNotUsed,
  ChartDataNote,
  PaperUnusable,
  PhotoLeftOut,
  PhotosDisagree,
  OneAngle,
  ValuesLinear,
  ValuesLinearTold,
  OtherCharts,
  PourAssumed,
  PourTooSmall,
  CupGrows,
  FreshIsLess,
  SeriesCopies,
  PanelOdd,
  PanelsContradict,
  StagesMixed,
  ShareOrCoats,
  OtherPigment,
  FilmFloor,
  FewPanels,
  LeanAtFewCoats,
  FolderAway,
  WatchListDamaged,
  OtherCard,
  NotFiled,
  SeriesFull,
  TagContradicts,
  TwoTags,
  TagUnread,
  CameraAway,
  CameraEmpty,
  CameraFrozen,
  CameraHalf,
  CameraNotHeld,
};
inline constexpr std::size_t kCautionCount = static_cast<std::size_t>(CautionCode::CameraNotHeld) + 1;

struct Caution {
  CautionCode code{};
  std::string detail;  ///< stands where the sentence has {}
  bool operator==(const Caution&) const = default;
};

std::string sentence(const Caution& caution);

/// Stable lower-case word, such as "light-not-corrected".
std::string_view cautionName(CautionCode code);

}  // namespace huewright
