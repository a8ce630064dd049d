#include "colour/cgats.hpp"

#include <cstdlib>
#include <gtest/gtest.h>
#include <random>
#include <string>

namespace huewright {
namespace {

using namespace std::string_literals;

const std::string kSmall = R"(CGATS.17
# made for this test
ORIGINATOR	"a ""quoted"" word"
DESCRIPTOR "two greys"   # and a comment
MEASUREMENT_SOURCE	"Illumination=D50	ObserverAngle=2"
KEYWORD "MY_WORD"
MY_WORD plain words here
NUMBER_OF_FIELDS 5
BEGIN_DATA_FORMAT
SAMPLE_ID SAMPLE_NAME	LAB_L LAB_A LAB_B
END_DATA_FORMAT
NUMBER_OF_SETS 2
BEGIN_DATA
1 "light grey #3" 81.25 -0.64 -3.4e-1

2	"dark ""grey"""	20.5	0	+.97   # the last
END_DATA
)";

/// The table with one part of kSmall replaced.
std::expected<CgatsTable, CgatsProblem> with(const std::string& from, const std::string& to) {
  std::string text = kSmall;
  const auto at = text.find(from);
  if (at == std::string::npos) throw std::logic_error(from);
  return readCgats(text.replace(at, from.size(), to));
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size()) text.replace(at, from.size(), to);
  return text;
}

TEST(Cgats, ReadsAllParts) {
  const auto table = readCgats(kSmall);
  ASSERT_TRUE(table) << withLine(table.error());
  EXPECT_EQ(table->identifier, "CGATS.17");
  ASSERT_EQ(table->keywords.size(), 5U);
  EXPECT_EQ(*table->keyword("ORIGINATOR"), "a \"quoted\" word");
  EXPECT_EQ(*table->keyword("descriptor"), "two greys");
  EXPECT_EQ(*table->keyword("MEASUREMENT_SOURCE"), "Illumination=D50\tObserverAngle=2");
  EXPECT_EQ(*table->keyword("KEYWORD"), "MY_WORD");
  EXPECT_EQ(*table->keyword("MY_WORD"), "plain words here");
  EXPECT_EQ(table->keyword("NUMBER_OF_SETS"), nullptr);
  EXPECT_EQ(table->fields, (std::vector<std::string>{"SAMPLE_ID", "SAMPLE_NAME", "LAB_L", "LAB_A", "LAB_B"}));
  ASSERT_EQ(table->rows.size(), 2U);
  EXPECT_EQ(table->rows[0][1], "light grey #3");
  EXPECT_EQ(table->rows[1][1], "dark \"grey\"");
  EXPECT_EQ(table->line_of_row, (std::vector<int>{14, 16}));
  EXPECT_EQ(table->number(0, "lab_l"), 81.25);
  EXPECT_EQ(table->number(0, "LAB_B"), -0.34);
  EXPECT_EQ(table->number(1, "LAB_A"), 0.0);
  EXPECT_EQ(table->number(1, "LAB_B"), 0.97);
  EXPECT_FALSE(table->decimal_comma);
  EXPECT_FALSE(table->find("XYZ_X"));
  EXPECT_EQ(table->number(0, "XYZ_X").error().sentence, "there is no field XYZ_X");
}

