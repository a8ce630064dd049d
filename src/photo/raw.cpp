// Camera raw files as a source: unpacked once, by LibRaw, and kept; nothing is balanced, interpolated or brightened.
#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <libraw/libraw.h>
#include <memory>
#include <optional>
#include <string_view>
#include <utility>

#include "colour/rgb.hpp"
#include "photo/raw_cells.hpp"
#include "photo/raw_folders.hpp"
#include "photo/raw_white.hpp"
#include "photo/size_check.hpp"
#include "photo/source.hpp"

namespace huewright {
namespace {

constexpr float kTopShare = 253.0F / 255.0F;  // of the way from black to saturation, as for other files

/// An opened raw file and what its library had to say about the data.
class Raw {
 public:
  explicit Raw(const Limits& limits) : raw_(std::make_unique<LibRaw>(LIBRAW_OPIONS_NO_MEMERR_CALLBACK | LIBRAW_OPIONS_NO_DATAERR_CALLBACK)) {
    raw_->set_dataerror_handler(
        [](void* self, const char*, const int place) {
          ++static_cast<Raw*>(self)->errors_;
          static_cast<Raw*>(self)->ended_ |= place < 0;
        },
        this);
    // At most four 16-bit samples a pixel, and some room for the margins that the sensor has around the picture.
    raw_->imgdata.params.max_raw_memory_mb = static_cast<unsigned>(std::clamp(limits.megapixels * 9 + 64, 64.0, 2048.0));
    raw_->imgdata.params.raw_processing_options &= ~static_cast<unsigned>(LIBRAW_PROCESSING_CONVERTFLOAT_TO_INT);
  }
  Raw(const Raw&) = delete;
  Raw& operator=(const Raw&) = delete;

  /// The bytes must outlive this, or at least unpack(). They are only read.
  Result<void> open(std::span<const std::uint8_t> bytes, const std::string& shown) {
    return run([&] { return raw_->open_buffer(const_cast<std::uint8_t*>(bytes.data()), bytes.size()); }, shown);
  }

  Result<void> unpack(const std::string& shown) {
    auto done = run([&] { return raw_->unpack(); }, shown);
    raw_->recycle_datastream();
    return done;
  }

  LibRaw& operator*() const { return *raw_; }
  LibRaw* operator->() const { return raw_.get(); }

 private:
  template <class Step>
  Result<void> run(const Step& step, const std::string& shown) {
    int status = LIBRAW_UNSPECIFIED_ERROR;
    try {
      status = step();
    } catch (const std::bad_alloc&) {
      throw;
    } catch (...) {  // the library throws numbers of its own
      status = LIBRAW_DATA_ERROR;
    }
    const std::string quoted = "\"" + shown + "\"";
    switch (status) {
      case LIBRAW_SUCCESS:
        if (errors_ == 0 && raw_->error_count() == 0) return {};
        break;
      case LIBRAW_FILE_UNSUPPORTED:
      case LIBRAW_NOT_IMPLEMENTED: return unsupported(shown, "is a kind of camera raw file that is not read here");
      case LIBRAW_UNSUFFICIENT_MEMORY: return fail(Code::OutOfMemory, quoted);
      case LIBRAW_TOO_BIG:
      case LIBRAW_MEMPOOL_OVERFLOW: return fail(Code::PhotoTooLarge, quoted + " asks for more memory than is allowed");
      default: break;
    }
    return fail(ended_ ? Code::PhotoTruncated : Code::PhotoCorrupt, shown);
  }

