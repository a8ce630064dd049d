#include "colour/cgats.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <set>

#include "base/text.hpp"

namespace huewright {
namespace {

std::unexpected<CgatsProblem> refuseCgats(int line, std::string sentence) { return std::unexpected(CgatsProblem{line, std::move(sentence)}); }

bool isSpace(char c) { return c == ' ' || c == '\t' || c == '\f' || c == '\v'; }
bool isControl(char c) { return (static_cast<unsigned char>(c) < 0x20 && !isSpace(c)) || c == 0x7F; }

/// A word of the file inside a sentence: in quotes, cut if long.
std::string shown(std::string_view word) {
  constexpr std::size_t kLongest = 40;
  if (word.size() <= kLongest) return "\"" + std::string(word) + "\"";
  std::size_t end = kLongest;
  while (end > 0 && (static_cast<unsigned char>(word[end]) & 0xC0) == 0x80) --end;  // not inside a character
  return "\"" + std::string(word.substr(0, end)) + "…\"";
}

/// Columns whose words are names, even where they look like numbers.
bool holdsNames(std::string_view field) {
  static constexpr std::array<std::string_view, 7> kNames{"SAMPLE_ID", "SAMPLEID", "SAMPLE_NAME", "SAMPLENAME", "SAMPLE_LOC", "STRING", "COMMENT"};
  return std::ranges::any_of(kNames, [&](std::string_view name) { return sameWord(name, field); });
}

bool isUtf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto lead = static_cast<unsigned char>(text[i]);
    std::size_t more = 0;
    unsigned low = 0x80, high = 0xBF;  // of the second byte
    if (lead < 0x80) more = 0;
    else if (lead >= 0xC2 && lead <= 0xDF) more = 1;
    else if (lead >= 0xE0 && lead <= 0xEF) more = 2, low = lead == 0xE0 ? 0xA0 : 0x80, high = lead == 0xED ? 0x9F : 0xBF;
    else if (lead >= 0xF0 && lead <= 0xF4) more = 3, low = lead == 0xF0 ? 0x90 : 0x80, high = lead == 0xF4 ? 0x8F : 0xBF;
    else return false;
    if (more >= text.size() - i) return false;
    for (std::size_t k = 1; k <= more; ++k, low = 0x80, high = 0xBF) {
      const auto next = static_cast<unsigned char>(text[i + k]);
      if (next < low || next > high) return false;
    }
    i += more + 1;
  }
  return true;
}

std::string fromLatin1(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80) {
      out += c;
    } else {
      out += static_cast<char>(0xC0 | (byte >> 6));
      out += static_cast<char>(0x80 | (byte & 0x3F));
    }
  }
  return out;
}

struct Word {
  std::string text;
  bool quoted = false;
};

using Words = std::vector<Word>;

/// The words of one line, up to a comment.
std::expected<Words, CgatsProblem> wordsOf(std::string_view line, int number) {
  Words words;
  for (std::size_t i = 0; i < line.size();) {
    if (isSpace(line[i])) {
      ++i;
      continue;
    }
    if (line[i] == '#') break;
    Word word;
    if (line[i] == '"') {
      word.quoted = true;
      for (++i;; ++i) {
        if (i == line.size()) return refuseCgats(number, "a quoted text has no closing quote");
        if (line[i] == '"') {
          if (i + 1 == line.size() || line[i + 1] != '"') break;
          ++i;  // a doubled quote stands for one
        }
        word.text += line[i];
      }
      ++i;
      if (i < line.size() && !isSpace(line[i])) return refuseCgats(number, "there is no space after the quoted text " + shown(word.text));
    } else {
      for (; i < line.size() && !isSpace(line[i]); ++i) {
        if (line[i] == '"') return refuseCgats(number, "a quote stands inside the word " + shown(word.text));
        word.text += line[i];
      }
    }
    if (word.text.size() > kCgatsWord) return refuseCgats(number, "a word is longer than " + std::to_string(kCgatsWord) + " characters");
    words.push_back(std::move(word));
    if (words.size() > kCgatsFields + 1) return refuseCgats(number, "the line has more than " + std::to_string(kCgatsFields) + " fields");
  }
  return words;
}