TEST(Cgats, ReadsTheSameWhateverLineEndsAndMarks) {
  const auto plain = readCgats(kSmall);
  ASSERT_TRUE(plain);
  for (const std::string& text :
       {replaced(kSmall, "\n", "\r\n"), replaced(kSmall, "\n", "\r"), "\xEF\xBB\xBF" + kSmall, kSmall + "\x1A", kSmall.substr(0, kSmall.size() - 1),
        "\n\n" + kSmall + "# end\n\n", replaced(kSmall, "LAB_A LAB_B\nEND", "LAB_A\nLAB_B END"),
        replaced(kSmall, "BEGIN_DATA_FORMAT\n", "BEGIN_DATA_FORMAT "), replaced(kSmall, "END_DATA", "end_data"),
        replaced(kSmall, "NUMBER_OF_FIELDS 5\n", ""), replaced(kSmall, "NUMBER_OF_SETS 2\n", ""),
        replaced(kSmall, "NUMBER_OF_SETS 2", "NUMBER_OF_SETS \"2\"\nNUMBER_OF_SETS 2")}) {
    const auto table = readCgats(text);
    ASSERT_TRUE(table) << withLine(table.error()) << "\n" << text;
    EXPECT_EQ(table->identifier, plain->identifier);
    EXPECT_EQ(table->keywords, plain->keywords);
    EXPECT_EQ(table->fields, plain->fields);
    EXPECT_EQ(table->rows, plain->rows);
  }
  EXPECT_EQ(readCgats(replaced(kSmall, "\n", "\r"))->line_of_row, plain->line_of_row);
  EXPECT_EQ(readCgats(replaced(kSmall, "\n", "\r\n"))->line_of_row, plain->line_of_row);
}

// As programs in the field write it: a keyword in the first line, no identifier.
TEST(Cgats, TheFirstLineMayBeAKeyword) {
  const auto table = with("CGATS.17\n", "LGOROWLENGTH 12\nDate: 3/27/2000  Time: 19:04\n");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->identifier, "");
  EXPECT_EQ(*table->keyword("LGOROWLENGTH"), "12");
  EXPECT_EQ(*table->keyword("Date:"), "3/27/2000 Time: 19:04");
}

TEST(Cgats, TextThatIsNotUtf8CountsAsLatin1) {
  EXPECT_EQ(with("light grey", "gris clair \xE9t\xE9")->rows[0][1], "gris clair \xC3\xA9t\xC3\xA9 #3");
  EXPECT_EQ(with("light grey", "gris clair \xC3\xA9t\xC3\xA9")->rows[0][1], "gris clair \xC3\xA9t\xC3\xA9 #3");
}

