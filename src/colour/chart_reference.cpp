#include "colour/chart_reference.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <fstream>
#include <iterator>
#include <map>
#include <span>
#include <string_view>
#include <utility>

#include "base/text.hpp"
#include "colour/adapt.hpp"
#include "colour/delta_e.hpp"

namespace huewright {
namespace {

constexpr double kMostFactor = 1.5;      // of a surface, fluorescent ones too; also what tells factors from percent
constexpr double kLeastFactor = -0.02;   // an instrument's noise about black
constexpr double kStepTolerance = 0.02;  // nm: wavelengths in names may be rounded
constexpr double kOwnLabNote = 3.0;      // ΔE00

template <class T>
using Read = std::expected<T, CgatsProblem>;

std::unexpected<CgatsProblem> refuse(int line, std::string sentence) { return std::unexpected(CgatsProblem{line, std::move(sentence)}); }

bool isLetter(char c) { return c >= 'A' && c <= 'Z'; }

std::string nameOf(std::size_t letter, std::size_t number) {  // both from 0: A1
  std::string letters;
  for (std::size_t n = letter + 1; n > 0; n = (n - 1) / 26) letters.insert(letters.begin(), static_cast<char>('A' + (n - 1) % 26));
  return letters + std::to_string(number + 1);
}

// --- Spectra -------------------------------------------------------------------------------------------------------------------------------

enum class Scale { Unsaid, Factor, Percent };

struct Band {
  double nm = 0;
  Scale scale = Scale::Unsaid;
  std::size_t column = 0;
};

/// SPECTRAL_NM380, SPECTRAL_NM_380, SPECTRAL_380, SPECTRAL_PCT380, SPECTRAL_DEC380, SPEC_380, NM_380, NM380.
std::optional<Band> bandOf(std::string_view field, std::size_t column) {
  const std::string name = upperCase(field);
  std::string_view rest = name;
  Band band{0, Scale::Unsaid, column};
  bool known = false;
  const auto skip = [&](std::string_view prefix) {
    if (!rest.starts_with(prefix)) return false;
    rest.remove_prefix(prefix.size());
    return known = true;
  };
  if (!skip("SPECTRAL_")) skip("SPEC_");
  if (skip("PCT")) band.scale = Scale::Percent;
  else if (skip("DEC")) band.scale = Scale::Factor;
  else skip("NM");
  if (!known) return {};
  if (rest.starts_with('_')) rest.remove_prefix(1);
  if (rest.empty() || !isDigit(rest[0])) return {};
  const auto nm = numberOf(rest);
  if (!nm || rest.find_first_not_of("0123456789.") != std::string_view::npos) return {};
  band.nm = *nm;
  return band;
}

std::string nmText(double nm) { return cgatsNumber(nm) + " nm"; }

/// The bands in order of wavelength, checked to be regular; empty if the table has no spectra.
Read<std::vector<Band>> bandsOf(const CgatsTable& table) {
  std::vector<Band> bands;
  for (std::size_t i = 0; i < table.fields.size(); ++i)
    if (const auto band = bandOf(table.fields[i], i)) bands.push_back(*band);
  if (bands.empty()) return bands;
  std::ranges::stable_sort(bands, {}, &Band::nm);
  if (std::ranges::any_of(bands, [&](const Band& b) { return b.scale != bands[0].scale; }))
    return refuse(0, "the spectral fields are named in more than one way");
  if (bands.size() < 6) return refuse(0, "there are only " + std::to_string(bands.size()) + " spectral fields");
  const double step = (bands.back().nm - bands.front().nm) / static_cast<double>(bands.size() - 1);
  for (std::size_t i = 1; i < bands.size(); ++i) {
    if (bands[i].nm == bands[i - 1].nm) return refuse(0, "the wavelength " + nmText(bands[i].nm) + " is there twice");
    if (std::abs(bands[i].nm - bands[i - 1].nm - step) > kStepTolerance)
      return refuse(0, "the wavelengths are not evenly spaced: " + nmText(bands[i - 1].nm) + " is followed by " + nmText(bands[i].nm));
  }
  if (step < 1 - kStepTolerance || step > 20 + kStepTolerance)
    return refuse(0, "the wavelengths are " + nmText(step) + " apart; 1 to 20 nm can be used");
  if (bands.front().nm > 400 || bands.back().nm < 700)
    return refuse(0, "the spectra reach from " + nmText(bands.front().nm) + " to " + nmText(bands.back().nm) + "; 400 to 700 nm at least are needed");
  return bands;
}

/// One row of numbers for each patch.
using Numbers = std::vector<std::vector<double>>;

Read<Numbers> numbersOf(const CgatsTable& table, std::span<const std::size_t> columns) {
  Numbers numbers(table.rows.size());
  for (std::size_t r = 0; r < table.rows.size(); ++r)
    for (const std::size_t c : columns) {
      const auto value = table.number(r, c);
      if (!value) return std::unexpected(value.error());
      numbers[r].push_back(*value);
    }
  return numbers;
}

/// Brings the numbers to factors of 0 to 1 and says whether they were percent.
Read<bool> toFactors(Numbers& numbers, const CgatsTable& table, Scale scale, std::string_view what) {
  std::size_t large = 0;
  for (const auto& row : numbers) large += std::ranges::max(row) > kMostFactor ? 1U : 0U;
  if (scale == Scale::Unsaid) scale = large == 0 ? Scale::Factor : Scale::Percent;
  else if (scale == Scale::Factor) large = numbers.size();
  const bool doubtful = scale == Scale::Percent && 2 * large <= numbers.size() && large > 0;
  for (std::size_t r = 0; r < numbers.size(); ++r) {
    const double most = std::ranges::max(numbers[r]);
    if (doubtful && most > kMostFactor)
      return refuse(table.lineOf(r), std::string(what) + " of " + cgatsNumber(most) + " is percent, but most patches stay below " +
                                         cgatsNumber(kMostFactor) + ", as from 0 to 1");
    for (double& value : numbers[r]) {
      const double factor = scale == Scale::Percent ? value / 100 : value;
      if (factor < kLeastFactor || factor > kMostFactor)
        return refuse(table.lineOf(r), std::string(what) + " of " + cgatsNumber(value) + " is not possible where " +
                                           (scale == Scale::Percent ? "100" : "1") + " is white");
      value = factor;
    }
  }
  return scale == Scale::Percent;
}

// --- What CIELAB and XYZ are meant for -----------------------------------------------------------------------------------------------------

struct Viewing {
  std::string illuminant, observer, white_base;  ///< as written; empty where not said
};

std::string squeezed(std::string_view text) {  // capital letters and digits only
  std::string out;
  for (const char c : upperCase(text))
    if (isLetter(c) || isDigit(c)) out += c;
  return out;
}

/// The value after "name=" in a list such as "Illumination=D50 ObserverAngle=2".
std::string partOf(std::string_view list, std::string_view name) {
  const std::string upper = upperCase(list);
  const auto at = upper.find(name);
  if (at == std::string::npos) return {};
  const auto from = at + name.size();
  const auto end = list.find_first_of(" \t;,", from);
  return std::string(list.substr(from, end == std::string_view::npos ? end : end - from));
}

/// Later words never overrule earlier ones of a higher rank: the weighting, then the named illuminant, then the measurement's own list.
Read<Viewing> viewingOf(const CgatsTable& table) {
  Viewing viewing;
  std::array<Viewing, 3> ranks;
  const auto put = [](std::string& into, std::string_view value) {
    if (value.empty()) return true;
    if (!into.empty() && squeezed(into) != squeezed(value)) return false;
    into = value;
    return true;
  };
  for (const auto& [keyword, value] : table.keywords) {
    const std::string name = upperCase(keyword);
    bool agrees = true;
    if (name == "WEIGHTING_FUNCTION") {
      const auto comma = value.find(',');
      if (comma == std::string::npos) continue;
      const std::string kind = squeezed(value.substr(0, comma)), what = value.substr(comma + 1);
      if (kind == "ILLUMINANT") agrees = put(ranks[0].illuminant, what);
      if (kind == "OBSERVER") agrees = put(ranks[0].observer, what);
    } else if (name == "ILLUMINANT" || name == "ILLUMINANT_NAME" || name == "ILLUMINATION_NAME") {
      agrees = put(ranks[1].illuminant, value);
    } else if (name == "OBSERVER" || name == "OBSERVER_ANGLE") {
      agrees = put(ranks[1].observer, value);
    } else if (name == "MEASUREMENT_SOURCE") {
      agrees = put(ranks[2].illuminant, partOf(value, "ILLUMINATION=")) && put(ranks[2].observer, partOf(value, "OBSERVERANGLE=")) &&
               put(ranks[2].white_base, partOf(value, "WHITEBASE="));
    }
    if (!agrees) return refuse(0, "the keyword " + keyword + " is there twice and says different things");
  }
  for (const Viewing& rank : ranks) {
    if (viewing.illuminant.empty()) viewing.illuminant = rank.illuminant;
    if (viewing.observer.empty()) viewing.observer = rank.observer;
    if (viewing.white_base.empty()) viewing.white_base = rank.white_base;
  }
  return viewing;
}

struct NamedWhite {
  std::string_view name;
  Chromaticity xy;
};
// CIE 15:2018, table T.3, 2° observer.
constexpr std::array<NamedWhite, 6> kWhites{{{"D50", D50::xy},
                                             {"D55", {0.33243, 0.34744}},
                                             {"D65", D65::xy},
                                             {"D75", {0.29903, 0.31488}},
                                             {"A", IlluminantA::xy},
                                             {"C", {0.31006, 0.31616}}}};

bool isEmission(const Viewing& viewing) { return squeezed(viewing.illuminant).starts_with("EMI"); }

/// The white that CIELAB or XYZ is relative to.
Read<NamedWhite> whiteOf(const Viewing& viewing) {
  const std::string observer = squeezed(viewing.observer);
  if (observer.starts_with("10") || observer.find("1964") != std::string::npos)
    return refuse(0, "the values are for the 10 degree observer; give them for the 2 degree observer, or as spectra");
  if (squeezed(viewing.white_base).starts_with("PAP") || squeezed(viewing.white_base).starts_with("REL"))
    return refuse(0, "the values are relative to the paper's white; give absolute ones, or spectra");
  std::string name = squeezed(viewing.illuminant);
  if (name.starts_with("ILLUMINANT")) name.erase(0, std::string_view("ILLUMINANT").size());
  if (name.empty() || name == "UNKNOWN" || name == "NA" || name == "NONE") return kWhites[0];
  const auto at = std::ranges::find(kWhites, name, &NamedWhite::name);
  if (at == kWhites.end())
    return refuse(0, "the values are for the light \"" + viewing.illuminant + "\", which is not known here; give them for D50, or as spectra");
  return *at;
}

// --- Colours -------------------------------------------------------------------------------------------------------------------------------

struct Colours {
  std::vector<Lab<D50>> labs;
  std::vector<Spectrum> spectra;  ///< empty, or one for each
};

std::optional<std::array<std::size_t, 3>> columnsOf(const CgatsTable& table, std::array<std::string_view, 3> names) {
  std::array<std::size_t, 3> found{};
  for (std::size_t i = 0; i < 3; ++i) {
    const auto at = table.find(names[i]);
    if (!at) return {};
    found[i] = *at;
  }
  return found;
}

constexpr std::array<std::string_view, 3> kLabFields{"LAB_L", "LAB_A", "LAB_B"}, kXyzFields{"XYZ_X", "XYZ_Y", "XYZ_Z"};

Lab<D50> labUnder(const Vec3& xyz, const NamedWhite& white) {
  const Vec3 v = white.name == "D50" ? xyz : bradford(toXyzAtUnitY(white.xy), kWhite<D50>) * xyz;
  return toLab(Xyz<D50>{v[0], v[1], v[2]});
}

Read<Colours> fromSpectra(const CgatsTable& table, const std::vector<Band>& bands, const SpectralBasis& basis, std::vector<std::string>& notes) {
  std::vector<std::size_t> columns;
  for (const Band& band : bands) columns.push_back(band.column);
  auto numbers = numbersOf(table, columns);
  if (!numbers) return std::unexpected(numbers.error());
  const auto percent = toFactors(*numbers, table, bands[0].scale, "a reflectance");
  if (!percent) return std::unexpected(percent.error());
  if (*percent && bands[0].scale == Scale::Unsaid) notes.emplace_back("The reflectances were taken as percent.");
  Colours colours;
  const double step = (bands.back().nm - bands.front().nm) / static_cast<double>(bands.size() - 1);
  for (auto& row : *numbers) {
    colours.spectra.push_back({bands.front().nm, step, std::move(row)});
    colours.labs.push_back(labOfSpectrum(colours.spectra.back(), basis));
  }
  return colours;
}

Read<std::vector<Lab<D50>>> fromLab(const CgatsTable& table, const std::array<std::size_t, 3>& columns, const NamedWhite& white) {
  const auto numbers = numbersOf(table, columns);
  if (!numbers) return std::unexpected(numbers.error());
  std::vector<Lab<D50>> labs;
  for (std::size_t r = 0; r < numbers->size(); ++r) {
    const Vec3 lab{(*numbers)[r][0], (*numbers)[r][1], (*numbers)[r][2]};
    if (lab[0] < -1 || lab[0] > 115 || std::abs(lab[1]) > 200 || std::abs(lab[2]) > 200)
      return refuse(table.lineOf(r),
                    "L, a, b of " + cgatsNumber(lab[0]) + ", " + cgatsNumber(lab[1]) + ", " + cgatsNumber(lab[2]) + " is no surface's colour");
    labs.push_back(white.name == "D50" ? Lab<D50>{lab[0], lab[1], lab[2]} : labUnder(detail::xyzFromLab(lab, toXyzAtUnitY(white.xy)), white));
  }
  return labs;
}

Read<std::vector<Lab<D50>>> fromXyz(const CgatsTable& table, const std::array<std::size_t, 3>& columns, const NamedWhite& white, bool& percent) {
  auto numbers = numbersOf(table, columns);
  if (!numbers) return std::unexpected(numbers.error());
  const auto scale = toFactors(*numbers, table, Scale::Unsaid, "an X, Y or Z");
  if (!scale) return std::unexpected(scale.error());
  percent = *scale;
  std::vector<Lab<D50>> labs;
  for (const auto& row : *numbers) labs.push_back(labUnder({row[0], row[1], row[2]}, white));
  return labs;
}

Read<Colours> coloursOf(const CgatsTable& table, const SpectralBasis& basis, std::vector<std::string>& notes) {
  const auto viewing = viewingOf(table);
  if (!viewing) return std::unexpected(viewing.error());
  if (isEmission(*viewing)) return refuse(0, "the file holds measurements of light, not of surfaces");
  const auto bands = bandsOf(table);
  if (!bands) return std::unexpected(bands.error());
  const auto lab = columnsOf(table, kLabFields), xyz = columnsOf(table, kXyzFields);
  if (!bands->empty()) {
    auto colours = fromSpectra(table, *bands, basis, notes);
    if (!colours) return colours;
    // The file's own CIELAB is not used, but tells whether the spectra are what they seem.
    if (const auto white = whiteOf(*viewing); lab && white && white->name == "D50")
      if (const auto own = fromLab(table, *lab, *white)) {
        double worst = 0;
        for (std::size_t i = 0; i < own->size(); ++i) worst = std::max(worst, deltaE2000((*own)[i], colours->labs[i]));
        if (worst > kOwnLabNote)
          notes.push_back("The file's CIELAB values differ from its spectra by up to " + cgatsNumber(std::round(worst * 10) / 10) +
                          " in ΔE00; the spectra were used.");
      }
    return colours;
  }
  if (!lab && !xyz)
    return refuse(0, "there are no colours in it: give spectra (SPECTRAL_NM380 …), LAB_L, LAB_A and LAB_B, or XYZ_X, XYZ_Y and XYZ_Z");
  const auto white = whiteOf(*viewing);
  if (!white) return std::unexpected(white.error());
  bool percent = true;
  auto labs = lab ? fromLab(table, *lab, *white) : fromXyz(table, *xyz, *white, percent);
  if (!labs) return std::unexpected(labs.error());
  if (!percent) notes.emplace_back("X, Y and Z were taken as 0 to 1, not as percent.");
  if (white->name != "D50")
    notes.push_back("The values are for illuminant " + std::string(white->name) +
                    "; they were carried over to D50 by Bradford, which can be off by a few ΔE00. Spectra would be exact.");
  else if (viewing->illuminant.empty()) notes.emplace_back("The file does not name the light of its values; D50 was assumed.");
  return Colours{std::move(*labs), {}};
}

// --- Places --------------------------------------------------------------------------------------------------------------------------------

struct Place {
  std::size_t letter = 0, number = 0;  ///< from 0
};

/// A1, b02, AA12.
std::optional<Place> placeOf(std::string_view text) {
  const std::string name = upperCase(text);
  std::size_t i = 0, letter = 0, number = 0;
  for (; i < name.size() && isLetter(name[i]); ++i) letter = letter * 26 + static_cast<std::size_t>(name[i] - 'A') + 1;
  if (i < 1 || i > 2 || name.size() - i < 1 || name.size() - i > 3) return {};
  for (; i < name.size(); ++i) {
    if (!isDigit(name[i])) return {};
    number = number * 10 + static_cast<std::size_t>(name[i] - '0');
  }
  if (number == 0) return {};
  return Place{letter - 1, number - 1};
}

struct Layout {
  int columns = 0, rows = 0;
  std::vector<std::size_t> order;  ///< row of the table for each place, row by row
};

std::optional<std::size_t> firstOf(const CgatsTable& table, std::initializer_list<std::string_view> names) {
  for (const std::string_view name : names)
    if (const auto at = table.find(name)) return at;
  return {};
}

std::optional<std::vector<Place>> placesOf(const CgatsTable& table) {
  for (const std::string_view field : {"SAMPLE_LOC", "SAMPLE_ID", "SAMPLEID", "SAMPLE_NAME", "SAMPLENAME"}) {
    const auto column = table.find(field);
    if (!column) continue;
    std::vector<Place> places;
    for (const auto& row : table.rows)
      if (const auto place = placeOf(row[*column])) places.push_back(*place);
    if (places.size() == table.rows.size()) return places;
  }
  return {};
}

Read<Layout> gridOf(const CgatsTable& table, const std::vector<Place>& places, int columns, std::vector<std::string>& notes) {
  const std::size_t letters = std::ranges::max(places, {}, &Place::letter).letter + 1,
                    numbers = std::ranges::max(places, {}, &Place::number).number + 1;
  bool letters_are_columns = letters >= numbers;
  if (columns > 0) {
    const auto wanted = static_cast<std::size_t>(columns);
    if (wanted != letters && wanted != numbers)
      return refuse(
          0, "the patches' places run to " + nameOf(letters - 1, numbers - 1) + ", which does not fit " + std::to_string(columns) + " columns");
    letters_are_columns = wanted == letters;
  }
  if (letters == numbers && letters > 1) notes.emplace_back("As many letters as numbers: the letters were taken as the columns.");
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> at;  // by row and column
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto [letter, number] = places[i];
    const auto key = letters_are_columns ? std::pair(number, letter) : std::pair(letter, number);
    if (const auto [there, fresh] = at.emplace(key, i); !fresh)
      return refuse(table.lineOf(i),
                    "the place " + nameOf(letter, number) + " is there twice, before in line " + std::to_string(table.lineOf(there->second)));
  }
  if (at.size() != letters * numbers) {
    for (std::size_t l = 0; l < letters; ++l)
      for (std::size_t n = 0; n < numbers; ++n)
        if (!at.contains(letters_are_columns ? std::pair(n, l) : std::pair(l, n)))
          return refuse(0,
                        "the places do not fill a grid: they run to " + nameOf(letters - 1, numbers - 1) + ", but " + nameOf(l, n) + " is missing");
  }
  Layout layout{static_cast<int>(letters_are_columns ? letters : numbers), static_cast<int>(letters_are_columns ? numbers : letters), {}};
  for (const auto& [key, row] : at) layout.order.push_back(row);
  return layout;
}

/// The file's order, or that of sample numbers 1 to n.
Read<std::vector<std::size_t>> plainOrder(const CgatsTable& table) {
  const std::size_t count = table.rows.size();
  std::vector<std::size_t> order(count);
  for (std::size_t i = 0; i < count; ++i) order[i] = i;
  const auto column = firstOf(table, {"SAMPLE_ID", "SAMPLEID"});
  if (!column) return order;
  std::vector<std::size_t> by_number(count, count);
  bool all = true;
  for (std::size_t i = 0; i < count; ++i) {
    const std::string& text = table.rows[i][*column];
    std::size_t n = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
    if (error != std::errc{} || end != text.data() + text.size() || n < 1 || n > count) {
      all = false;
      continue;
    }
    if (by_number[n - 1] != count)
      return refuse(table.lineOf(i), "the sample " + text + " is there twice, before in line " + std::to_string(table.lineOf(by_number[n - 1])));
    by_number[n - 1] = i;
  }
  return all ? by_number : order;
}

Read<Layout> layoutOf(const CgatsTable& table, int columns, std::vector<std::string>& notes) {
  if (const auto places = placesOf(table)) return gridOf(table, *places, columns, notes);
  auto order = plainOrder(table);
  if (!order) return std::unexpected(order.error());
  const int count = static_cast<int>(table.rows.size());
  if (columns == 0 && count == 24) {
    columns = 6;
    notes.emplace_back("The file does not say how its 24 patches lie; 6 columns and 4 rows were assumed, row by row.");
  }
  if (columns == 0)
    return refuse(0, "the file does not say how its " + std::to_string(count) +
                         " patches lie: name their places A1, A2 and so on in SAMPLE_ID, or say how many columns the chart has");
  if (count % columns != 0)
    return refuse(0, "the file has " + std::to_string(count) + " patches, which do not fill rows of " + std::to_string(columns));
  return Layout{columns, count / columns, std::move(*order)};
}

}  // namespace