/// A number with one decimal mark, or none.
struct Decimal {
  char mark = 0;      ///< '.', ',' or 0
  bool sure = false;  ///< with a comma: cannot be a whole number with thousands marked off
};

std::optional<Decimal> decimalOf(std::string_view text) {
  Decimal decimal;
  std::size_t i = !text.empty() && (text[0] == '+' || text[0] == '-') ? 1 : 0;
  const std::size_t first = i;
  std::size_t before = 0, after = 0;
  for (; i < text.size() && isDigit(text[i]); ++i) ++before;
  if (i < text.size() && (text[i] == '.' || text[i] == ',')) {
    decimal.mark = text[i];
    for (++i; i < text.size() && isDigit(text[i]); ++i) ++after;
  }
  if (before + after == 0) return {};
  bool power = false;
  if (i < text.size() && (text[i] == 'e' || text[i] == 'E')) {
    power = true;
    if (++i < text.size() && (text[i] == '+' || text[i] == '-')) ++i;
    const std::size_t digits = i;
    while (i < text.size() && isDigit(text[i])) ++i;
    if (i == digits) return {};
  }
  if (i != text.size()) return {};
  decimal.sure = power || after != 3 || before == 0 || before > 3 || text[first] == '0';
  return decimal;
}

/// Turns decimal commas into points, or finds that they cannot be told.
class DecimalMarks {
 public:
  std::optional<CgatsProblem> see(const Word& word, std::string_view field, int line, std::size_t row, std::size_t column) {
    if (word.quoted || holdsNames(field)) return {};
    const auto decimal = decimalOf(word.text);
    if (!decimal || decimal->mark == 0) return {};
    if (mark_ == 0) {
      mark_ = decimal->mark;
      line_ = line;
    } else if (mark_ != decimal->mark) {
      return CgatsProblem{line, shown(word.text) + " in " + std::string(field) + " has a decimal " + name(decimal->mark) +
                                    ", but the numbers before it, from line " + std::to_string(line_) + " on, have " + name(mark_) + "s"};
    }
    if (mark_ == ',') {
      sure_ = sure_ || decimal->sure;
      commas_.emplace_back(row, column);
    }
    return {};
  }

  std::optional<CgatsProblem> settle(CgatsTable& table) const {
    if (mark_ != ',') return {};
    const auto& [row, column] = commas_.front();
    if (!sure_)
      return CgatsProblem{line_, shown(table.rows[row][column]) +
                                     " may be a decimal comma or mark off thousands, and so may all commas in the file: write decimal points"};
    for (const auto& [r, c] : commas_) std::ranges::replace(table.rows[r][c], ',', '.');
    table.decimal_comma = true;
    return {};
  }

 private:
  static std::string name(char mark) { return mark == ',' ? "comma" : "point"; }

  char mark_ = 0;
  int line_ = 0;
  bool sure_ = false;
  std::vector<std::pair<std::size_t, std::size_t>> commas_;
};

struct Count {
  std::size_t value = 0;
  int line = 0;
};

/// Reads line by line; each part of the file is one state.
class Reader {
 public:
  std::optional<CgatsProblem> take(const Words& words, int line) {
    switch (part_) {
      case Part::Header: return header(words, line);
      case Part::Format: return format(words, 0, line);
      case Part::Data: return data(words, line);
      case Part::After: break;
    }
    const std::string first = upperCase(words[0].text);
    if (first.starts_with("BEGIN_DATA")) return CgatsProblem{line, "a second table begins here; files with one table are read"};
    return CgatsProblem{line, "there is text after the table's end: " + shown(words[0].text)};
  }

  std::expected<CgatsTable, CgatsProblem> finish(int last_line) {
    switch (part_) {
      case Part::Header:
        return refuseCgats(0, format_line_ == 0 ? "there is no table of the CGATS form in it: BEGIN_DATA_FORMAT is missing"
                                           : "there are no values in it: BEGIN_DATA is missing");
      case Part::Format: return refuseCgats(last_line, "the file ends before END_DATA_FORMAT: part of it is missing");
      case Part::Data: return refuseCgats(last_line, "the file ends before END_DATA: part of it is missing");
      case Part::After: break;
    }
    if (fields_count_ && fields_count_->value != table_.fields.size())
      return refuseCgats(fields_count_->line, "NUMBER_OF_FIELDS says " + std::to_string(fields_count_->value) + ", but " +
                                             std::to_string(table_.fields.size()) + " fields are named");
    if (sets_count_ && sets_count_->value != table_.rows.size())
      return refuseCgats(sets_count_->line,
                    "NUMBER_OF_SETS says " + std::to_string(sets_count_->value) + ", but there are " + std::to_string(table_.rows.size()) + " rows");
    if (table_.rows.empty()) return refuseCgats(last_line, "the table has no rows");
    if (auto problem = marks_.settle(table_)) return std::unexpected(std::move(*problem));
    return std::move(table_);
  }

