#include "render/picture_file.hpp"

#include <jpeglib.h>
#include <lcms2.h>
#include <tiffio.h>

#include <algorithm>
#include <cstdio>
#include <memory>
#include <stdexcept>
#include <string>

namespace huewright::render {
namespace {

using Bytes = std::vector<unsigned char>;

[[noreturn]] void cannotWrite(const std::filesystem::path& path) { throw std::runtime_error("cannot write " + path.string()); }

// A matrix profile whose header carries a fixed date, so that the same picture gives the same file, and names no maker.
Bytes profileOf(const Style& style) {
  const Primaries& p = primaries(style.linear ? style.space : Space::Srgb);
  const cmsCIExyY white{p.white.x, p.white.y, 1};
  const cmsCIExyYTRIPLE rgb{{p.red.x, p.red.y, 1}, {p.green.x, p.green.y, 1}, {p.blue.x, p.blue.y, 1}};
  const double srgb_curve[] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  cmsToneCurve* curve = style.linear ? cmsBuildGamma(nullptr, 1.0) : cmsBuildParametricToneCurve(nullptr, 4, srgb_curve);
  cmsToneCurve* curves[] = {curve, curve, curve};
  cmsHPROFILE profile = cmsCreateRGBProfile(&white, &rgb, curves);
  cmsFreeToneCurve(curve);
  if (!profile) throw std::runtime_error("cannot build a colour profile");
  const std::string name = style.linear ? (style.space == Space::P3 ? "Display P3, linear" : "sRGB, linear") : "sRGB";
  cmsMLU* text = cmsMLUalloc(nullptr, 1);
  cmsMLUsetASCII(text, "en", "US", name.c_str());
  cmsWriteTag(profile, cmsSigProfileDescriptionTag, text);
  cmsMLUfree(text);
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  Bytes bytes(size);
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsCloseProfile(profile);
  constexpr unsigned char kDate[] = {0x07, 0xe8, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};
  std::copy(std::begin(kDate), std::end(kDate), bytes.begin() + 24);
  for (const int maker : {4, 40, 80}) std::fill_n(bytes.begin() + maker, 4, static_cast<unsigned char>(0));
  std::fill_n(bytes.begin() + 84, 16, static_cast<unsigned char>(0));
  return bytes;
}

// EXIF with the camera's make and model and the orientation: one directory, big-endian.
Bytes exifOf(const FileOptions& options) {
  Bytes out{'E', 'x', 'i', 'f', 0, 0, 'M', 'M', 0, 42, 0, 0, 0, 8};
  const auto put16 = [&](unsigned v) {
    out.push_back(static_cast<unsigned char>(v >> 8));
    out.push_back(static_cast<unsigned char>(v & 255));
  };
  const auto put32 = [&](unsigned v) {
    put16(v >> 16);
    put16(v & 0xffff);
  };
  const std::string make("Simulated\0", 10);
  std::string model = std::string("Camera ") + static_cast<char>(options.camera - 'a' + 'A');
  model.push_back('\0');
  const unsigned entries = 3, data = 8 + 2 + entries * 12 + 4;
  put16(entries);
  const auto text = [&](unsigned tag, const std::string& value, unsigned offset) {
    put16(tag);
    put16(2);
    put32(static_cast<unsigned>(value.size()));
    put32(offset);
  };
  text(0x010f, make, data);
  text(0x0110, model, data + static_cast<unsigned>(make.size()));
  put16(0x0112);
  put16(3);
  put32(1);
  put16(static_cast<unsigned>(options.orientation));
  put16(0);
  put32(0);
  out.insert(out.end(), make.begin(), make.end());
  out.insert(out.end(), model.begin(), model.end());
  return out;
}

// The pixels as an orientation of 6 stores them: a viewer turns them a quarter clockwise.
std::vector<std::uint8_t> quarterTurn(const std::vector<std::uint8_t>& upright, Size size) {
  std::vector<std::uint8_t> stored(upright.size());
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const auto from = 3 * (static_cast<std::size_t>(y) * size.width + x);
      const auto to = 3 * (static_cast<std::size_t>(size.width - 1 - x) * size.height + y);
      std::copy_n(upright.begin() + static_cast<std::ptrdiff_t>(from), 3, stored.begin() + static_cast<std::ptrdiff_t>(to));
    }
  return stored;
}

[[noreturn]] void onJpegError(j_common_ptr info) {
  char message[JMSG_LENGTH_MAX];
  info->err->format_message(info, message);
  jpeg_destroy(info);
  throw std::runtime_error(std::string("cannot write JPEG: ") + message);
}

}  // namespace

