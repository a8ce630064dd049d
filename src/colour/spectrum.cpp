#include "colour/spectrum.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>

namespace huewright {
namespace {

std::vector<std::string> fieldsOf(const std::string& line) {
  std::vector<std::string> fields(1);
  for (const char c : line) {
    if (c == ',') fields.emplace_back();
    else if (c != '\r') fields.back() += c;
  }
  return fields;
}

bool parseField(const std::string& text, double& value) {
  if (text.empty()) {
    value = 0;
    return true;
  }
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size() && std::isfinite(value);
}

}  // namespace

const std::vector<double>* SpectralTable::find(std::string_view name) const {
  const auto at = std::ranges::find(names, name);
  return at == names.end() ? nullptr : &columns[static_cast<std::size_t>(at - names.begin())];
}

Result<SpectralTable> readSpectralTable(const std::filesystem::path& path) {
  std::ifstream file(path);
  if (!file) return fail(Code::DataMissing, path.string());
  SpectralTable table;
  std::string line;
  for (int number = 1; std::getline(file, line); ++number) {
    if (line.empty() || line[0] == '#') continue;
    const auto fields = fieldsOf(line);
    if (table.names.empty()) {
      table.names.assign(fields.begin() + 1, fields.end());
      table.columns.resize(table.names.size());
      if (table.names.empty()) return fail(Code::DataMissing, path.string() + ", line " + std::to_string(number));
      continue;
    }
    bool good = fields.size() == table.names.size() + 1 && !fields[0].empty();
    for (std::size_t i = 0; good && i < fields.size(); ++i) {
      double value = 0;
      good = parseField(fields[i], value);
      if (i == 0) {
        good = good && (table.nm.empty() || value > table.nm.back());
        table.nm.push_back(value);
      } else {
        table.columns[i - 1].push_back(value);
      }
    }
    if (!good) return fail(Code::DataMissing, path.string() + ", line " + std::to_string(number));
  }
  if (table.nm.empty()) return fail(Code::DataMissing, path.string());
  return table;
}

std::vector<double> resample(std::span<const double> nm, std::span<const double> values, std::span<const double> grid) {
  std::vector<double> out;
  out.reserve(grid.size());
  for (const double w : grid) {
    const auto above = std::ranges::lower_bound(nm, w);
    if (above == nm.begin()) {
      out.push_back(values.front());
    } else if (above == nm.end()) {
      out.push_back(values.back());
    } else {
      const auto i = static_cast<std::size_t>(above - nm.begin());
      const double t = (w - nm[i - 1]) / (nm[i] - nm[i - 1]);
      out.push_back((1 - t) * values[i - 1] + t * values[i]);
    }
  }
  return out;
}

Result<Observer> readObserver(const std::filesystem::path& calib) {
  const auto path = calib / "observer-1931-2deg.csv";
  auto table = readSpectralTable(path);
  if (!table) return std::unexpected(table.error());
  const auto *x = table->find("xbar"), *y = table->find("ybar"), *z = table->find("zbar");
  if (!x || !y || !z) return fail(Code::DataMissing, path.string());
  return Observer{table->nm, *x, *y, *z};
}

Observer resample(const Observer& o, std::span<const double> grid) {
  return {{grid.begin(), grid.end()}, resample(o.nm, o.x, grid), resample(o.nm, o.y, grid), resample(o.nm, o.z, grid)};
}

Vec3 integrate(const Observer& observer, std::span<const double> illuminant, std::span<const double> reflectance) {
  Vec3 sum{};
  double white = 0;
  for (std::size_t i = 0; i < observer.nm.size(); ++i) {
    const double power = illuminant[i];
    const double light = reflectance.empty() ? power : power * reflectance[i];
    sum = sum + light * Vec3{observer.x[i], observer.y[i], observer.z[i]};
    white += power * observer.y[i];
  }
  return (1.0 / white) * sum;
}

Chromaticity toChromaticity(const Vec3& xyz) {
  const double s = xyz[0] + xyz[1] + xyz[2];
  return {xyz[0] / s, xyz[1] / s};
}

}  // namespace huewright