 private:
  enum class Part { Header, Format, Data, After };

  std::optional<CgatsProblem> header(const Words& words, int line) {
    const std::string name = upperCase(words[0].text);
    if (words[0].quoted) return CgatsProblem{line, "a keyword is expected here, not the quoted text " + shown(words[0].text)};
    if (name == "BEGIN_DATA_FORMAT") {
      if (format_line_ != 0) return CgatsProblem{line, "BEGIN_DATA_FORMAT stands here a second time, after line " + std::to_string(format_line_)};
      format_line_ = line;
      part_ = Part::Format;
      return format(words, 1, line);
    }
    if (name == "BEGIN_DATA") {
      if (table_.fields.empty()) return CgatsProblem{line, "BEGIN_DATA comes before any field is named"};
      if (words.size() > 1) return CgatsProblem{line, "there is text after BEGIN_DATA in the same line"};
      part_ = Part::Data;
      return {};
    }
    if (name == "END_DATA_FORMAT" || name == "END_DATA") return CgatsProblem{line, name + " stands here without its beginning"};
    if (name == "NUMBER_OF_FIELDS") return count(words, line, fields_count_);
    if (name == "NUMBER_OF_SETS") return count(words, line, sets_count_);
    if (!any_ && words.size() == 1) {
      table_.identifier = words[0].text;
    } else {
      std::string value;
      for (std::size_t i = 1; i < words.size(); ++i) value += (i > 1 ? " " : "") + words[i].text;
      if (value.size() > kCgatsWord) return CgatsProblem{line, "a value is longer than " + std::to_string(kCgatsWord) + " characters"};
      table_.keywords.emplace_back(words[0].text, std::move(value));
      if (table_.keywords.size() > kCgatsKeywords) return CgatsProblem{line, "there are more than " + std::to_string(kCgatsKeywords) + " keywords"};
    }
    any_ = true;
    return {};
  }

  static std::optional<CgatsProblem> count(const Words& words, int line, std::optional<Count>& into) {
    const std::string name = upperCase(words[0].text);
    std::size_t value = 0;
    bool good = words.size() == 2 && !words[1].text.empty();
    if (good) {
      const std::string& text = words[1].text;
      const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
      good = error == std::errc{} && end == text.data() + text.size();
    }
    if (!good) return CgatsProblem{line, name + " is not followed by one whole number"};
    if (into && into->value != value)
      return CgatsProblem{
          line, name + " says " + std::to_string(value) + " here and " + std::to_string(into->value) + " in line " + std::to_string(into->line)};
    into = Count{value, line};
    return {};
  }

  std::optional<CgatsProblem> format(const Words& words, std::size_t from, int line) {
    for (std::size_t i = from; i < words.size(); ++i) {
      const std::string name = upperCase(words[i].text);
      if (name == "END_DATA_FORMAT") {
        if (i + 1 < words.size()) return CgatsProblem{line, "there is text after END_DATA_FORMAT in the same line"};
        if (table_.fields.empty()) return CgatsProblem{line, "no field is named between BEGIN_DATA_FORMAT and END_DATA_FORMAT"};
        part_ = Part::Header;
        return {};
      }
      if (name == "BEGIN_DATA" || name == "END_DATA" || name == "BEGIN_DATA_FORMAT")
        return CgatsProblem{line, name + " stands here before END_DATA_FORMAT"};
      if (name.empty()) return CgatsProblem{line, "a field has an empty name"};
      if (!seen_.insert(name).second) return CgatsProblem{line, "the field " + shown(words[i].text) + " is named twice"};
      table_.fields.push_back(words[i].text);
      if (table_.fields.size() > kCgatsFields) return CgatsProblem{line, "there are more than " + std::to_string(kCgatsFields) + " fields"};
    }
    return {};
  }

