#include "scene/reed_solomon.hpp"

#include <algorithm>
#include <array>

namespace huewright {
namespace {

struct FieldTables {
  std::array<std::uint8_t, 510> power{};   // 2^i, twice over, so that sums of two logarithms need no remainder
  std::array<std::uint8_t, 256> logarithm{};
};

constexpr FieldTables fieldTables() {
  FieldTables t;
  unsigned value = 1;
  for (unsigned i = 0; i < 255; ++i) {
    t.power[i] = t.power[i + 255] = static_cast<std::uint8_t>(value);
    t.logarithm[value] = static_cast<std::uint8_t>(i);
    value <<= 1;
    if (value > 255) value ^= 0x11D;
  }
  return t;
}
constexpr FieldTables kField = fieldTables();

std::uint8_t times(std::uint8_t a, std::uint8_t b) {
  return a == 0 || b == 0 ? std::uint8_t{0} : kField.power[std::size_t{kField.logarithm[a]} + kField.logarithm[b]];
}
std::uint8_t inverse(std::uint8_t a) { return kField.power[255U - kField.logarithm[a]]; }
std::uint8_t added(std::uint8_t a, std::uint8_t b) { return static_cast<std::uint8_t>(a ^ b); }

using Polynomial = std::vector<std::uint8_t>;  // the constant term first

std::uint8_t valueOf(const Polynomial& p, std::uint8_t x) {
  std::uint8_t sum = 0;
  for (std::size_t i = p.size(); i-- > 0;) sum = added(times(sum, x), p[i]);
  return sum;
}

/// The word's values at the roots; all zero for one without mistakes.
Polynomial syndromes(std::span<const std::uint8_t> word, std::size_t checks) {
  Polynomial s(checks);
  for (std::size_t j = 0; j < checks; ++j)
    for (const std::uint8_t byte : word) s[j] = added(times(s[j], kField.power[j]), byte);
  return s;
}

/// The polynomial whose roots are the inverses of the wrong places (Berlekamp and Massey).
Polynomial locator(const Polynomial& s) {
  Polynomial now{1}, before{1};
  std::size_t length = 0, shift = 1;
  std::uint8_t last = 1;
  for (std::size_t n = 0; n < s.size(); ++n) {
    std::uint8_t off = s[n];
    for (std::size_t i = 1; i <= length && i < now.size(); ++i) off = added(off, times(now[i], s[n - i]));
    if (off == 0) {
      ++shift;
      continue;
    }
    const Polynomial kept = now;
    const std::uint8_t factor = times(off, inverse(last));
    now.resize(std::max(now.size(), before.size() + shift));
    for (std::size_t i = 0; i < before.size(); ++i) now[i + shift] = added(now[i + shift], times(factor, before[i]));
    if (2 * length <= n) {
      length = n + 1 - length;
      before = kept;
      last = off;
      shift = 1;
    } else {
      ++shift;
    }
  }
  while (now.size() > 1 && now.back() == 0) now.pop_back();
  return now;
}

}  // namespace

std::vector<std::uint8_t> checkBytes(std::span<const std::uint8_t> message, std::size_t checks) {
  Polynomial generator{1};
  for (std::size_t j = 0; j < checks; ++j) {
    Polynomial next(generator.size() + 1);
    for (std::size_t i = 0; i < generator.size(); ++i) {
      next[i + 1] = added(next[i + 1], generator[i]);
      next[i] = added(next[i], times(generator[i], kField.power[j]));
    }
    generator = std::move(next);
  }
  std::vector<std::uint8_t> rest(checks);  // of the division, highest power first
  for (const std::uint8_t byte : message) {
    const std::uint8_t factor = added(byte, checks == 0 ? std::uint8_t{0} : rest.front());
    for (std::size_t i = 0; i < checks; ++i)
      rest[i] = added(i + 1 < checks ? rest[i + 1] : std::uint8_t{0}, times(factor, generator[checks - 1 - i]));
  }
  return rest;
}

std::optional<std::size_t> mendBytes(std::span<std::uint8_t> word, std::size_t checks, std::size_t most) {
  const Polynomial s = syndromes(word, checks);
  if (std::ranges::all_of(s, [](std::uint8_t v) { return v == 0; })) return 0;
  const Polynomial places = locator(s);
  const std::size_t wrong = places.size() - 1;
  if (wrong == 0 || wrong > most) return {};
  Polynomial evaluator(checks);  // s · places, without what is beyond the checks
  for (std::size_t i = 0; i < places.size(); ++i)
    for (std::size_t j = 0; i + j < checks; ++j) evaluator[i + j] = added(evaluator[i + j], times(places[i], s[j]));
  Polynomial slope(places.size() - 1);  // the formal derivative: even powers vanish
  for (std::size_t i = 1; i < places.size(); i += 2) slope[i - 1] = places[i];

  std::vector<std::uint8_t> mended(word.begin(), word.end());
  std::size_t found = 0;
  for (std::size_t i = 0; i < word.size(); ++i) {
    const std::size_t power = word.size() - 1 - i;  // of x that this byte stands before
    const std::uint8_t back = kField.power[(255 - power) % 255];
    if (valueOf(places, back) != 0) continue;
    const std::uint8_t steep = valueOf(slope, back);
    if (steep == 0) return {};
    mended[i] = added(mended[i], times(kField.power[power], times(valueOf(evaluator, back), inverse(steep))));
    ++found;
  }
  const Polynomial after = syndromes(mended, checks);
  if (found != wrong || std::ranges::any_of(after, [](std::uint8_t v) { return v != 0; })) return {};
  std::ranges::copy(mended, word.begin());
  return found;
}

}  // namespace huewright
