#include "paper/map_picture.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <string_view>

#include "colour/ramp.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

// Pixels.
constexpr double kDpi = 25.4;  // a millimetre of the pen is a pixel
constexpr double kMargin = 24, kGap = 20, kLeast = 420, kMost = 720, kNarrowest = 680;
constexpr double kStack = 1.6;    // a panel so many times as wide as high has its two views one above the other
constexpr double kMapLine = 1.4;  // of the font's size
constexpr double kBarHeight = 22, kBarLongest = 640;
constexpr int kLargest = 4000;
constexpr Type kTitle{19, true}, kHead{14, true}, kText{15}, kLabel{13}, kSmall{12, false, Align::Left, 0, 0.38};
constexpr double kFrame = 0.55;
constexpr double kShortest = 36;  // of a contour, pixels of the picture: shorter ones are specks

/// "1.5", "2", "0.25": as few digits as it takes.
std::string numberText(double v) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%.3g", v);
  return text.data();
}

bool isShown(const MapSheet& sheet, std::size_t i) {
  return std::isfinite(sheet.de00[i]) && (sheet.parts.empty() || sheet.parts[i] == MapPart::Shown);
}
MapPart partOf(const MapSheet& sheet, std::size_t i) {
  if (!sheet.parts.empty() && sheet.parts[i] != MapPart::Shown) return sheet.parts[i];
  return std::isfinite(sheet.de00[i]) ? MapPart::Shown : MapPart::Clipped;
}

/// Grey stripes, one slant for each kind of place that is left out.
std::uint8_t hatch(MapPart part, int x, int y) {
  constexpr std::uint8_t kPale = 214, kDark = 128;
  constexpr int kPitch = 9, kThick = 2;
  const int rising = (x + y) % kPitch, falling = (x - y + kLargest * kPitch) % kPitch;
  const bool dark = part == MapPart::Glare ? rising < kThick : part == MapPart::Shadow ? falling < kThick : rising < kThick || falling < kThick;
  return dark ? kDark : kPale;
}

/// Means over what is shown within so many places along a row (step 1) or a column (step = the width).
void boxMeans(std::vector<float>& values, const std::vector<bool>& shown, std::size_t lines, std::size_t next, std::size_t length, std::size_t step,
              std::size_t reach) {
  std::vector<double> sums(length + 1), counts(length + 1);
  for (std::size_t line = 0; line < lines; ++line) {
    const std::size_t first = line * next;
    for (std::size_t i = 0; i < length; ++i) {
      const std::size_t at = first + i * step;
      sums[i + 1] = sums[i] + (shown[at] ? static_cast<double>(values[at]) : 0.0);
      counts[i + 1] = counts[i] + (shown[at] ? 1 : 0);
    }
    for (std::size_t i = 0; i < length; ++i) {
      const std::size_t from = i > reach ? i - reach : 0, to = std::min(length, i + reach + 1);
      if (shown[first + i * step]) values[first + i * step] = static_cast<float>((sums[to] - sums[from]) / (counts[to] - counts[from]));
    }
  }
}

/// The map smoothed a little more, by two box means of 1/150 of its longer side either way: what is left of the noise makes no ragged contour.
std::vector<float> quieted(const MapSheet& sheet, const std::vector<bool>& shown) {
  std::vector<float> out(sheet.de00);
  const auto w = static_cast<std::size_t>(sheet.size.width), h = static_cast<std::size_t>(sheet.size.height);
  const std::size_t reach = std::max<std::size_t>(1, (std::max(w, h) + 75) / 150);
  for (int round = 0; round < 2; ++round) {
    boxMeans(out, shown, h, w, w, 1, reach);
    boxMeans(out, shown, w, 1, h, w, reach);
  }
  return out;
}