  std::optional<CgatsProblem> data(const Words& words, int line) {
    if (words.size() == 1 && !words[0].quoted && sameWord(words[0].text, "END_DATA")) {
      part_ = Part::After;
      return {};
    }
    if (words.size() != table_.fields.size())
      return CgatsProblem{line,
                          "the row has " + std::to_string(words.size()) + " fields, but " + std::to_string(table_.fields.size()) + " are named"};
    if (table_.rows.size() >= kCgatsRows || (table_.rows.size() + 1) * table_.fields.size() > kCgatsCells)
      return CgatsProblem{line, "the table is too large"};
    std::vector<std::string> row;
    row.reserve(words.size());
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (auto problem = marks_.see(words[i], table_.fields[i], line, table_.rows.size(), i)) return problem;
      row.push_back(words[i].text);
    }
    table_.rows.push_back(std::move(row));
    table_.line_of_row.push_back(line);
    return {};
  }

  CgatsTable table_;
  Part part_ = Part::Header;
  bool any_ = false;  // something other than a count was read
  int format_line_ = 0;
  std::set<std::string> seen_;
  std::optional<Count> fields_count_, sets_count_;
  DecimalMarks marks_;
};

std::string inQuotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + "\"";
}

bool isOneWord(std::string_view text) {
  return !text.empty() && text[0] != '#' && std::ranges::none_of(text, [](char c) { return isSpace(c) || isControl(c) || c == '"'; });
}

bool isReserved(std::string_view text) {
  static constexpr std::array<std::string_view, 6> kReserved{"BEGIN_DATA_FORMAT", "END_DATA_FORMAT",  "BEGIN_DATA",
                                                             "END_DATA",          "NUMBER_OF_FIELDS", "NUMBER_OF_SETS"};
  return std::ranges::any_of(kReserved, [&](std::string_view word) { return sameWord(word, text); });
}

/// Text that a quoted string can hold and that comes back as it was.
bool canBeQuoted(std::string_view text) { return text.size() <= kCgatsWord && isUtf8(text) && std::ranges::none_of(text, isControl); }

std::string cell(const std::string& text) {
  const bool plain = isOneWord(text) && !isReserved(text) && text.find(',') == std::string::npos;
  return plain ? text : inQuotes(text);
}

}  // namespace

std::string withLine(const CgatsProblem& problem) {
  return problem.line > 0 ? "line " + std::to_string(problem.line) + ": " + problem.sentence : problem.sentence;
}

bool sameWord(std::string_view a, std::string_view b) {
  return std::ranges::equal(a, b, [](char x, char y) { return upperCase(x) == upperCase(y); });
}

std::optional<std::size_t> CgatsTable::find(std::string_view field) const {
  const auto at = std::ranges::find_if(fields, [&](const std::string& name) { return sameWord(name, field); });
  if (at == fields.end()) return {};
  return static_cast<std::size_t>(at - fields.begin());
}

const std::string* CgatsTable::keyword(std::string_view name) const {
  const auto at = std::ranges::find_if(keywords, [&](const auto& pair) { return sameWord(pair.first, name); });
  return at == keywords.end() ? nullptr : &at->second;
}

int CgatsTable::lineOf(std::size_t row) const { return row < line_of_row.size() ? line_of_row[row] : 0; }

std::expected<double, CgatsProblem> CgatsTable::number(std::size_t row, std::size_t column) const {
  const std::string& text = rows[row][column];
  if (text.empty()) return refuseCgats(lineOf(row), fields[column] + " is empty");
  const auto value = numberOf(text);
  if (!value) return refuseCgats(lineOf(row), shown(text) + " in " + fields[column] + " is not a number");
  return *value;
}

std::expected<double, CgatsProblem> CgatsTable::number(std::size_t row, std::string_view field) const {
  const auto column = find(field);
  if (!column) return refuseCgats(0, "there is no field " + std::string(field));
  return number(row, *column);
}

