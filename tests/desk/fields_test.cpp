#include "desk/fields.hpp"

#include <gtest/gtest.h>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

struct FieldBench {
  double value = 3;
  std::optional<double> maybe;
  std::string name = "old";
  Typed last = Typed::Nothing;
  Frames frames{Page::Mixes, [this](DeskState&, Drawing&) {
                  keep(numberField("##value", value, {0, 50, true}, 100, "", ""));
                  keep(numberField("##maybe", maybe, {0, 50}, 100, "", "none"));
                  keep(textField("##name", name, 20, 100, "", ""));
                }};
  void keep(Typed typed) {
    if (typed != Typed::Nothing) last = typed;
  }
  static Typed numberField(const char* n, double& v, const NumberRange& range, float width, const char* tip, const char*) { return desk::numberField(n, v, range, width, tip); }
  static Typed numberField(const char* n, std::optional<double>& v, const NumberRange& range, float width, const char* tip, const char* hint) { return desk::numberField(n, v, range, width, tip, hint); }
  void typeInto(const char* field, std::string_view text) {
    last = Typed::Nothing;
    const auto at = frames.find("desk", {field});
    ASSERT_TRUE(at) << field;
    frames.clicked(at->x, at->y);
    frames.typed(text);
  }
};

struct TypedRow {
  const char* text;
  Typed want;
  double value;                      ///< afterwards
};

TEST(Fields, ANumberCountsOnlyWithinItsRange) {
  const TypedRow rows[] = {{"2.5", Typed::Changed, 2.5}, {"2,5", Typed::Changed, 2.5}, {"3", Typed::Nothing, 3}, {"0", Typed::Wrong, 3}, {"51", Typed::Wrong, 3}, {"50", Typed::Changed, 50},
                           {"-1", Typed::Wrong, 3}, {"two", Typed::Wrong, 3}, {" ", Typed::Wrong, 3}};
  FieldBench bench;
  for (const TypedRow& row : rows) {
    SCOPED_TRACE(row.text);
    bench.value = 3;
    bench.typeInto("##value", row.text);
    EXPECT_EQ(bench.last, row.want);
    EXPECT_EQ(bench.value, row.value);
  }
}

TEST(Fields, AnEmptyFieldIsNothingWhereThatMayBe) {
  FieldBench bench;
  bench.typeInto("##maybe", "0");
  EXPECT_EQ(bench.maybe, 0.0);
  bench.typeInto("##maybe", " ");
  EXPECT_EQ(bench.last, Typed::Changed);
  EXPECT_FALSE(bench.maybe);
}

TEST(Fields, ANameIsTaken) {
  FieldBench bench;
  bench.typeInto("##name", "pale gold");
  EXPECT_EQ(bench.name, "pale gold");
}

TEST(Fields, LeavingByAClickCountsAndEscapeDoesNot) {
  FieldBench bench;
  const auto at = bench.frames.find("desk", {"##value"});
  ASSERT_TRUE(at);
  bench.frames.clicked(at->x, at->y);
  ImGui::GetIO().AddInputCharacter('8');
  bench.frames.frames(2);
  EXPECT_EQ(bench.value, 3) << "still being typed";
  bench.frames.clicked(900, 600);
  EXPECT_EQ(bench.value, 8);
  bench.frames.clicked(at->x, at->y);
  ImGui::GetIO().AddInputCharacter('9');
  bench.frames.frames(2);
  bench.frames.pressed(kKeyEscape);
  bench.frames.frames(2);
  EXPECT_EQ(bench.value, 8);
  bench.last = Typed::Nothing;
  bench.frames.clicked(at->x, at->y);  // typed, and put back as it was
  ImGui::GetIO().AddInputCharacter('9');
  bench.frames.frames(2);
  bench.frames.pressed(kKeyBackspace);
  bench.frames.typed("8");
  EXPECT_EQ(bench.value, 8);
  EXPECT_EQ(bench.last, Typed::Nothing);
}

TEST(Fields, TabIsThePagesWhileNothingIsTyped) {
  FieldBench bench;
  bench.frames.clicked(900, 600);
  bench.frames.pressed(kKeyTab);
  bench.frames.frames(3);
  EXPECT_FALSE(ImGui::GetIO().WantTextInput);
}

TEST(Fields, NumbersAreWrittenShort) {
  EXPECT_EQ(fieldNumber(3), "3");
  EXPECT_EQ(fieldNumber(0.25), "0.25");
  EXPECT_EQ(fieldNumber(100), "100");
  EXPECT_EQ(fieldNumber(-0.0), "0");
  EXPECT_EQ(fieldNumber(1.0 / 3), "0.3333");
  EXPECT_EQ(rangeSentence("Coats", {0, 50, true}), "Coats: a number above 0 and up to 50.");
  EXPECT_EQ(rangeSentence("Loss", {0, 95}), "Loss: a number from 0 to 95.");
}

}  // namespace
}  // namespace huewright::desk