/// The map in colours, at the size at which it is seen: values run on between the map's pixels, what is left out is hatched.
std::vector<std::uint8_t> painted(const MapSheet& sheet, Size view, double top) {
  std::vector<std::uint8_t> rgb;
  rgb.reserve(3 * static_cast<std::size_t>(view.width) * static_cast<std::size_t>(view.height));
  const int w = sheet.size.width, h = sheet.size.height;
  const auto index = [&](int x, int y) { return static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x); };
  for (int y = 0; y < view.height; ++y) {
    const double v = std::clamp((y + 0.5) / view.height * h - 0.5, 0.0, h - 1.0);
    const int row = std::min(static_cast<int>(v), std::max(0, h - 2)), below = std::min(row + 1, h - 1);
    for (int x = 0; x < view.width; ++x) {
      const double u = std::clamp((x + 0.5) / view.width * w - 0.5, 0.0, w - 1.0);
      const int column = std::min(static_cast<int>(u), std::max(0, w - 2)), right = std::min(column + 1, w - 1);
      const auto nearest = index(static_cast<int>(std::lround(u)), static_cast<int>(std::lround(v)));
      if (const MapPart part = partOf(sheet, nearest); part != MapPart::Shown) {
        rgb.insert(rgb.end(), 3, hatch(part, x, y));
        continue;
      }
      const double fx = u - column, fy = v - row;
      double sum = 0, weights = 0;
      const std::array corners{std::pair{index(column, row), (1 - fx) * (1 - fy)}, std::pair{index(right, row), fx * (1 - fy)},
                               std::pair{index(column, below), (1 - fx) * fy}, std::pair{index(right, below), fx * fy}};
      for (const auto& [i, weight] : corners) {
        if (!isShown(sheet, i)) continue;
        sum += weight * static_cast<double>(sheet.de00[i]);
        weights += weight;
      }
      const auto code = mapColour(weights > 0 ? sum / weights / top : 0);
      rgb.insert(rgb.end(), code.begin(), code.end());
    }
  }
  return rgb;
}

/// What is worked out once, before anything is drawn.
struct Prepared {
  double top = 1, scale = 1;
  Size view;                               ///< of each of the two views
  bool stacked = false;
  double width = 0;                        ///< between the margins
  std::vector<std::uint8_t> map;
  std::vector<std::vector<Point>> lines;   ///< in pixels of the view
  std::array<bool, 4> has{};               ///< by MapPart
};

double lengthOf(const std::vector<Point>& line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
  return sum;
}

Prepared prepared(const MapSheet& sheet) {
  Prepared p;
  p.top = mapScaleTop(sheet.de00, sheet.parts, sheet.tolerance);
  const double longer = std::max(sheet.size.width, sheet.size.height);
  p.scale = std::clamp(longer, kLeast, kMost) / longer;
  const auto seen = [&p](int side) { return std::max(1, static_cast<int>(std::lround(p.scale * side))); };
  p.view = {seen(sheet.size.width), seen(sheet.size.height)};
  p.stacked = sheet.size.width > kStack * sheet.size.height;
  p.width = std::max(kNarrowest, p.stacked ? p.view.width : 2 * p.view.width + kGap);
  p.map = painted(sheet, p.view, p.top);
  std::vector<bool> shown(sheet.de00.size());
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const MapPart part = partOf(sheet, i);
    shown[i] = part == MapPart::Shown;
    p.has[static_cast<std::size_t>(part)] = true;
  }
  p.lines = contours(sheet.size, quieted(sheet, shown), shown, sheet.tolerance);
  for (auto& line : p.lines)
    for (Point& at : line) at = {at.x * p.view.width / sheet.size.width, at.y * p.view.height / sheet.size.height};
  std::erase_if(p.lines, [](const auto& line) { return lengthOf(line) < kShortest; });
  return p;
}

void drawFrame(Pen& pen, double x, double y, Size size) {
  const double right = x + size.width, bottom = y + size.height;
  pen.box(x - 1, y - 1, size.width + 2, 1, kFrame);
  pen.box(x - 1, bottom, size.width + 2, 1, kFrame);
  pen.box(x - 1, y, 1, size.height, kFrame);
  pen.box(right, y, 1, size.height, kFrame);
}

/// Draws down the page; y is where the next thing goes.
class Page {
 public:
  Page(Pen& pen, const MapSheet& sheet, const Prepared& prepared) : pen_(pen), sheet_(sheet), p_(prepared) {}

  /// Draws all of it and tells the height that it takes.
  double compose() {
    paragraph(sheet_.title, kTitle, p_.width);
    y_ += 8;
    views();
    legend();
    keys();
    for (const std::string& sentence : sheet_.sentences) paragraph(sentence, kText, p_.width);
    if (!sheet_.sentences.empty()) y_ += 8;
    smallPrint();
    return std::ceil(y_ - 0.4 * kSmall.size + kMargin);
  }

 private:
  void paragraph(const std::string& text, Type type, double width) {
    if (text.empty()) return;
    for (const std::string& line : pen_.wrapped(text, type, width)) {
      type.widest = width;
      pen_.text({kMargin, y_ + type.size}, line, type);
      y_ += kMapLine * type.size;
    }
  }

