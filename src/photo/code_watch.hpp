// Looks at stored codes as they are decoded for another purpose.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "photo/colour_path.hpp"
#include "photo/geometry.hpp"
#include "photo/traces.hpp"

namespace huewright {

/// Takes the rows of one pass over a picture of 8 bits, top down. Rows that are handed over in pieces (tiles) are passed by, and so is what is not of
/// 8 bits. It costs about a hundredth of decoding a PNG.
class CodeWatch {
 public:
  explicit CodeWatch(Size stored);

  void take(const StoredRow& row);

  /// Gaps: at least six codes from 32 up that hardly occur between frequent ones, over a third of a channel's range or more. Grid: in at least 16 parts
  /// of the picture, which of the eight columns (rows) shows the most edge is a vote; by chance one gets as many votes as the winner has in one of
  /// 10^5 pictures, along and down each (binomial). A period of two, as from the sensor's filters, is taken out before.
  CodeTraces result() const;

 private:
  using Phases = std::array<std::int64_t, 8>;
  static constexpr int kParts = 8;  // along each side

  void countCodes(const StoredRow& row);
  void seeEdges(const StoredRow& row);
  void seeBar(const StoredRow& row);
  static bool hasGaps(const std::array<std::uint32_t, 256>& counts);
  static bool agree(const std::vector<Phases>& parts);

  Size size_;
  int every_;            // of the rows whose codes are counted
  int expected_ = 0;     // the next row
  bool from_top_ = true; // all rows so far came, each once
  int bar_above_ = 0, bar_run_ = 0;
  bool above_done_ = false;
  std::array<std::uint8_t, 3> bar_colour_{};
  std::array<std::array<std::uint32_t, 256>, 3> counts_{};
  std::vector<std::int16_t> along_;
  std::array<std::vector<std::int16_t>, 4> above_;  // of some columns: the last four rows
  std::vector<Phases> edges_along_, edges_down_;
};

}  // namespace huewright
