// Tables of measured colours in the text form of CGATS.17.
#pragma once

#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace huewright {

/// What is wrong with such a file, in one plain sentence that does not begin with the line.
struct CgatsProblem {
  int line = 0;  ///< counted from 1; 0 where no one line is to blame
  std::string sentence;
};

/// The sentence with its line, if it has one: "line 12: …".
std::string withLine(const CgatsProblem& problem);

/// One table. All text is UTF-8, without the quotes that stood round it.
struct CgatsTable {
  std::string identifier;                                     ///< the word in the first line, such as CGATS.17; empty if there was none
  std::vector<std::pair<std::string, std::string>> keywords;  ///< in the file's order, repeated ones too; without the two counts
  std::vector<std::string> fields;                            ///< names of the columns as written; different also without regard to case
  std::vector<std::vector<std::string>> rows;                 ///< each as long as fields
  std::vector<int> line_of_row;                               ///< as long as rows; empty in a table that was not read from a file
  bool decimal_comma = false;                                 ///< the file had commas in its numbers; rows have points

  /// The column of that name, capital or small letters alike.
  std::optional<std::size_t> find(std::string_view field) const;

  /// The first value of that keyword, capital or small letters alike; nullptr if there is none.
  const std::string* keyword(std::string_view name) const;

  /// The value in that row and column, both within the table, as a finite number. Errors: an empty field, any other text, NaN and infinity, what
  /// double cannot hold. Never a 0 that is not written there.
  std::expected<double, CgatsProblem> number(std::size_t row, std::size_t column) const;
  std::expected<double, CgatsProblem> number(std::size_t row, std::string_view field) const;

  /// The line of a row, 0 if unknown.
  int lineOf(std::size_t row) const;
};

// More than any chart has; a file beyond that is refused.
inline constexpr std::size_t kCgatsBytes = 8U << 20;
inline constexpr std::size_t kCgatsFields = 2000;
inline constexpr std::size_t kCgatsRows = 20000;
inline constexpr std::size_t kCgatsCells = 1U << 20;
inline constexpr std::size_t kCgatsKeywords = 5000;
inline constexpr std::size_t kCgatsWord = 4096;  ///< bytes of one word or value

/// Reads the bytes of a file. Taken: comments (# at the start of a word, to the line's end), spaces and tabs, quoted text with doubled quotes,
/// LF, CRLF and CR, a UTF-8 byte-order mark; bytes that are not UTF-8 count as ISO 8859-1. A row is one line. A missing count is no matter.
///
/// Decimal commas (unquoted, outside the columns that hold names) are turned into points, if no number in the table has a point and at least one
/// cannot be a whole number with thousands marked off: "12,34" and "0,123" can only be decimals, "1,234" alone cannot be told.
///
/// Errors, each with its line where there is one: UTF-16 or control characters; no or more than one table, or any text after it; a wrong
/// count; a row with too few or too many fields; a field twice; an unfinished quote; points and commas mixed; more than the bounds above.
/// Source: ANSI CGATS.17-2009; ISO 28178 (from memory).
std::expected<CgatsTable, CgatsProblem> readCgats(std::string_view bytes);

/// The table as such a file, LF line ends, tabs between fields, both counts written; readCgats gives the same table back (lines and decimal_comma
/// aside). Comments become lines with # under the identifier. Without an identifier CGATS.17 is written.
/// Errors: what readCgats would not give back: rows of another length, no fields, names that are no single words, control characters.
std::expected<std::string, CgatsProblem> writeCgats(const CgatsTable& table, const std::vector<std::string>& comments = {});

/// The shortest text that is read as the same number, with a point. In: finite.
std::string cgatsNumber(double value);

/// Capital or small letters alike (a to z only).
bool sameWord(std::string_view a, std::string_view b);

}  // namespace huewright