  /// One view with its heading, in a column that starts at x; the taller of two decides where the page goes on.
  double view(double x, double column, std::string_view head, bool map) {
    Type type = kHead;
    type.align = Align::Centre;
    double y = y_;
    for (const std::string& line : pen_.wrapped(head, type, column)) {
      type.widest = column;
      pen_.text({x + column / 2, y + type.size}, line, type);
      y += 1.25 * type.size;
    }
    y += 6;
    const double left = std::round(x + (column - p_.view.width) / 2);
    y = std::round(y);
    if (!map) {
      pen_.image(left, y, p_.view.width, p_.view.height, sheet_.size, sheet_.photo);
    } else {
      pen_.image(left, y, p_.view.width, p_.view.height, p_.view, p_.map);
      pen_.push({left, y});
      for (const auto& line : p_.lines) pen_.line(line, 4.2, 1);
      for (const auto& line : p_.lines) pen_.line(line, 1.7, 0);
      pen_.pop();
    }
    drawFrame(pen_, left, y, p_.view);
    return y + p_.view.height;
  }

  void views() {
    constexpr std::string_view kPhoto = "The panel as photographed", kMap = "Its difference from the card";
    if (p_.stacked) {
      y_ = view(kMargin, p_.width, kPhoto, false) + kGap;
      y_ = view(kMargin, p_.width, kMap, true) + kGap;
      return;
    }
    const double column = (p_.width - kGap) / 2;
    y_ = std::max(view(kMargin, column, kPhoto, false), view(kMargin + column + kGap, column, kMap, true)) + kGap;
  }

  void legend() {
    const double length = std::min(kBarLongest, p_.width - 80), left = kMargin + std::round((p_.width - length) / 2);
    const auto place = [&](double value) { return left + value / p_.top * length; };
    // The tolerance above the bar, where its line is drawn as in the map.
    const double mark = place(sheet_.tolerance), text_y = y_ + kLabel.size;
    pen_.text({mark - 5, text_y}, "tolerance " + numberText(sheet_.tolerance) + ": the line in the map", {kLabel.size, true});
    y_ = std::round(y_ + kLabel.size + 13);
    const int columns = static_cast<int>(length);
    std::vector<std::uint8_t> bar;
    for (int x = 0; x < columns; ++x) {
      const auto code = mapColour((x + 0.5) / columns);
      bar.insert(bar.end(), code.begin(), code.end());
    }
    pen_.image(left, y_, columns, kBarHeight, {columns, 1}, bar);
    const double tip = left + columns;
    const Point upper{tip, y_}, end{tip + kBarHeight / 2, y_ + kBarHeight / 2}, lower{tip, y_ + kBarHeight};
    pen_.polygon(std::array{upper, end, lower}, Ink(mapColour(1)));
    pen_.line(std::array{Point{left, y_}, upper, end, lower, Point{left, y_ + kBarHeight}, Point{left, y_}}, 1, kFrame);
    const std::array through{Point{mark, y_ - 5}, Point{mark, y_ + kBarHeight + 2}};
    pen_.line(through, 4.2, 1);
    pen_.line(through, 1.7, 0);

    const double base = y_ + kBarHeight + 8 + kLabel.size;
    const std::string last = numberText(p_.top) + " or more";
    Type type = kLabel;
    type.align = Align::Centre;
    const double last_left = tip - pen_.widthOf(last, kLabel) / 2;
    pen_.text({tip, base}, last, type);
    pen_.box(std::round(tip) - 1, y_ + kBarHeight, 1, 5, 0.2);
    const double step = tickStep();
    for (int i = 0; i * step < p_.top - 1e-9; ++i) {
      const std::string label = numberText(i * step);
      const double at = place(i * step);
      if (at + pen_.widthOf(label, kLabel) / 2 + 8 > last_left) continue;
      pen_.text({at, base}, label, type);
      pen_.box(std::round(at), y_ + kBarHeight, 1, 5, 0.2);
    }
    pen_.text({kMargin + p_.width / 2, base + 1.5 * kLabel.size}, "colour difference from the card, ΔE00; about 1 is what a trained eye just sees", type);
    y_ = base + 1.5 * kLabel.size + 0.5 * kGap + 6;
  }