std::vector<double> spragueResample(const Spectrum& spectrum, std::span<const double> grid) {
  const auto& v = spectrum.values;
  const std::size_t n = v.size();
  // Two more values at either end, from the six nearest. CIE 167:2005, table V (from memory; each row's coefficients add up to 209).
  const auto beyond = [](const std::array<double, 6>& near) {
    constexpr std::array<double, 6> kOuter{884, -1960, 3033, -2648, 1080, -180}, kInner{508, -540, 488, -367, 144, -24};
    std::pair<double, double> sum{};
    for (std::size_t i = 0; i < 6; ++i) {
      sum.first += kOuter[i] * near[i] / 209;
      sum.second += kInner[i] * near[i] / 209;
    }
    return sum;
  };
  const auto [before2, before1] = beyond({v[0], v[1], v[2], v[3], v[4], v[5]});
  const auto [after2, after1] = beyond({v[n - 1], v[n - 2], v[n - 3], v[n - 4], v[n - 5], v[n - 6]});
  std::vector<double> p{before2, before1};
  p.insert(p.end(), v.begin(), v.end());
  p.push_back(after1);
  p.push_back(after2);

  std::vector<double> out;
  out.reserve(grid.size());
  for (const double nm : grid) {
    const double at = (nm - spectrum.first_nm) / spectrum.step_nm;
    if (at <= 0 || at >= static_cast<double>(n - 1)) {
      out.push_back(at <= 0 ? v.front() : v.back());
      continue;
    }
    const auto i = static_cast<std::size_t>(at);
    const double t = at - static_cast<double>(i);
    const double a = p[i], b = p[i + 1], c = p[i + 2], d = p[i + 3], e = p[i + 4], f = p[i + 5];  // t runs from c to d
    const double c1 = (2 * a - 16 * b + 16 * d - 2 * e) / 24, c2 = (-a + 16 * b - 30 * c + 16 * d - e) / 24;
    const double c3 = (-9 * a + 39 * b - 70 * c + 66 * d - 33 * e + 7 * f) / 24, c4 = (13 * a - 64 * b + 126 * c - 124 * d + 61 * e - 12 * f) / 24;
    const double c5 = (-5 * a + 25 * b - 50 * c + 50 * d - 25 * e + 5 * f) / 24;
    out.push_back(c + t * (c1 + t * (c2 + t * (c3 + t * (c4 + t * c5)))));
  }
  return out;
}