  std::unique_ptr<LibRaw> raw_;
  int errors_ = 0;
  bool ended_ = false;
};

/// R, G or B (0, 1, 2) of one of the library's channels; −1 for other colours.
int filterColour(const libraw_data_t& data, int channel) {
  constexpr std::string_view kNames = "RGB";
  const auto at = channel >= 0 && channel < 4 ? kNames.find(data.idata.cdesc[channel]) : std::string_view::npos;
  return at == std::string_view::npos ? -1 : static_cast<int>(at);
}

/// What is known of the sensor before it is unpacked.
struct Sensor {
  Size size;
  std::optional<FilterPattern> filter;
};

Result<Sensor> sensorOf(LibRaw& raw, const OpenRequest& request) {
  const std::string shown = request.shown();
  const libraw_data_t& data = raw.imgdata;
  const auto size = checkSize(data.sizes.width, data.sizes.height, request.limits, shown);
  if (!size) return std::unexpected(size.error());
  if (data.idata.colors == 1) return fail(Code::PhotoOneChannel, shown);
  if (raw.is_floating_point() != 0) return unsupported(shown, "is a raw file whose numbers are not whole ones");
  if (raw.is_sraw() != 0 || data.idata.is_foveon != 0)
    return unsupported(shown, "is a raw file of a kind that holds no plain readings of the sensor");
  if (raw.is_fuji_rotated() != 0) return unsupported(shown, "is a raw file of a sensor whose pixels stand on their corners, which is not read here");
  if (data.color.phase_one_data.format != 0)
    return unsupported(shown, "is a raw file whose readings need corrections that are not known here");
  if (data.idata.colors != 3 || filterColour(data, 0) != 0 || filterColour(data, 1) != 1 || filterColour(data, 2) != 2)
    return unsupported(shown, "is a raw file of a sensor with other filters than red, green and blue");
  Sensor sensor{*size, std::nullopt};
  if (data.idata.filters == 0) return sensor;
  const bool known = data.idata.filters >= 1000 || data.idata.filters == LIBRAW_XTRANS;
  if (known) sensor.filter = FilterPattern::make([&](int row, int column) { return filterColour(data, raw.COLOR(row, column)); });
  if (!sensor.filter) return unsupported(shown, "is a raw file of a sensor whose pattern of filters is not known here");
  if (std::min(size->width, size->height) < sensor.filter->side()) return fail(Code::PhotoEmpty, shown);
  return sensor;
}

/// Black of all pixels of a filter pattern's period, or of R, G, B; empty when it does not repeat within the period.
std::vector<float> blackOf(LibRaw& raw, bool filtered) {
  const libraw_colordata_t& colour = raw.imgdata.rawdata.color;
  const unsigned rows = colour.cblack[4], columns = colour.cblack[5];
  const bool table = rows > 0 && columns > 0;
  std::vector<float> black;
  if (table && (kFilterPeriod % rows != 0 || kFilterPeriod % columns != 0)) return black;
  const auto add = [&](unsigned channel, unsigned row, unsigned column) {
    const unsigned more = table ? colour.cblack[6 + row % rows * columns + column % columns] : 0;
    black.push_back(static_cast<float>(colour.black) + static_cast<float>(colour.cblack[channel]) + static_cast<float>(more));
  };
  if (!filtered) {
    for (unsigned c = 0; c < 3; ++c) add(c, 0, 0);
    return black;
  }
  for (int y = 0; y < kFilterPeriod; ++y)
    for (int x = 0; x < kFilterPeriod; ++x) add(static_cast<unsigned>(raw.COLOR(y, x)) & 3U, static_cast<unsigned>(y), static_cast<unsigned>(x));
  return black;
}

/// True when the lowest row holds nothing but zeros although no light has a code above that: the copying stopped before it.
bool endsInZeros(const SensorData& data) {
  const std::uint16_t* row = data.codes + (data.size.height - 1) * data.pitch;
  return data.black[0] > 0 && std::all_of(row, row + std::ptrdiff_t{data.size.width} * data.samples, [](std::uint16_t code) { return code == 0; });
}

/// The unpacked codes and their meaning.
Result<SensorData> dataOf(LibRaw& raw, const Sensor& sensor, const std::string& shown) {
  const libraw_rawdata_t& from = raw.imgdata.rawdata;
  const libraw_image_sizes_t& sizes = from.sizes;
  SensorData data;
  data.size = sensor.size;
  data.filter = sensor.filter;
  data.black = blackOf(raw, sensor.filter.has_value());
  if (data.black.empty()) return unsupported(shown, "is a raw file whose black changes over the picture in a way that is not known here");
  const std::uint16_t* all = nullptr;
  if (sensor.filter) {
    all = from.raw_image;
  } else if (from.color4_image != nullptr) {
    all = &from.color4_image[0][0];
    data.samples = 4;
  } else if (from.color3_image != nullptr) {
    all = &from.color3_image[0][0];
    data.samples = 3;
  }
  data.pitch = static_cast<std::ptrdiff_t>(sizes.raw_pitch / sizeof(std::uint16_t));
  const bool inside = std::ptrdiff_t{sizes.left_margin + data.size.width} * data.samples <= data.pitch &&
                      sizes.left_margin + data.size.width <= sizes.raw_width && sizes.top_margin + data.size.height <= sizes.raw_height &&
                      sizes.width == data.size.width && sizes.height == data.size.height;
  data.white = static_cast<float>(from.color.maximum);
  const float black = *std::max_element(data.black.begin(), data.black.end());
  if (all == nullptr || !inside || !(data.white > black)) return fail(Code::PhotoCorrupt, shown);
  data.codes = all + sizes.top_margin * data.pitch + std::ptrdiff_t{sizes.left_margin} * data.samples;
  for (std::size_t c = 0; c < 3; ++c) {
    // Some cameras say where their sensor stops being proportional to light, below the highest code.
    const auto linear = static_cast<float>(from.color.linear_max[c]);
    const float full = linear > black + 0.5F * (data.white - black) && linear < data.white ? linear : data.white;
    data.top[c] = black + kTopShare * (full - black);
  }
  if (endsInZeros(data)) return fail(Code::PhotoTruncated, shown);
  return data;
}

class RawSource final : public PhotoSource {
 public:
  RawSource(FileBytes file, const Limits& limits) : file_(std::move(file)), raw_(limits) {}