void writeJpeg(const std::filesystem::path& path, const Rendered& picture, const FileOptions& options) {
  Size size = picture.size;
  auto codes = encode8(picture.style, size, picture.linear);
  if (options.orientation == 6) {
    codes = quarterTurn(codes, size);
    std::swap(size.width, size.height);
  }
  const auto close = [](std::FILE* f) { std::fclose(f); };
  const std::unique_ptr<std::FILE, decltype(close)> file(std::fopen(path.c_str(), "wb"), close);
  if (!file) cannotWrite(path);
  jpeg_compress_struct jpeg{};
  jpeg_error_mgr errors{};
  jpeg.err = jpeg_std_error(&errors);
  errors.error_exit = onJpegError;
  jpeg_create_compress(&jpeg);
  jpeg_stdio_dest(&jpeg, file.get());
  jpeg.image_width = static_cast<JDIMENSION>(size.width);
  jpeg.image_height = static_cast<JDIMENSION>(size.height);
  jpeg.input_components = 3;
  jpeg.in_color_space = JCS_RGB;
  jpeg_set_defaults(&jpeg);
  jpeg_set_quality(&jpeg, picture.style.quality, TRUE);
  jpeg.dct_method = JDCT_ISLOW;
  jpeg.optimize_coding = TRUE;
  if (picture.style.full_chroma) jpeg.comp_info[0].h_samp_factor = jpeg.comp_info[0].v_samp_factor = 1;
  jpeg_start_compress(&jpeg, TRUE);
  if (options.exif) {
    const Bytes exif = exifOf(options);
    jpeg_write_marker(&jpeg, JPEG_APP0 + 1, exif.data(), static_cast<unsigned>(exif.size()));
  }
  if (picture.style.tagged) {
    const Bytes profile = profileOf(picture.style);
    jpeg_write_icc_profile(&jpeg, profile.data(), static_cast<unsigned>(profile.size()));
  }
  while (jpeg.next_scanline < jpeg.image_height) {
    JSAMPROW row = codes.data() + static_cast<std::size_t>(jpeg.next_scanline) * static_cast<std::size_t>(size.width) * 3;
    jpeg_write_scanlines(&jpeg, &row, 1);
  }
  jpeg_finish_compress(&jpeg);
  jpeg_destroy_compress(&jpeg);
}

void writeTiff16(const std::filesystem::path& path, const Rendered& picture, const FileOptions& options) {
  auto codes = encode16(picture.linear, options.bits);
  const std::unique_ptr<TIFF, decltype(&TIFFClose)> tiff(TIFFOpen(path.c_str(), "wl"), &TIFFClose);
  if (!tiff) cannotWrite(path);
  TIFF* t = tiff.get();
  TIFFSetField(t, TIFFTAG_IMAGEWIDTH, picture.size.width);
  TIFFSetField(t, TIFFTAG_IMAGELENGTH, picture.size.height);
  TIFFSetField(t, TIFFTAG_BITSPERSAMPLE, 16);
  TIFFSetField(t, TIFFTAG_SAMPLESPERPIXEL, 3);
  TIFFSetField(t, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_RGB);
  TIFFSetField(t, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
  TIFFSetField(t, TIFFTAG_COMPRESSION, COMPRESSION_ADOBE_DEFLATE);
  TIFFSetField(t, TIFFTAG_PREDICTOR, PREDICTOR_HORIZONTAL);
  TIFFSetField(t, TIFFTAG_ROWSPERSTRIP, 32);
  if (options.exif) {
    TIFFSetField(t, TIFFTAG_MAKE, "Simulated");
    TIFFSetField(t, TIFFTAG_MODEL, (std::string("Camera ") + static_cast<char>(options.camera - 'a' + 'A')).c_str());
  }
  if (picture.style.tagged) {
    const Bytes profile = profileOf(picture.style);
    TIFFSetField(t, TIFFTAG_ICCPROFILE, static_cast<std::uint32_t>(profile.size()), profile.data());
  }
  for (int y = 0; y < picture.size.height; ++y) {
    std::uint16_t* row = codes.data() + static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.size.width) * 3;
    if (TIFFWriteScanline(t, row, static_cast<std::uint32_t>(y), 0) < 0) cannotWrite(path);
  }
}

void writePicture(const std::filesystem::path& path, const Rendered& picture, const FileOptions& options) {
  if (picture.style.linear) writeTiff16(path, picture, options);
  else writeJpeg(path, picture, options);
}

}  // namespace huewright::render