Result<SpectralBasis> readSpectralBasis(const std::filesystem::path& calib) {
  auto observer = readObserver(calib);
  if (!observer) return std::unexpected(observer.error());
  const auto path = calib / "illuminants-a-c-d-e.csv";
  const auto table = readSpectralTable(path);
  if (!table) return std::unexpected(table.error());
  const auto* d50 = table->find("D50");
  if (!d50) return fail(Code::DataMissing, path.string());
  auto light = resample(table->nm, *d50, observer->nm);
  return SpectralBasis{std::move(*observer), std::move(light)};
}

Lab<D50> labOfSpectrum(const Spectrum& spectrum, const SpectralBasis& basis) {
  const auto values = spragueResample(spectrum, basis.observer.nm);
  const Vec3 lab = detail::labFromXyz(integrate(basis.observer, basis.d50, values), integrate(basis.observer, basis.d50));
  return {lab[0], lab[1], lab[2]};
}

Read<ChartReference> chartReference(const CgatsTable& table, const SpectralBasis& basis, int columns) {
  ChartReference chart;
  if (table.rows.empty()) return refuse(0, "the table has no rows");
  if (columns < 0) return refuse(0, "a chart cannot have " + std::to_string(columns) + " columns");
  if (const auto* title = table.keyword("DESCRIPTOR")) chart.title = *title;
  if (const auto* source = table.keyword("ORIGINATOR")) chart.source = *source;
  if (table.decimal_comma) chart.notes.emplace_back("The numbers have decimal commas.");
  auto colours = coloursOf(table, basis, chart.notes);
  if (!colours) return std::unexpected(colours.error());
  const auto layout = layoutOf(table, columns, chart.notes);
  if (!layout) return std::unexpected(layout.error());
  chart.columns = layout->columns;
  chart.rows = layout->rows;
  const auto names = firstOf(table, {"SAMPLE_NAME", "SAMPLENAME", "SAMPLE_ID", "SAMPLEID", "SAMPLE_LOC"});
  for (const std::size_t row : layout->order) {
    ChartPatch patch{names ? table.rows[row][*names] : std::string(), colours->labs[row], {}};
    if (patch.name.empty()) patch.name = std::to_string(chart.patches.size() + 1);
    if (!colours->spectra.empty()) patch.reflectance = std::move(colours->spectra[row]);
    chart.patches.push_back(std::move(patch));
  }
  return chart;
}

Result<ChartReference> readChart24(const std::filesystem::path& calib) {
  const auto path = calib / "charts" / "chart24.txt";
  std::ifstream file(path, std::ios::binary);
  if (!file) return fail(Code::DataMissing, path.string());
  const std::string bytes{std::istreambuf_iterator<char>(file), {}};
  const auto basis = readSpectralBasis(calib);
  if (!basis) return std::unexpected(basis.error());
  const auto table = readCgats(bytes);
  if (!table) return fail(Code::DataMissing, path.string() + ", " + withLine(table.error()));
  auto chart = chartReference(*table, *basis);
  if (!chart) return fail(Code::DataMissing, path.string() + ", " + withLine(chart.error()));
  if (chart->columns != 6 || chart->rows != 4) return fail(Code::DataMissing, path.string());
  return std::move(*chart);
}

}  // namespace huewright