TEST(Cgats, WhatIsWrongIsSaidWithItsLine) {
  struct Row {
    std::string from, to;
    int line;
    std::string part;
  };
  const std::string long_word(kCgatsWord + 1, 'x');
  std::string many = "SAMPLE_ID";
  for (std::size_t i = 0; i <= kCgatsFields; ++i) many += " F" + std::to_string(i);
  for (const Row& r : {
           Row{"NUMBER_OF_FIELDS 5", "NUMBER_OF_FIELDS 6", 8, "says 6, but 5 fields"},
           Row{"NUMBER_OF_SETS 2", "NUMBER_OF_SETS 24", 12, "says 24, but there are 2 rows"},
           Row{"NUMBER_OF_SETS 2", "NUMBER_OF_SETS 99999999999999999999999", 12, "one whole number"},
           Row{"NUMBER_OF_SETS 2", "NUMBER_OF_SETS -2", 12, "one whole number"},
           Row{"NUMBER_OF_SETS 2", "NUMBER_OF_SETS 2.0", 12, "one whole number"},
           Row{"NUMBER_OF_SETS 2", "NUMBER_OF_SETS", 12, "one whole number"},
           Row{"NUMBER_OF_SETS 2", "NUMBER_OF_SETS \"\"", 12, "one whole number"},
           Row{"NUMBER_OF_SETS 2", "NUMBER_OF_SETS 3\nNUMBER_OF_SETS 2", 13, "3 in line 12"},
           Row{"81.25 -0.64", "81.25", 14, "the row has 4 fields, but 5 are named"},
           Row{"81.25 -0.64", "81.25 -0.64 7", 14, "the row has 6 fields, but 5 are named"},
           Row{"81.25 -0.64", "81.25\n-0.64", 14, "the row has 3 fields"},
           Row{"\"light grey #3\"", "\"light grey", 14, "no closing quote"},
           Row{"\"light grey #3\"", "\"light\"grey", 14, "no space after"},
           Row{"\"light grey #3\"", "light\"grey\"", 14, "quote stands inside"},
           Row{"\"two greys\"", "\"two greys", 4, "no closing quote"},
           Row{"light grey", "light\x01grey", 14, "control character"},
           Row{"light grey", "light" + "\0"s + "grey", 0, "UTF-16"},
           Row{"light grey", long_word, 14, "longer than"},
           Row{"plain words", long_word, 7, "longer than"},
           Row{"LAB_B\nEND", "LAB_L\nEND", 10, "\"LAB_L\" is named twice"},
           Row{"LAB_B\nEND", "lab_l\nEND", 10, "\"lab_l\" is named twice"},
           Row{"LAB_B\nEND", "\"\"\nEND", 10, "empty name"},
           Row{"SAMPLE_ID SAMPLE_NAME", many, 10, "more than 2000"},
           Row{"SAMPLE_ID SAMPLE_NAME\tLAB_L LAB_A LAB_B\n", "", 10, "no field is named"},
           Row{"END_DATA_FORMAT\n", "", 11, ""},
           Row{"END_DATA_FORMAT\n", "END_DATA_FORMAT extra\n", 11, "text after END_DATA_FORMAT"},
           Row{"BEGIN_DATA\n", "BEGIN_DATA 1\n", 13, "text after BEGIN_DATA"},
           Row{"BEGIN_DATA\n", "", 13, ""},
           Row{"BEGIN_DATA\n", "BEGIN_DATA_FORMAT\n", 13, "a second time, after line 9"},
           Row{"BEGIN_DATA_FORMAT\n", "", 9, ""},
           Row{"NUMBER_OF_FIELDS 5", "END_DATA", 8, "without its beginning"},
           Row{"NUMBER_OF_FIELDS 5", "\"NUMBER_OF_FIELDS\" 5", 8, "a keyword is expected"},
           Row{"NUMBER_OF_FIELDS 5", "BEGIN_DATA", 8, "before any field"},
           Row{"END_DATA\n", "", 16, "before END_DATA"},
           Row{"END_DATA\n", "END_DATA\nBEGIN_DATA\n", 18, "second table"},
           Row{"END_DATA\n", "END_DATA\n\nNUMBER_OF_SETS 2\n", 19, "text after the table's end"},
           Row{"81.25", "81,25", 14, "decimal point"},
           Row{"20.5", "20,5", 16, "decimal comma"},
       }) {
    std::string from = r.from;
    if (from == "END_DATA\n" || from == "BEGIN_DATA\n") from = "\n" + from;  // the whole line
    const auto table = with(from, from[0] == '\n' ? "\n" + r.to : r.to);
    ASSERT_FALSE(table) << r.from << " -> " << r.to;
    if (!r.part.empty()) {
      EXPECT_EQ(table.error().line, r.line) << r.from << " -> " << r.to << "\n" << withLine(table.error());
    }
    EXPECT_NE(table.error().sentence.find(r.part), std::string::npos) << r.from << " -> " << r.to << "\n" << withLine(table.error());
    EXPECT_LT(table.error().sentence.size(), 250U);
  }
}

TEST(Cgats, NoTableAtAll) {
  for (const std::string& text :
       {""s, "\n"s, "# nothing\n"s, "CGATS.17\n"s, "\xEF\xBB\xBF"s, "name,L,a,b\nred,50,60,40\n"s,
        "\xFF\xFE"
        "C\0"s,
        "\xFE\xFF\0C"s, "C\0G\0A\0T\0S\0"s, "\x89PNG\r\n\x1A\n"s, "\xFF\xD8\xFF\xE0\0"s, std::string(kCgatsBytes + 1, '\n'),
        "X\nBEGIN_DATA_FORMAT\nA\nEND_DATA_FORMAT\nBEGIN_DATA\nEND_DATA\n"s, "BEGIN_DATA_FORMAT\nA\n"s, "BEGIN_DATA_FORMAT\nA\nEND_DATA_FORMAT\n"s}) {
    const auto table = readCgats(text);
    ASSERT_FALSE(table) << text.substr(0, 100);
    EXPECT_FALSE(table.error().sentence.empty());
  }
}