  /// 1, 2 or 5 times a power of ten, so that there are four to ten ticks.
  double tickStep() const {
    const double rough = p_.top / 8, power = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double times : {1.0, 2.0, 5.0})
      if (times * power >= rough * (1 - 1e-9)) return times * power;
    return 10 * power;
  }

  /// The two colours side by side, and what the hatching means.
  void keys() {
    constexpr double kWide = 124, kHigh = 52;
    y_ = std::round(y_);
    const std::array<std::pair<const char*, Lab<D50>>, 2> swatches{{{"the panel’s mean", sheet_.panel}, {"the card", sheet_.card}}};
    double x = kMargin;
    for (const auto& [name, lab] : swatches) {
      pen_.box(x, y_, kWide, kHigh, Ink(toSrgb8(lab)));  // they touch: the eye compares best so
      pen_.text({x + kWide / 2, y_ + kHigh + 4 + kLabel.size}, name, {kLabel.size, false, Align::Centre, kWide - 6});
      x += kWide;
    }
    x += 1.6 * kGap;
    double y = y_;
    constexpr std::array<std::string_view, 4> kWords{"", "left out: something is mirrored there", "left out: shadow or dirt",
                                                     "left out: too bright or too dark"};
    for (const MapPart part : {MapPart::Glare, MapPart::Shadow, MapPart::Clipped}) {
      if (!p_.has[static_cast<std::size_t>(part)]) continue;
      constexpr Size kBox{30, 18};
      std::vector<std::uint8_t> rgb;
      for (int r = 0; r < kBox.height; ++r)
        for (int c = 0; c < kBox.width; ++c) rgb.insert(rgb.end(), 3, hatch(part, c, r));
      pen_.image(x, y, kBox.width, kBox.height, kBox, rgb);
      drawFrame(pen_, x, y, kBox);
      const Type type{kLabel.size, false, Align::Left, kMargin + p_.width - x - 42};
      pen_.text({x + kBox.width + 9, y + 14}, kWords[static_cast<std::size_t>(part)], type);
      y += 25;
    }
    y_ = std::max(y_ + kHigh + 4 + 1.4 * kLabel.size, y) + 12;
  }

  void smallPrint() {
    std::string text = "Each place is compared with the card’s mean, after the light was evened out.";
    if (sheet_.smoothed > 0) {
      const double share = std::max(sheet_.size.width, sheet_.size.height) / sheet_.smoothed;
      text += " It stands for its surroundings, smoothed by about 1/" + numberText(std::round(share)) +
              " of the longer side, so that the photo’s noise does not count as difference.";
    }
    paragraph(text, kSmall, p_.width);
    for (const std::string& line : sheet_.small_print) paragraph(line, kSmall, p_.width);
  }

  Pen& pen_;
  const MapSheet& sheet_;
  const Prepared& p_;
  double y_ = kMargin;
};

bool isSound(const MapSheet& sheet) {
  const Size s = sheet.size;
  if (s.width < 1 || s.height < 1 || s.width > kLargest || s.height > kLargest) return false;
  const auto pixels = static_cast<std::size_t>(s.width) * static_cast<std::size_t>(s.height);
  return sheet.photo.size() == 3 * pixels && sheet.de00.size() == pixels && (sheet.parts.empty() || sheet.parts.size() == pixels) && sheet.tolerance > 0 &&
         std::isfinite(sheet.tolerance);
}

/// Composed twice: once to learn its height, once for good.
Result<Pen> page(const MapSheet& sheet) {
  if (!isSound(sheet)) return fail(Code::Internal, "a map whose layers do not fit");
  const Prepared p = prepared(sheet);
  Pen scratch = Pen::picture(8, 8, kDpi);
  const double height = Page(scratch, sheet, p).compose();
  Pen pen = Pen::picture(p.width + 2 * kMargin, height, kDpi);
  Page(pen, sheet, p).compose();
  return pen;
}

}  // namespace

double mapScaleTop(std::span<const float> de00, std::span<const MapPart> parts, double tolerance) {
  std::vector<float> values;
  for (std::size_t i = 0; i < de00.size(); ++i)
    if (std::isfinite(de00[i]) && (parts.empty() || parts[i] == MapPart::Shown)) values.push_back(de00[i]);
  const double least = 3 * tolerance;
  if (values.empty()) return least;
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(0.98 * static_cast<double>(values.size() - 1));
  std::ranges::nth_element(values, at);
  const double high = static_cast<double>(*at);
  if (high <= least) return least;
  const double power = std::pow(10.0, std::floor(std::log10(high)));
  for (const double times : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0})
    if (times * power >= high * (1 - 1e-6)) return std::max(least, times * power);
  return std::max(least, 10 * power);
}

std::array<std::uint8_t, 3> mapColour(double share) { return rampCode(share); }

Result<DrawnPicture> mapPicture(const MapSheet& sheet) try {
  auto pen = page(sheet);
  if (!pen) return std::unexpected(pen.error());
  return pen->drawn();
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "a map");
}

Result<std::vector<Quad>> mapTypeBoxes(const MapSheet& sheet) try {
  auto pen = page(sheet);
  if (!pen) return std::unexpected(pen.error());
  return pen->typeBoxes();
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "a map");
}

}  // namespace huewright
