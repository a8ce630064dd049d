#include "photo/raw_folders.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace huewright {
namespace {

constexpr std::size_t kMostFolders = 64, kMostEntries = 4096;
constexpr std::uint64_t kMostBlocks = 1'000'000;
constexpr std::uint64_t kColourFilterArray = 32803, kLinearRaw = 34892, kLosslessJpeg = 7, kLossyJpeg = 34892;  // DNG 1.6

enum Tag : std::uint64_t {  // TIFF 6.0, and DNG 1.6 from 50706 on
  kWidth = 256,
  kHeight = 257,
  kBits = 258,
  kCompression = 259,
  kPhotometric = 262,
  kStripPlaces = 273,
  kSamples = 277,
  kStripLengths = 279,
  kTilePlaces = 324,
  kTileLengths = 325,
  kSubFolders = 330,
  kDngVersion = 50706
};

/// Where the numbers of an entry stand.
struct List {
  std::uint64_t at = 0, count = 0;
  std::size_t size = 0;  // bytes of one
};

class FolderReader {
 public:
  explicit FolderReader(std::span<const std::uint8_t> bytes) : bytes_(bytes) {
    if (bytes.size() < 8) return;
    big_ = bytes[0] == 'M';
    const std::uint64_t version = number(2, 2).value_or(0);
    const bool order = (bytes[0] == 'I' && bytes[1] == 'I') || (bytes[0] == 'M' && bytes[1] == 'M');
    good_ = order && (version == 42 || version == 43);
    wide_ = version == 43;
  }

  bool good() const { return good_; }
  bool wide() const { return wide_; }
  std::uint64_t size() const { return bytes_.size(); }

  std::optional<std::uint64_t> number(std::uint64_t at, std::size_t size) const {
    if (at > bytes_.size() || size > bytes_.size() - at) return std::nullopt;
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < size; ++i) value = value << 8 | bytes_[static_cast<std::size_t>(at) + (big_ ? i : size - 1 - i)];
    return value;
  }

  int byteAt(std::uint64_t at) const { return at < size() ? bytes_[static_cast<std::size_t>(at)] : -1; }

  std::optional<std::uint64_t> item(const List& list, std::uint64_t i) const {
    return i < list.count ? number(list.at + i * list.size, list.size) : std::nullopt;
  }
  std::uint64_t first(const List& list, std::uint64_t otherwise) const { return item(list, 0).value_or(otherwise); }

  /// True when all of a list lies in the file.
  bool holds(const List& list) const { return list.at <= size() && list.count <= (size() - list.at) / std::max<std::size_t>(list.size, 1); }

  /// The entry at this place. Types that are no whole numbers give an empty list.
  List list(std::uint64_t entry) const {
    const std::uint64_t type = number(entry + 2, 2).value_or(0);
    List found;
    switch (type) {
      case 1: found.size = 1; break;
      case 3: found.size = 2; break;
      case 4:
      case 13: found.size = 4; break;
      case 16:
      case 18: found.size = 8; break;
      default: return {};
    }
    found.count = number(entry + 4, wide_ ? 8 : 4).value_or(0);
    const std::uint64_t here = entry + (wide_ ? 12 : 8);
    const bool fits = found.count <= (wide_ ? 8U : 4U) / found.size;
    found.at = fits ? here : number(here, wide_ ? 8 : 4).value_or(size());
    return found;
  }

 private:
  std::span<const std::uint8_t> bytes_;
  bool good_ = false, big_ = false, wide_ = false;
};

struct Folder {
  List width, height, bits, compression, photometric, samples, places, lengths, below, version;
  bool tiled = false;
};

class FolderWalk {
 public:
  explicit FolderWalk(const FolderReader& reader) : file_(reader) {}

  RawMarks run() {
    if (!file_.good()) return marks_;
    follow(file_.number(file_.wide() ? 8 : 4, file_.wide() ? 8 : 4));
    for (std::size_t i = 0; i < queue_.size(); ++i) visit(queue_[i], i == 0);
    marks_.raw = marks_.raw || marks_.dng || marks_.sensor;
    return marks_;
  }

 private:
  void follow(std::optional<std::uint64_t> folder) {
    if (!folder) marks_.beyond = true;
    if (!folder || *folder == 0 || queue_.size() >= kMostFolders) return;
    if (std::find(queue_.begin(), queue_.end(), *folder) == queue_.end()) queue_.push_back(*folder);
  }

  void visit(std::uint64_t at, bool first) {
    const std::uint64_t head = file_.wide() ? 8 : 2, step = file_.wide() ? 20 : 12;
    const auto count = file_.number(at, static_cast<std::size_t>(head));
    if (!count || *count > kMostEntries) {
      marks_.beyond = marks_.beyond || !count;
      return;
    }
    Folder folder;
    for (std::uint64_t i = 0; i < *count; ++i) enter(at + head + i * step, folder);
    if (first) marks_.dng = folder.version.count > 0;
    for (std::uint64_t i = 0; i < std::min<std::uint64_t>(folder.below.count, kMostFolders); ++i) follow(file_.item(folder.below, i));
    const std::uint64_t photometric = file_.first(folder.photometric, 0);
    if (photometric == kColourFilterArray || photometric == kLinearRaw) look(folder);
    follow(file_.number(at + head + *count * step, file_.wide() ? 8 : 4));
  }

