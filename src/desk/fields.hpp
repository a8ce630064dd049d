// Fields to type numbers and names into. What is typed counts when Enter is pressed or the field is left; Escape takes it back.
#pragma once

#include <optional>
#include <string>

namespace huewright::desk {

/// What came of a field in this frame.
enum class Typed { Nothing, Changed, Wrong };

struct NumberRange {
  double low = 0, high = 0;
  bool above_low = false;            ///< low itself is not allowed
};

/// "0.4", "12": at most four digits after the point.
std::string fieldNumber(double value);

/// In: a name that is unique in the window, the value that stands there, and the field's width, px. Wrong: what was typed is no number within the range; the value stays.
Typed numberField(const char* name, double& value, const NumberRange& range, float width, const char* tip);

/// The same; empty is nothing. hint: stands in the empty field.
Typed numberField(const char* name, std::optional<double>& value, const NumberRange& range, float width, const char* tip, const char* hint);

/// A line of type of at most `most` bytes.
Typed textField(const char* name, std::string& value, std::size_t most, float width, const char* tip, const char* hint);

/// A list of kStages and "not told", in a field. True when another was chosen.
bool stageField(const char* name, std::string& stage);

/// "Coats: a number above 0 and up to 50."
std::string rangeSentence(const char* what, const NumberRange& range);

}  // namespace huewright::desk
