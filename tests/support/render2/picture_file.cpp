// Pictures to files, and nothing in them that depends on the day.
#include <cstdio>   // which jpeglib.h needs

#include <jpeglib.h>
#include <lcms2.h>
#include <tiffio.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>
#include <string>

#include "colour/rgb.hpp"
#include "render2/scene.hpp"

namespace huewright::render2 {
namespace {

using Bytes = std::vector<unsigned char>;
constexpr const char* kMake = "Simulated";

[[noreturn]] void cannotWrite(const std::filesystem::path& path) { throw std::runtime_error("cannot write " + path.string()); }

std::string modelOf(const Rendered& picture) { return std::string("Camera ") + static_cast<char>(picture.camera - 'a' + 'A'); }

struct CloseProfile {
  void operator()(void* p) const { cmsCloseProfile(p); }
};

// A matrix profile with a fixed date.
Bytes profileOf(bool linear, bool p3) {
  const Primaries& p = p3 ? kP3D65Primaries : kSrgbPrimaries;
  const cmsCIExyY white{p.white.x, p.white.y, 1};
  const cmsCIExyYTRIPLE rgb{{p.red.x, p.red.y, 1}, {p.green.x, p.green.y, 1}, {p.blue.x, p.blue.y, 1}};
  const std::array<double, 5> srgb{2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};   // IEC 61966-2-1
  const std::unique_ptr<cmsToneCurve, decltype(&cmsFreeToneCurve)> curve(
      linear ? cmsBuildGamma(nullptr, 1) : cmsBuildParametricToneCurve(nullptr, 4, srgb.data()), &cmsFreeToneCurve);
  cmsToneCurve* curves[] = {curve.get(), curve.get(), curve.get()};
  const std::unique_ptr<void, CloseProfile> profile(cmsCreateRGBProfile(&white, &rgb, curves));
  if (!profile) throw std::runtime_error("cannot build a colour profile");
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile.get(), nullptr, &size);
  Bytes bytes(size);
  cmsSaveProfileToMem(profile.get(), bytes.data(), &size);
  constexpr std::array<unsigned char, 12> kDate{0x07, 0xe8, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};
  std::ranges::copy(kDate, bytes.begin() + 24);
  std::fill_n(bytes.begin() + 84, 16, static_cast<unsigned char>(0));   // the checksum, which covers no date
  return bytes;
}

// Make and model: one directory, little-endian.
Bytes exifOf(const Rendered& picture) {
  const std::string make = kMake, model = modelOf(picture);
  Bytes out{'E', 'x', 'i', 'f', 0, 0, 'I', 'I', 42, 0, 8, 0, 0, 0, 2, 0};
  const auto put = [&](std::size_t value, int bytes) {
    for (int i = 0; i < bytes; ++i) out.push_back(static_cast<unsigned char>(value >> (8 * i) & 255U));
  };
  const auto entry = [&](std::size_t tag, std::size_t length, std::size_t offset) {
    put(tag, 2);
    put(2, 2);
    put(length, 4);
    put(offset, 4);
  };
  constexpr std::size_t kData = 8 + 2 + 2 * 12 + 4;
  entry(0x010f, make.size() + 1, kData);
  entry(0x0110, model.size() + 1, kData + make.size() + 1);
  put(0, 4);
  for (const std::string& text : {make, model}) {
    out.insert(out.end(), text.begin(), text.end());
    out.push_back(0);
  }
  return out;
}

[[noreturn]] void onJpegError(j_common_ptr info) {
  char message[JMSG_LENGTH_MAX];
  info->err->format_message(info, message);
  jpeg_destroy(info);
  throw std::runtime_error(std::string("cannot write JPEG: ") + message);
}

void writeJpeg(const std::filesystem::path& path, const Rendered& picture) {
  auto codes = finished(picture.tone, picture.size, picture.linear);
  const auto close = [](std::FILE* f) { std::fclose(f); };
  const std::unique_ptr<std::FILE, decltype(close)> file(std::fopen(path.c_str(), "wb"), close);
  if (!file) cannotWrite(path);
  jpeg_compress_struct jpeg{};
  jpeg_error_mgr errors{};
  jpeg.err = jpeg_std_error(&errors);
  errors.error_exit = onJpegError;
  jpeg_create_compress(&jpeg);
  jpeg_stdio_dest(&jpeg, file.get());
  jpeg.image_width = static_cast<JDIMENSION>(picture.size.width);
  jpeg.image_height = static_cast<JDIMENSION>(picture.size.height);
  jpeg.input_components = 3;
  jpeg.in_color_space = JCS_RGB;
  jpeg_set_defaults(&jpeg);
  jpeg_set_quality(&jpeg, picture.tone.quality, TRUE);
  if (picture.tone.full_chroma) jpeg.comp_info[0].h_samp_factor = jpeg.comp_info[0].v_samp_factor = 1;
  jpeg_start_compress(&jpeg, TRUE);
  const Bytes exif = exifOf(picture);
  jpeg_write_marker(&jpeg, JPEG_APP0 + 1, exif.data(), static_cast<unsigned>(exif.size()));
  if (picture.tone.tagged) {
    const Bytes profile = profileOf(false, false);
    jpeg_write_icc_profile(&jpeg, profile.data(), static_cast<unsigned>(profile.size()));
  }
  while (jpeg.next_scanline < jpeg.image_height) {
    JSAMPROW row = codes.data() + 3 * static_cast<std::size_t>(jpeg.next_scanline) * jpeg.image_width;
    jpeg_write_scanlines(&jpeg, &row, 1);
  }
  jpeg_finish_compress(&jpeg);
  jpeg_destroy_compress(&jpeg);
}

void writeTiff(const std::filesystem::path& path, const Rendered& picture) {
  std::vector<std::uint16_t> codes(picture.linear.size());
  for (std::size_t i = 0; i < codes.size(); ++i)
    codes[i] = static_cast<std::uint16_t>(std::clamp(picture.linear[i], 0.0f, 1.0f) * 65535.0f + 0.5f);
  const std::unique_ptr<TIFF, decltype(&TIFFClose)> tiff(TIFFOpen(path.c_str(), "w"), &TIFFClose);
  if (!tiff) cannotWrite(path);
  TIFF* t = tiff.get();
  TIFFSetField(t, TIFFTAG_IMAGEWIDTH, picture.size.width);
  TIFFSetField(t, TIFFTAG_IMAGELENGTH, picture.size.height);
  TIFFSetField(t, TIFFTAG_BITSPERSAMPLE, 16);
  TIFFSetField(t, TIFFTAG_SAMPLESPERPIXEL, 3);
  TIFFSetField(t, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_RGB);
  TIFFSetField(t, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
  TIFFSetField(t, TIFFTAG_COMPRESSION, COMPRESSION_NONE);
  TIFFSetField(t, TIFFTAG_ROWSPERSTRIP, 64);
  TIFFSetField(t, TIFFTAG_MAKE, kMake);
  TIFFSetField(t, TIFFTAG_MODEL, modelOf(picture).c_str());
  const Bytes profile = profileOf(true, picture.p3);
  TIFFSetField(t, TIFFTAG_ICCPROFILE, static_cast<std::uint32_t>(profile.size()), profile.data());
  for (int y = 0; y < picture.size.height; ++y) {
    std::uint16_t* row = codes.data() + 3 * static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.size.width);
    if (TIFFWriteScanline(t, row, static_cast<std::uint32_t>(y), 0) < 0) cannotWrite(path);
  }
}

}  // namespace

void writePicture(const std::filesystem::path& path, const Rendered& picture) {
  if (picture.tone.linear) writeTiff(path, picture);
  else writeJpeg(path, picture);
}

}  // namespace huewright::render2
