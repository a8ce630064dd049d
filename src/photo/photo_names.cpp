#include "photo/photo_names.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"

namespace huewright {

bool hasPhotoEnding(std::string_view name) {
  constexpr std::array<std::string_view, 18> kEndings{".JPG", ".JPEG", ".PNG", ".TIF", ".TIFF", ".HEIC", ".HEIF", ".AVIF", ".DNG", ".NEF", ".CR2", ".CR3", ".ARW", ".ORF", ".RW2", ".RAF", ".PEF", ".SRW"};
  const auto dot = name.rfind('.');
  return dot != std::string_view::npos && std::ranges::find(kEndings, upperCase(name.substr(dot))) != kEndings.end();
}

}  // namespace huewright
