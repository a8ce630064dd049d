#include "judge/trust.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <utility>

#include "base/text.hpp"
#include "judge/screen_sizes.hpp"

namespace huewright {
namespace {

constexpr int kHard = 70;              // JPEG quality below which colour suffers; judgement, no source
constexpr std::int64_t kSmallPixels = 1'000'000;  // cameras have long taken more than that; from memory
constexpr int kProgramSigns = 3;
constexpr int kBar = 8;                // rows

/// Reasons of one kind tell of the same thing.
enum class Kind { Colours, Saved, Reduced, Changed };
constexpr std::size_t kKindCount = 4;

struct TrustRow {
  TrustCode code;
  std::string_view name;
  Kind kind;
  int weight;
  std::string_view clause;  ///< follows "The photo can be trusted fairly: "; {} takes the detail
  std::string_view better;
};

constexpr std::string_view kOriginal = "Ask for the original file, sent as a document and not as a picture.";
constexpr std::string_view kNoFilters = "Turn off filters and automatic improvement, and send the photo as it was taken.";

constexpr std::array<TrustRow, kTrustCodeCount> kTrustRows{{
    {TrustCode::PhotoUntagged, "photo-untagged", Kind::Colours, 1, "it does not say what its colours mean", kOriginal},
    {TrustCode::CameraDataMissing, "camera-data-missing", Kind::Saved, 1,
     "the camera's own data is gone, as after a messenger or an editor", kOriginal},
    {TrustCode::Converted, "converted", Kind::Saved, 1, "it is a {} without the camera's own data, so it was converted", kOriginal},
    {TrustCode::SavedByProgram, "saved-by-program", Kind::Saved, 1, "it was saved again by a program: the file is not built as cameras build it",
     kOriginal},
    {TrustCode::ChangedLater, "changed-later", Kind::Saved, 1, "it was changed after it was taken", kOriginal},
    {TrustCode::CompressedTwice, "compressed-twice", Kind::Saved, 2, "it was compressed twice, so something saved it again", kOriginal},
    {TrustCode::OnceJpeg, "once-jpeg", Kind::Saved, 2, "it is a {} that was made from a JPEG", kOriginal},
    {TrustCode::Resized, "resized", Kind::Reduced, 1, "it was resized or cropped: its own data says {} pixels", kOriginal},
    {TrustCode::Cropped, "cropped", Kind::Reduced, 1, "it was cropped: the small picture in its data has another shape", kOriginal},
    {TrustCode::Small, "small", Kind::Reduced, 1, "it is smaller than cameras take", kOriginal},
    {TrustCode::StronglyCompressed, "strongly-compressed", Kind::Reduced, 1, "it is strongly compressed (JPEG quality about {})",
     "Set the camera to its best quality, and send the file as a document."},
    {TrustCode::Screenshot, "screenshot", Kind::Changed, 3, "it looks like a screenshot", "Send the photo itself, not a picture of the screen."},
    {TrustCode::LevelsStretched, "levels-stretched", Kind::Changed, 3, "its brightness levels have gaps, so they were stretched by an editor", kNoFilters},
    {TrustCode::ToneLocal, "tone-local", Kind::Changed, 2, "the camera brightened or darkened parts of it",
     "Turn off the camera's scene effects, or use a raw or linear file."},
    {TrustCode::LiveFrame, "live-frame", Kind::Colours, 1, "it comes from a live camera, and it does not say what its colours mean",
     "Lay a colour chart beside the panel, or take the last word from a photo."},
}};

constexpr bool trustInOrder() {
  for (std::size_t i = 0; i < kTrustRows.size(); ++i)
    if (static_cast<std::size_t>(kTrustRows[i].code) != i || kTrustRows[i].clause.empty()) return false;
  return true;
}
static_assert(trustInOrder(), "the table must follow the order of TrustCode");

const TrustRow& trustRow(TrustCode code) { return kTrustRows[static_cast<std::size_t>(code)]; }

struct Found {
  TrustCode code{};
  std::string clause;
};

double aspect(Size size) { return static_cast<double>(std::max(size.width, size.height)) / std::max(1, std::min(size.width, size.height)); }

bool sameEitherWay(Size a, Size b) { return a == b || a == Size{b.height, b.width}; }

/// Thumbnails of 4:3 stand for any shape: many cameras put bars round the picture. DCF 2.0 asks for 160 × 120 (from memory).
bool cropped(Size picture, Size thumbnail) {
  constexpr double kOther = 0.04;  // relative: a thumbnail's sides are whole pixels
  if (sameEitherWay(thumbnail, {160, 120}) || std::min(thumbnail.width, thumbnail.height) < 64) return false;
  return std::abs(aspect(thumbnail) / aspect(picture) - 1) > kOther;
}

bool lossless(const PhotoFacts& facts) { return facts.format == "PNG" || facts.format == "TIFF"; }

/// Bars of one colour. One alone may be a burnt-out sky.
bool hasBars(const CodeTraces& codes) { return codes.bar_above >= kBar && codes.bar_below >= kBar; }

bool isScreenshot(const PhotoFacts& facts, const Traces& traces) {
  if (facts.camera_data) return false;
  if (facts.format == "PNG" && (traces.alpha || hasBars(traces.codes))) return true;
  // A photo may be resized to a screen's size when that has a camera's shape; few cameras take pictures as long as a telephone's screen.
  constexpr double kLong = 1.85;
  return isScreenSize(facts.size) && (facts.format == "PNG" || aspect(facts.size) > kLong);
}

/// How many things a camera does not do: write a JFIF header beside its EXIF data, take the free library's tables, write
/// progressive files (counts twice), leave the thumbnail out although all else is there. Each alone is done by some camera (from memory).
int programSigns(const Traces& traces) {
  return static_cast<int>(traces.jfif) + static_cast<int>(traces.scaled_tables) + 2 * static_cast<int>(traces.progressive) +
         static_cast<int>(traces.exif.exposure && !traces.exif.thumbnail);
}

std::vector<Found> findReasons(const PhotoFacts& facts, const Traces& traces, std::span<const Caution> cautions) {
  std::vector<Found> found;
  const auto add = [&](TrustCode code, const std::string& detail = {}) { found.push_back({code, fmt::format(fmt::runtime(trustRow(code).clause), detail)}); };
  const bool jpeg = facts.format == "JPEG";
  const bool converted = lossless(facts) || facts.format == "AVIF";
  const bool screenshot = !traces.live && isScreenshot(facts, traces);
  if (screenshot) add(TrustCode::Screenshot);
  if (traces.codes.gaps) add(TrustCode::LevelsStretched);
  if (std::ranges::any_of(cautions, [](const Caution& c) { return c.code == CautionCode::ToneLocal; })) add(TrustCode::ToneLocal);
  if (traces.compressed_twice) add(TrustCode::CompressedTwice);
  const bool live = traces.live;
  if (traces.codes.block_grid && !live) add(TrustCode::OnceJpeg, facts.format);
  if (live && !facts.linear) add(TrustCode::LiveFrame);
  if (!live && !facts.tagged && !facts.linear) add(TrustCode::PhotoUntagged);
  if (!facts.camera_data && converted && !live && !traces.codes.block_grid && !screenshot) add(TrustCode::Converted, facts.format);
  if (!facts.camera_data && !converted && !live && !facts.format.empty()) add(TrustCode::CameraDataMissing);
  if (jpeg && facts.camera_data && programSigns(traces) >= kProgramSigns) add(TrustCode::SavedByProgram);
  if (traces.exif.changed_later) add(TrustCode::ChangedLater);
  const bool resized = traces.exif.told_size && !facts.camera_rgb && !sameEitherWay(*traces.exif.told_size, facts.size);
  if (resized) add(TrustCode::Resized, fmt::format("{} × {}", traces.exif.told_size->width, traces.exif.told_size->height));
  if (!resized && traces.exif.thumbnail && cropped(facts.size, *traces.exif.thumbnail)) add(TrustCode::Cropped);
  if (!resized && !facts.camera_data && !live && !facts.format.empty() && std::int64_t{facts.size.width} * facts.size.height < kSmallPixels) add(TrustCode::Small);
  if (facts.jpeg_quality && *facts.jpeg_quality < kHard) add(TrustCode::StronglyCompressed, std::to_string(*facts.jpeg_quality));
  // What the mat's dots show is said by a caution of its own already, so it comes last.
  const auto rank = [](const Found& f) { return f.code == TrustCode::ToneLocal ? 0 : trustRow(f.code).weight; };
  std::ranges::stable_sort(found, std::ranges::greater{}, rank);
  return found;
}

/// Two reasons of two kinds are enough for a sentence.
std::string gradeSentence(Grade grade, const std::vector<Found>& found) {
  if (found.empty()) return "The photo can be trusted: nothing speaks against its being the camera's own file.";
  std::string text = fmt::format("The photo can be trusted {}: {}", grade == Grade::Fair ? "fairly" : "poorly", found.front().clause);
  const auto second = std::ranges::find_if(found, [&](const Found& f) { return trustRow(f.code).kind != trustRow(found.front().code).kind; });
  if (second != found.end()) text += ", and " + second->clause;
  return text + ".";
}

}  // namespace

std::string_view gradeName(Grade grade) {
  constexpr std::array<std::string_view, 3> kNames{"good", "fair", "poor"};
  return kNames[static_cast<std::size_t>(grade)];
}

std::string_view trustCodeName(TrustCode code) { return trustRow(code).name; }

Trust trustOf(const PhotoFacts& facts, const Traces& traces, std::span<const Caution> cautions) {
  const std::vector<Found> found = findReasons(facts, traces, cautions);
  std::array<int, kKindCount> heaviest{};
  Trust trust;
  for (const Found& f : found) {
    const TrustRow& row = trustRow(f.code);
    int& of_kind = heaviest[static_cast<std::size_t>(row.kind)];
    of_kind = std::max(of_kind, row.weight);
    trust.reasons.push_back({f.code, capitalised(f.clause) + "."});
    if (std::ranges::find(trust.better, row.better) == trust.better.end()) trust.better.emplace_back(row.better);
  }
  int sum = 0;
  for (const int weight : heaviest) sum += weight;
  trust.grade = sum == 0 ? Grade::Good : sum < 3 ? Grade::Fair : Grade::Poor;
  trust.sentence = gradeSentence(trust.grade, found);
  return trust;
}

Trust lesser(Trust a, Trust b) { return b.grade > a.grade ? std::move(b) : std::move(a); }

double renderingFactor(const Trust& trust) {
  constexpr double kUnsaid = 1.25, kBent = 1.6;
  double factor = 1;
  for (const TrustReason& reason : trust.reasons) {
    const Kind kind = trustRow(reason.code).kind;
    if (kind == Kind::Colours) factor = std::max(factor, kUnsaid);
    if (kind == Kind::Changed && reason.code != TrustCode::ToneLocal) factor = std::max(factor, kBent);
  }
  return factor;
}

}  // namespace huewright