  Result<void> open(const OpenRequest& request) {
    const std::string shown = request.shown();
    if (auto opened = raw_.open(file_->bytes(), shown); !opened) return opened;
    auto sensor = sensorOf(*raw_, request);
    if (!sensor) return std::unexpected(sensor.error());
    sensor_ = std::move(*sensor);
    stored = sensor_.size;
    return {};
  }

  LibRaw& library() const { return *raw_; }

  int shrink(double most) const override { return sensor_.filter && sensor_.filter->side() == 2 && most >= 2 ? 2 : 1; }

  Result<void> decode(std::span<const Rect> wanted, int shrink, const RowSink& sink) override {
    if (!cells_ && !problem_)
      if (auto done = unpack(); !done) problem_ = done.error();
    if (problem_) return std::unexpected(*problem_);
    const int side = cells_->side();
    for (int cell_row = 0; cell_row < cells_->down(); ++cell_row) {
      const int first = cell_row * side, end = std::min(first + side, stored.height);
      const bool needed = std::any_of(wanted.begin(), wanted.end(), [&](const Rect& r) { return first < r.y + r.height && r.y < end; });
      if (shrink == 1 && !needed) continue;
      cells_->read(cell_row, light_, clip_);
      if (shrink > 1) {
        sink({cell_row, 0, cells_->across(), Sample::Xyz, 3, light_.data(), clip_.data()});
        continue;
      }
      spread(side);
      for (int y = first; y < end; ++y) sink({y, 0, stored.width, Sample::Xyz, 3, wide_light_.data(), wide_clip_.data()});
    }
    return {};
  }

 private:
  Result<void> unpack() {
    const std::string shown = facts.path.string();
    auto done = raw_.unpack(shown);
    file_.reset();
    if (!done) return done;
    auto data = dataOf(*raw_, sensor_, shown);
    if (!data) return std::unexpected(data.error());
    cells_.emplace(std::move(*data));
    return {};
  }

  /// A row of cells into a row of pixels.
  void spread(int side) {
    const auto width = static_cast<std::size_t>(stored.width), step = static_cast<std::size_t>(side);
    wide_light_.resize(3 * width);
    wide_clip_.resize(width);
    for (std::size_t x = 0; x < width; ++x) {
      std::copy_n(light_.data() + 3 * (x / step), 3, wide_light_.data() + 3 * x);
      wide_clip_[x] = clip_[x / step];
    }
  }

