#include "photo/exif.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <libexif/exif-data.h>
#include <memory>
#include <vector>

#include "base/text.hpp"
#include "photo/jpeg_frame.hpp"

namespace huewright {
namespace {

struct Unref {
  void operator()(ExifData* data) const { exif_data_unref(data); }
};

ExifEntry* findEntry(const ExifData& data, ExifIfd folder, ExifTag tag) {
  return exif_content_get_entry(data.ifd[folder], tag);
}

std::string textOf(const ExifEntry* entry) {
  if (entry == nullptr || entry->format != EXIF_FORMAT_ASCII || entry->data == nullptr) return {};
  std::string text;
  for (unsigned i = 0; i < entry->size && entry->data[i] != 0; ++i)
    if (entry->data[i] >= 0x20 && entry->data[i] != 0x7F) text.push_back(static_cast<char>(entry->data[i]));
  const auto last = text.find_last_not_of(' ');
  return last == std::string::npos ? std::string{} : text.substr(0, last + 1);
}

int shortOf(const ExifEntry* entry, ExifByteOrder order) {
  if (entry == nullptr || entry->format != EXIF_FORMAT_SHORT || entry->data == nullptr || entry->size < 2) return -1;
  return exif_get_short(entry->data, order);
}

int wholeOf(const ExifEntry* entry, ExifByteOrder order) {
  if (entry == nullptr || entry->data == nullptr) return -1;
  if (entry->format == EXIF_FORMAT_LONG && entry->size >= 4) return static_cast<int>(std::min<ExifLong>(exif_get_long(entry->data, order), 1U << 20));
  return shortOf(entry, order);
}

/// Of "2024:05:17 10:31:00", by whatever clock the camera goes; EXIF 2.32, 4.6.4.
std::optional<std::chrono::sys_seconds> timeOf(const std::string& text) {
  const std::string_view t = text;
  if (t.size() != 19 || t[4] != ':' || t[7] != ':' || t[10] != ' ' || t[13] != ':' || t[16] != ':') return std::nullopt;
  std::array<int, 6> part{};
  constexpr std::array<std::size_t, 6> kAt{0, 5, 8, 11, 14, 17};
  for (std::size_t i = 0; i < 6; ++i) {
    const auto n = numberOf(t.substr(kAt[i], i == 0 ? 4 : 2));
    if (!n || *n < 0 || *n > 9999) return std::nullopt;
    part[i] = static_cast<int>(*n);
  }
  const std::chrono::year_month_day day{std::chrono::year(part[0]), std::chrono::month(static_cast<unsigned>(part[1])),
                                        std::chrono::day(static_cast<unsigned>(part[2]))};
  if (!day.ok()) return std::nullopt;
  return std::chrono::sys_days(day) + std::chrono::hours(part[3]) + std::chrono::minutes(part[4]) + std::chrono::seconds(part[5]);
}

ExifTraces tracesOf(const ExifData& data) {
  const ExifByteOrder order = exif_data_get_byte_order(const_cast<ExifData*>(&data));
  ExifTraces traces;
  traces.present = data.ifd[EXIF_IFD_0]->count > 0 || data.ifd[EXIF_IFD_EXIF]->count > 0;
  traces.exposure = findEntry(data, EXIF_IFD_EXIF, EXIF_TAG_EXPOSURE_TIME) != nullptr;
  const std::string taken_text = textOf(findEntry(data, EXIF_IFD_EXIF, EXIF_TAG_DATE_TIME_ORIGINAL));
  const auto taken = timeOf(taken_text);
  const auto changed = timeOf(textOf(findEntry(data, EXIF_IFD_0, EXIF_TAG_DATE_TIME)));
  traces.changed_later = taken && changed && *changed - *taken > std::chrono::minutes(1);
  if (taken) traces.day = taken_text.substr(0, 4) + "-" + taken_text.substr(5, 2) + "-" + taken_text.substr(8, 2);
  traces.camera = textOf(findEntry(data, EXIF_IFD_0, EXIF_TAG_MAKE));
  if (const std::string model = textOf(findEntry(data, EXIF_IFD_0, EXIF_TAG_MODEL)); !model.empty()) traces.camera += (traces.camera.empty() ? "" : " ") + model;
  const Size told{wholeOf(findEntry(data, EXIF_IFD_EXIF, EXIF_TAG_PIXEL_X_DIMENSION), order),
                  wholeOf(findEntry(data, EXIF_IFD_EXIF, EXIF_TAG_PIXEL_Y_DIMENSION), order)};
  if (told.width > 0 && told.height > 0) traces.told_size = told;
  if (data.data != nullptr && data.size > 0)
    if (const auto frame = findFrame({data.data, data.size})) traces.thumbnail = frame->size;
  return traces;
}

}  // namespace

std::optional<NamedColour> colourByExif(int colour_space, const std::string& interoperability) {
  if (colour_space == 1) return srgbByName();
  if (colour_space == 2 || (colour_space == 65535 && interoperability.starts_with("R03"))) return adobeByName();
  return std::nullopt;
}

ExifFacts readExif(std::span<const std::uint8_t> tiff) {
  ExifFacts facts;
  constexpr std::array<std::uint8_t, 6> kHeader{'E', 'x', 'i', 'f', 0, 0};
  // Some writers of PNG and HEIF leave the JPEG segment's header in front.
  if (tiff.size() > kHeader.size() && std::equal(kHeader.begin(), kHeader.end(), tiff.begin())) tiff = tiff.subspan(kHeader.size());
  if (tiff.size() < 8 || tiff.size() > (1U << 24)) return facts;
  std::vector<std::uint8_t> bytes(kHeader.begin(), kHeader.end());
  bytes.insert(bytes.end(), tiff.begin(), tiff.end());

  const std::unique_ptr<ExifData, Unref> data(exif_data_new());
  if (!data) return facts;
  // As the file has it: nothing put right, nothing added.
  exif_data_unset_option(data.get(), EXIF_DATA_OPTION_FOLLOW_SPECIFICATION);
  exif_data_load_data(data.get(), bytes.data(), static_cast<unsigned>(bytes.size()));
  const ExifByteOrder order = exif_data_get_byte_order(data.get());

  const int orientation = shortOf(findEntry(*data, EXIF_IFD_0, EXIF_TAG_ORIENTATION), order);
  if (orientation >= 1 && orientation <= 8) facts.orientation = orientation;
  facts.software = textOf(findEntry(*data, EXIF_IFD_0, EXIF_TAG_SOFTWARE));
  facts.camera_data = !textOf(findEntry(*data, EXIF_IFD_0, EXIF_TAG_MAKE)).empty() ||
                      !textOf(findEntry(*data, EXIF_IFD_0, EXIF_TAG_MODEL)).empty() ||
                      findEntry(*data, EXIF_IFD_EXIF, EXIF_TAG_EXPOSURE_TIME) != nullptr;
  facts.colour = colourByExif(shortOf(findEntry(*data, EXIF_IFD_EXIF, EXIF_TAG_COLOR_SPACE), order),
                              textOf(findEntry(*data, EXIF_IFD_INTEROPERABILITY, EXIF_TAG_INTEROPERABILITY_INDEX)));
  facts.traces = tracesOf(*data);
  return facts;
}

}  // namespace huewright