TEST(Cgats, TooManyRowsAreRefused) {
  const auto rows = [](std::size_t count) {
    std::string text = "CGATS.17\nBEGIN_DATA_FORMAT\nA\nEND_DATA_FORMAT\nBEGIN_DATA\n";
    for (std::size_t i = 0; i < count; ++i) text += "1\n";
    return readCgats(text + "END_DATA\n");
  };
  ASSERT_TRUE(rows(kCgatsRows));
  ASSERT_FALSE(rows(kCgatsRows + 1));
  EXPECT_EQ(rows(kCgatsRows + 1).error().line, static_cast<int>(kCgatsRows) + 6);
}

TEST(Cgats, WhatIsNoNumberIsRefused) {
  struct Row {
    std::string text;
    bool good;
    double value = 0;
  };
  for (const Row& r : {Row{"12.3", true, 12.3},
                       Row{"-.5", true, -0.5},
                       Row{"5.", true, 5},
                       Row{"+1e2", true, 100},
                       Row{"\"7.5\"", true, 7.5},
                       Row{"0", true, 0},
                       Row{"-0.00", true, 0},
                       Row{"0e9", true, 0},
                       Row{"12.3.4", false},
                       Row{"n/a", false},
                       Row{"\"\"", false},
                       Row{"\" \"", false},
                       Row{"-", false},
                       Row{"--1", false},
                       Row{"+-1", false},
                       Row{"nan", false},
                       Row{"NaN", false},
                       Row{"inf", false},
                       Row{"-Infinity", false},
                       Row{"1e400", false},
                       Row{"1e-400", false},
                       Row{"0x10", false},
                       Row{"1e", false},
                       Row{"1 .5", false},
                       Row{"12%", false},
                       Row{"12.3#x", false},
                       Row{"1_000", false},
                       Row{"\"12,5\"", false},
                       Row{"1,2,3", false},
                       Row{"\xE2\x88\x92"
                           "5",
                           false},
                       Row{"\xC2\xA0"
                           "5",
                           false},
                       Row{"*", false}}) {
    const auto table = readCgats("CGATS.17\nBEGIN_DATA_FORMAT\nLAB_L\nEND_DATA_FORMAT\nBEGIN_DATA\n" + r.text + "\nEND_DATA\n");
    if (!table) {  // two words
      EXPECT_FALSE(r.good) << r.text;
      continue;
    }
    const auto value = table->number(0, 0);
    ASSERT_EQ(value.has_value(), r.good) << r.text;
    if (r.good) EXPECT_EQ(*value, r.value) << r.text;
    else EXPECT_EQ(value.error().line, 6) << r.text;
  }
}

TEST(Cgats, DecimalCommas) {
  const auto values = [](const std::string& rows) {
    return readCgats("CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_NAME A B\nEND_DATA_FORMAT\nBEGIN_DATA\n" + rows + "END_DATA\n");
  };
  struct Row {
    std::string rows;
    double a, b;
  };
  for (const Row& r : {Row{"x 12,34 5\n", 12.34, 5}, Row{"x 0,123 -1,234\n", 0.123, -1.234}, Row{"x 1234,567 1,234\n", 1234.567, 1.234},
                       Row{"9.5 0,35751 1,0e-2\n", 0.35751, 0.01}, Row{"1,5 1.5 2\n", 1.5, 2}, Row{"x ,5 1\n", 0.5, 1},
                       Row{"\"a, b\" 1,5 1\n", 1.5, 1}, Row{"x 1,5 1\ny 1,500 2\n", 1.5, 1}}) {
    const auto table = values(r.rows);
    ASSERT_TRUE(table) << r.rows << withLine(table.error());
    EXPECT_EQ(table->number(0, "A"), r.a) << r.rows;
    EXPECT_EQ(table->number(0, "B"), r.b) << r.rows;
    EXPECT_EQ(table->decimal_comma, r.rows != "1,5 1.5 2\n");
  }
  struct Bad {
    std::string rows;
    int line;
    std::string part;
  };
  for (const Bad& r : {Bad{"x 12,5 5\ny 1 2.5\n", 7, "\"2.5\" in B has a decimal point, but the numbers before it, from line 6 on, have commas"},
                       Bad{"x 12.5 5\ny 1 2,5\n", 7, "\"2,5\" in B has a decimal comma"}, Bad{"x 1,234 5\ny 1 -12,345\n", 6, "thousands"},
                       Bad{"x 1.5 1,234\n", 6, "decimal comma"}}) {
    const auto table = values(r.rows);
    ASSERT_FALSE(table) << r.rows;
    EXPECT_EQ(table.error().line, r.line) << r.rows;
    EXPECT_NE(table.error().sentence.find(r.part), std::string::npos) << table.error().sentence;
  }
  EXPECT_FALSE(values("x 1,234,567 5\n")->number(0, "A"));
}