  std::optional<FileBytes> file_;  // until it is unpacked
  Raw raw_;
  Sensor sensor_;
  std::optional<Problem> problem_;
  std::optional<CellReader> cells_;
  std::vector<float> light_, wide_light_;
  std::vector<std::uint8_t> clip_, wide_clip_;
};

/// Text of a fixed-size field without what a terminal could take for orders.
template <std::size_t N>
std::string fieldText(const char (&field)[N]) {
  std::string clean;
  for (std::size_t i = 0; i < N && field[i] != 0; ++i)
    if (static_cast<unsigned char>(field[i]) >= 0x20 && field[i] != 0x7F) clean.push_back(field[i]);
  const auto last = clean.find_last_not_of(' ');
  return last == std::string::npos ? std::string{} : clean.substr(0, last + 1);
}

std::optional<double> positive(float value) {
  return std::isfinite(value) && value > 0 ? std::optional<double>(value) : std::nullopt;
}

/// Three multipliers relative to the second; nothing when they are none.
template <class Numbers>
std::optional<Vec3> relativeToGreen(const Numbers& m) {
  if (!positive(m[0]) || !positive(m[1]) || !positive(m[2])) return std::nullopt;
  return Vec3{double{m[0]} / m[1], 1.0, double{m[2]} / m[1]};
}

/// The library's matrix from camera RGB balanced for daylight to linear sRGB, where it has one.
std::optional<Mat3> cameraToSrgb(const libraw_colordata_t& colour) {
  Mat3 m;
  for (std::size_t r = 0; r < 3; ++r) {
    for (std::size_t c = 0; c < 3; ++c) m(r, c) = double{colour.rgb_cam[r][c]};
    if (!(std::abs(m(r, 0) + m(r, 1) + m(r, 2) - 1) < 0.01)) return std::nullopt;
  }
  // Without a matrix the library has the unit matrix in its place.
  const double d = determinant(m);
  if (m == Mat3::identity() || !(std::abs(d) > 1e-3) || !std::isfinite(d)) return std::nullopt;
  return m;
}

void chooseBalance(const libraw_data_t& data, PhotoFacts& facts) {
  CameraColour camera;
  camera.to_srgb = cameraToSrgb(data.color);
  const auto daylight = relativeToGreen(data.color.pre_mul);
  if (camera.to_srgb && daylight) camera.daylight = *daylight;
  if (camera.to_srgb) {
    // Rounding in the library's tables is taken out, so that the white comes out exactly.
    Mat3 m = *camera.to_srgb;
    for (auto& row : m.row) row = (1 / (row[0] + row[1] + row[2])) * row;
    facts.builtin = kSrgbToXyzD50 * m;
    if (daylight) facts.native = rgbToXyz(kSrgbPrimaries) * m * Mat3::diagonal(*daylight);
  }
  const auto as_shot = relativeToGreen(data.color.cam_mul);
  const auto& neutral = data.color.dng_levels.asshotneutral;
  const bool stated = data.idata.dng_version != 0 && neutral[0] > 0;
  const bool sound = as_shot && isPlausibleBalance(*as_shot, camera) &&
                     (!stated || isPlausibleNeutral({double{neutral[0]}, double{neutral[1]}, double{neutral[2]}}));
  facts.balance_doubtful = !sound;
  if (sound)
    facts.balance = as_shot;
  else if (camera.to_srgb && daylight)
    facts.balance = daylight;
}

/// Factors for showing: the smallest 1, and brighter by what the file says its maker's own programs would add.
Vec3 shownFactors(const libraw_data_t& data, const PhotoFacts& facts) {
  const Vec3 balance = facts.balance.value_or(Vec3{1, 1, 1});
  const double stops = double{data.color.dng_levels.baseline_exposure};
  const double more = std::abs(stops) <= 4 ? std::exp2(stops) : 1.0;  // far outside: the library's sign for "not stated"
  return more / *std::min_element(balance.begin(), balance.end()) * balance;
}

/// EXIF orientation of the library's flip: bit 0 mirrors columns, bit 1 rows, bit 2 exchanges the two first.
int orientationOf(int flip) {
  constexpr std::array kOrientation{1, 2, 4, 3, 5, 8, 6, 7};
  return flip >= 0 && flip < 8 ? kOrientation[static_cast<std::size_t>(flip)] : 1;
}

void fillFacts(const libraw_data_t& data, bool dng, PhotoFacts& facts) {
  facts.format = dng ? "DNG" : "RAW";
  facts.bits = std::clamp(static_cast<int>(std::bit_width(data.color.maximum)), 1, 16);
  facts.linear = true;
  facts.encoding = "camera RGB";
  facts.software = fieldText(data.idata.software);
  facts.camera_rgb = true;
  facts.camera = fieldText(data.idata.make);
  if (const std::string model = fieldText(data.idata.model); !model.empty()) facts.camera += (facts.camera.empty() ? "" : " ") + model;
  facts.iso = positive(data.other.iso_speed);
  facts.exposure_time = positive(data.other.shutter);
  facts.camera_data = !facts.camera.empty() || facts.exposure_time.has_value();
  chooseBalance(data, facts);
  facts.tagged = facts.builtin.has_value();
}

}  // namespace

OpenedSource openRaw(FileBytes file, const OpenRequest& request) {
  const RawMarks marks = findRawMarks(file.bytes());
  if (auto good = checkRawMarks(marks, request.shown()); !good) return std::unexpected(good.error());
  auto source = std::make_unique<RawSource>(std::move(file), request.limits);
  if (auto opened = source->open(request); !opened) return std::unexpected(opened.error());
  const libraw_data_t& data = source->library().imgdata;
  source->turned = orientationOf(data.sizes.flip);
  source->facts.path = request.path;
  fillFacts(data, marks.dng, source->facts);
  source->colour = alreadyXyz();
  source->preview_colour =
      balanceAndMatrix(shownFactors(data, source->facts), source->facts.builtin.value_or(kSrgbToXyzD50));
  return source;
}

}  // namespace huewright
