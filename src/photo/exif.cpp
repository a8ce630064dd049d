#include "photo/exif.hpp"

#include <algorithm>
#include <array>
#include <libexif/exif-data.h>
#include <memory>
#include <vector>

namespace huewright {
namespace {

struct Unref {
  void operator()(ExifData* data) const { exif_data_unref(data); }
};

ExifEntry* find(const ExifData& data, ExifIfd folder, ExifTag tag) {
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

  const int orientation = shortOf(find(*data, EXIF_IFD_0, EXIF_TAG_ORIENTATION), order);
  if (orientation >= 1 && orientation <= 8) facts.orientation = orientation;
  facts.software = textOf(find(*data, EXIF_IFD_0, EXIF_TAG_SOFTWARE));
  facts.camera_data = !textOf(find(*data, EXIF_IFD_0, EXIF_TAG_MAKE)).empty() ||
                      !textOf(find(*data, EXIF_IFD_0, EXIF_TAG_MODEL)).empty() ||
                      find(*data, EXIF_IFD_EXIF, EXIF_TAG_EXPOSURE_TIME) != nullptr;
  facts.colour = colourByExif(shortOf(find(*data, EXIF_IFD_EXIF, EXIF_TAG_COLOR_SPACE), order),
                              textOf(find(*data, EXIF_IFD_INTEROPERABILITY, EXIF_TAG_INTEROPERABILITY_INDEX)));
  return facts;
}

}  // namespace huewright