void expectSame(const CgatsTable& got, const CgatsTable& want) {
  EXPECT_EQ(got.identifier, want.identifier.empty() ? "CGATS.17" : want.identifier);
  EXPECT_EQ(got.keywords, want.keywords);
  EXPECT_EQ(got.fields, want.fields);
  EXPECT_EQ(got.rows, want.rows);
}

TEST(CgatsWriter, WhatIsWrittenIsReadBack) {
  CgatsTable table{"",
                   {{"ORIGINATOR", "x \"y\" z"}, {"DESCRIPTOR", ""}, {"DESCRIPTOR", "2\ttabs"}, {"ODD", "# no comment"}},
                   {"SAMPLE_ID", "SAMPLE_NAME", "LAB_L"},
                   {},
                   {},
                   false};
  for (const std::string cell :
       {"plain", "", " ", "#", "a#b", "\"", "\"\"", "a \"b\" c", "END_DATA", "begin_data", "1,5", "1,234", "t\tab", "\xC3\xA9"})
    table.rows.push_back({cell, cell, cgatsNumber(1.0 / 3)});
  const auto text = writeCgats(table, {"a source", ""});
  ASSERT_TRUE(text) << withLine(text.error());
  EXPECT_TRUE(text->starts_with("CGATS.17\n# a source\n# \nORIGINATOR\t\"x \"\"y\"\" z\"\n"));
  const auto back = readCgats(*text);
  ASSERT_TRUE(back) << withLine(back.error()) << *text;
  expectSame(*back, table);
  EXPECT_EQ(back->number(0, "LAB_L"), 1.0 / 3);
}

TEST(CgatsWriter, RandomTables) {
  std::mt19937_64 rng(17);
  const std::string letters = "aZ09.,-+e#\"\t _/\xC3\xA9";
  const auto text = [&](std::size_t most) {
    std::string out;
    for (std::size_t n = rng() % (most + 1); n > 0; --n) {
      const std::size_t i = rng() % (letters.size() - 1);
      out += i + 2 == letters.size() ? letters.substr(i) : std::string(1, letters[i]);
    }
    return out;
  };
  for (int round = 0; round < 3000; ++round) {
    CgatsTable table;
    for (std::size_t n = rng() % 4; n > 0; --n) table.keywords.emplace_back("K" + std::to_string(rng() % 3), text(8));
    for (std::size_t n = 1 + rng() % 5, i = 0; i < n; ++i) table.fields.push_back((i == 0 ? "SAMPLE_NAME" : "F") + std::to_string(i));
    for (std::size_t n = 1 + rng() % 5; n > 0; --n) {
      table.rows.emplace_back();
      for (std::size_t i = 0; i < table.fields.size(); ++i) table.rows.back().push_back(text(6));
    }
    const auto written = writeCgats(table);
    ASSERT_TRUE(written) << withLine(written.error());
    const auto back = readCgats(*written);
    ASSERT_TRUE(back) << withLine(back.error()) << "\n" << *written;
    expectSame(*back, table);
  }
}