std::expected<CgatsTable, CgatsProblem> readCgats(std::string_view bytes) {
  if (bytes.size() > kCgatsBytes)
    return refuseCgats(0, "the file is larger than " + std::to_string(kCgatsBytes >> 20) + " megabytes, more than any chart needs");
  constexpr const char* kUtf16 = "the text is UTF-16, or it is no text: save it as UTF-8 or plain text";
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF") || bytes.find('\0') != std::string_view::npos) return refuseCgats(0, kUtf16);
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  if (bytes.ends_with('\x1A')) bytes.remove_suffix(1);  // an old mark of the file's end
  std::string converted;
  if (!isUtf8(bytes)) {
    converted = fromLatin1(bytes);
    bytes = converted;
  }

  Reader reader;
  int line = 0;
  for (std::size_t from = 0; from < bytes.size();) {
    ++line;
    const std::size_t end = std::min(bytes.find_first_of("\r\n", from), bytes.size());
    const std::string_view text = bytes.substr(from, end - from);
    if (std::ranges::any_of(text, isControl)) return refuseCgats(line, "there is a control character in it: the file is damaged, or no text");
    const auto words = wordsOf(text, line);
    if (!words) return std::unexpected(words.error());
    if (!words->empty())
      if (auto problem = reader.take(*words, line)) return std::unexpected(std::move(*problem));
    from = end + (bytes.substr(end, 2) == "\r\n" ? 2 : 1);
  }
  return reader.finish(line);
}

std::string cgatsNumber(double value) {
  std::array<char, 64> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return error == std::errc{} ? std::string(buffer.data(), end) : std::string();
}

std::expected<std::string, CgatsProblem> writeCgats(const CgatsTable& table, const std::vector<std::string>& comments) {
  if (table.fields.empty() || table.rows.empty()) return refuseCgats(0, "a table without fields or rows cannot be written");
  if (table.fields.size() > kCgatsFields || table.rows.size() > kCgatsRows || table.fields.size() * table.rows.size() > kCgatsCells ||
      table.keywords.size() > kCgatsKeywords)
    return refuseCgats(0, "the table is too large to be written");
  const std::string identifier = table.identifier.empty() ? "CGATS.17" : table.identifier;
  if (!isOneWord(identifier) || isReserved(identifier) || !canBeQuoted(identifier))
    return refuseCgats(0, "the identifier " + shown(identifier) + " is not one word");

  std::string out = identifier + "\n";
  for (const std::string& comment : comments) {
    if (!isUtf8(comment) || std::ranges::any_of(comment, isControl)) return refuseCgats(0, "a comment is not one line of text");
    out += "# " + comment + "\n";
  }
  for (const auto& [name, value] : table.keywords) {
    if (!isOneWord(name) || isReserved(name) || !canBeQuoted(name)) return refuseCgats(0, "the keyword " + shown(name) + " is not one word");
    if (!canBeQuoted(value)) return refuseCgats(0, "the value of " + name + " is not one line of text");
    out += name + "\t" + inQuotes(value) + "\n";
  }
  out += "NUMBER_OF_FIELDS\t" + std::to_string(table.fields.size()) + "\nBEGIN_DATA_FORMAT\n";
  std::set<std::string> seen;
  for (std::size_t i = 0; i < table.fields.size(); ++i) {
    const std::string& name = table.fields[i];
    if (!isOneWord(name) || isReserved(name) || !canBeQuoted(name) || !seen.insert(upperCase(name)).second)
      return refuseCgats(0, "the field " + shown(name) + " is not one word of its own");
    out += (i > 0 ? "\t" : "") + name;
  }
  out += "\nEND_DATA_FORMAT\nNUMBER_OF_SETS\t" + std::to_string(table.rows.size()) + "\nBEGIN_DATA\n";
  for (const auto& row : table.rows) {
    if (row.size() != table.fields.size())
      return refuseCgats(0, "a row has " + std::to_string(row.size()) + " fields, but " + std::to_string(table.fields.size()) + " are named");
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (!canBeQuoted(row[i])) return refuseCgats(0, "a value in " + table.fields[i] + " is not one line of text");
      out += (i > 0 ? "\t" : "") + cell(row[i]);
    }
    out += "\n";
  }
  out += "END_DATA\n";
  if (out.size() > kCgatsBytes) return refuseCgats(0, "the table is too large to be written");
  return out;
}

}  // namespace huewright