  void enter(std::uint64_t entry, Folder& folder) const {
    const auto tag = file_.number(entry, 2);
    if (!tag) return;
    const List list = file_.list(entry);
    switch (*tag) {
      case kWidth: folder.width = list; break;
      case kHeight: folder.height = list; break;
      case kBits: folder.bits = list; break;
      case kCompression: folder.compression = list; break;
      case kPhotometric: folder.photometric = list; break;
      case kSamples: folder.samples = list; break;
      case kTilePlaces: folder.tiled = true; [[fallthrough]];
      case kStripPlaces: folder.places = list; break;
      case kTileLengths:
      case kStripLengths: folder.lengths = list; break;
      case kSubFolders: folder.below = list; break;
      case kDngVersion: folder.version = list; break;
      default: break;
    }
  }

  void look(const Folder& folder) {
    marks_.sensor = true;
    if (!file_.holds(folder.places) || !file_.holds(folder.lengths)) {
      marks_.beyond = true;
      return;
    }
    const std::uint64_t width = file_.first(folder.width, 0), height = file_.first(folder.height, 0);
    const std::uint64_t blocks = std::min(folder.places.count, kMostBlocks);
    std::uint64_t filled = 0, bytes = 0, expected = 0;
    bool in_a_row = true, closed = true;
    for (std::uint64_t i = 0; i < blocks; ++i) {
      const std::uint64_t place = file_.first({folder.places.at + i * folder.places.size, 1, folder.places.size}, 0);
      const std::uint64_t length = file_.item(folder.lengths, i).value_or(0);
      if (length > file_.size() || place > file_.size() - length) marks_.inside = false;
      in_a_row = in_a_row && (i == 0 || place == expected);
      expected = place + length;
      closed = closed && isClosedJpeg(place, length);
      filled += length > 0;
      bytes += std::min(length, file_.size());
    }
    if (width > 65535 || height > 65535) return;  // more than the raw library takes, so that the products below are safe
    if (width * height < largest_) return;
    largest_ = width * height;
    // Even well compressed sensor data takes a good part of a bit for each pixel.
    marks_.has_data = width > 0 && height > 0 && blocks > 0 && filled == blocks && bytes * 64 > width * height;
    const std::uint64_t compression = file_.first(folder.compression, 1);
    marks_.lossy = compression == kLossyJpeg;
    marks_.closed = compression != kLosslessJpeg || closed;
    const std::uint64_t row = (width * std::min<std::uint64_t>(file_.first(folder.bits, 1), 64) *
                                   std::min<std::uint64_t>(file_.first(folder.samples, 1), 16) + 7) / 8;
    marks_.plain = compression != 1 || (in_a_row && (!folder.tiled || blocks == 1));
    marks_.enough = compression != 1 || bytes >= row * height;
  }

  /// True when the marker of the end is among the last bytes: some writers fill up to a round number.
  bool isClosedJpeg(std::uint64_t place, std::uint64_t length) const {
    if (file_.byteAt(place) != 0xFF || file_.byteAt(place + 1) != 0xD8) return false;
    for (std::uint64_t back = 2; back <= std::min<std::uint64_t>(length, 18); ++back)
      if (file_.byteAt(place + length - back) == 0xFF && file_.byteAt(place + length - back + 1) == 0xD9) return true;
    return false;
  }

  const FolderReader& file_;
  RawMarks marks_;
  std::vector<std::uint64_t> queue_;
  std::uint64_t largest_ = 0;
};

bool standsAt(std::span<const std::uint8_t> file, std::size_t at, std::string_view text) {
  return file.size() >= at + text.size() && std::equal(text.begin(), text.end(), file.begin() + static_cast<std::ptrdiff_t>(at),
                                                       [](char a, std::uint8_t b) { return static_cast<std::uint8_t>(a) == b; });
}

}  // namespace

RawMarks findRawMarks(std::span<const std::uint8_t> file) {
  const FolderReader reader(file);
  RawMarks marks = FolderWalk(reader).run();
  // Two containers whose folders of sensor data look like folders of any picture: they mark themselves behind the header.
  const bool behind = standsAt(file, 4, {"\x10\0\0\0CR\2\0", 8}) || (standsAt(file, 8, "IIII") && standsAt(file, 13, "waR")) ||
                      standsAt(file, 8, "MMMMRaw");
  marks.raw = marks.raw || (reader.good() && behind);
  return marks;
}

bool isForeignRaw(std::span<const std::uint8_t> file) {
  using namespace std::string_view_literals;
  struct Mark {
    std::size_t at;
    std::string_view text;
  };
  constexpr std::array kMarks{Mark{0, "FUJIFILMCCD-RAW"sv}, Mark{4, "ftypcrx "sv}, Mark{6, "HEAPCCDR"sv}, Mark{0, "IIRO"sv},
                              Mark{0, "IIRS"sv},           Mark{0, "MMOR"sv},     Mark{0, "IIU\0"sv},    Mark{0, "\0MRM"sv}};
  return std::any_of(kMarks.begin(), kMarks.end(), [file](const Mark& mark) { return standsAt(file, mark.at, mark.text); });
}

Result<void> checkRawMarks(const RawMarks& marks, const std::string& shown) {
  if (marks.beyond || (marks.sensor && marks.has_data && !marks.inside)) return fail(Code::PhotoTruncated, shown);
  if (marks.sensor ? !marks.has_data : marks.dng) return fail(Code::PhotoEmpty, shown);
  if (marks.dng && marks.lossy) return fail(Code::PhotoUnsupported, "\"" + shown + "\" is a raw file that was compressed with loss");
  if (marks.dng && !marks.closed) return fail(Code::PhotoTruncated, shown);
  if (marks.dng && !marks.enough) return fail(Code::PhotoCorrupt, shown);
  if (marks.dng && !marks.plain)
    return fail(Code::PhotoUnsupported, "\"" + shown + "\" is a raw file whose data lies about in pieces that are not read here");
  return {};
}

}  // namespace huewright