TEST(CgatsWriter, WhatWouldNotComeBackIsRefused) {
  const CgatsTable good{"", {{"A", "x"}}, {"F", "G"}, {{"1", "2"}}, {}, false};
  ASSERT_TRUE(writeCgats(good));
  const auto refused = [&](auto change) {
    CgatsTable table = good;
    change(table);
    return !writeCgats(table);
  };
  EXPECT_TRUE(refused([](CgatsTable& t) { t.rows.clear(); }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.fields.clear(); }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.rows[0].pop_back(); }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.fields[1] = "f"; }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.fields[1] = "two words"; }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.fields[1] = "END_DATA_FORMAT"; }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.keywords[0].first = "NUMBER_OF_SETS"; }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.keywords[0].first = ""; }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.keywords[0].second = "two\nlines"; }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.rows[0][0] = "two\rlines"; }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.rows[0][0] = "\xE9"; }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.rows[0][0] = std::string(kCgatsWord + 1, 'x'); }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.identifier = "BEGIN_DATA"; }));
  EXPECT_TRUE(refused([](CgatsTable& t) { t.identifier = "#x"; }));
  EXPECT_FALSE(writeCgats(good, {"two\nlines"}));
}

TEST(Cgats, NumbersAreWrittenToTheLastBit) {
  std::mt19937_64 rng(5);
  std::uniform_real_distribution<double> any(-200, 200);
  for (int i = 0; i < 1000; ++i) {
    const double value = any(rng);
    EXPECT_EQ(std::strtod(cgatsNumber(value).c_str(), nullptr), value);
  }
}

/// Whether a text spells zero.
bool spellsZero(std::string text) {
  if (const auto power = text.find_first_of("eE"); power != std::string::npos) text.resize(power);
  return text.find('0') != std::string::npos && text.find_first_not_of("+-.0 \t") == std::string::npos;
}

// Thousands of damaged files: no crash (under the sanitizers in .ci/run), every number that is given is what its text says to an independent
// reader (strtod), and no 0 that is not written as one.
TEST(Cgats, DamagedFilesGiveNoFalseNumbers) {
  std::mt19937_64 rng(20260117);
  const std::string commas = replaced(replaced(replaced(kSmall, ".", ","), "CGATS,17", "CGATS.17"), "+,97", "+0,97");
  ASSERT_TRUE(readCgats(commas)) << withLine(readCgats(commas).error());
  ASSERT_EQ(readCgats(commas)->number(0, "LAB_L"), 81.25);
  int read = 0, refused = 0;
  std::string word;
  for (int round = 0; round < 30000; ++round) {
    std::string text = round % 2 == 0 ? kSmall : commas;
    for (std::size_t n = 1 + rng() % 3; n > 0 && !text.empty(); --n) {
      const std::size_t at = rng() % text.size();
      switch (rng() % 6) {
        case 0: text[at] = static_cast<char>(rng() % 256); break;
        case 1: text.erase(at, 1 + rng() % 4); break;
        case 2: text.insert(at, 1, static_cast<char>(rng() % 256)); break;
        case 3: text.insert(at, 1, "0123456789.,\"# \t\n\r-+e"[rng() % 21]); break;
        case 4: text.resize(at); break;
        default: text.insert(at, text.substr(rng() % text.size(), rng() % 40)); break;
      }
    }
    const auto table = readCgats(text);
    if (!table) {
      ++refused;
      ASSERT_FALSE(table.error().sentence.empty());
      continue;
    }
    ++read;
    ASSERT_FALSE(table->rows.empty());
    ASSERT_EQ(table->rows.size(), table->line_of_row.size());
    for (std::size_t r = 0; r < table->rows.size(); ++r) {
      ASSERT_EQ(table->rows[r].size(), table->fields.size());
      for (std::size_t c = 0; c < table->fields.size(); ++c) {
        const auto value = table->number(r, c);
        if (!value) continue;
        const std::string& cell = table->rows[r][c];
        char* end = nullptr;
        ASSERT_EQ(*value, std::strtod(cell.c_str(), &end)) << cell;
        ASSERT_EQ(std::string_view(end).find_first_not_of(" \t"), std::string_view::npos) << cell;
        if (*value == 0) {
          ASSERT_TRUE(spellsZero(cell)) << cell;
        }
      }
    }
  }
  EXPECT_GT(read, 3000);
  EXPECT_GT(refused, 3000);
}

}  // namespace
}  // namespace huewright
