// What a camera's name stands for, and whether it is there: seen before the video library is asked.
#pragma once

#include <expected>
#include <optional>
#include <string>

namespace huewright::frames {

enum class SourceKind { Device, Pictures, Film };

struct SourceName {
  SourceKind kind{};
  std::string path;  ///< from the root on, so that the video library never takes it for an address; of pictures, with the pattern in it
};

/// Numbers are /dev/video of that number, all below /dev are devices, a name with one pattern such as %03d in it is a sequence of pictures, and films are told by
/// their ending. Errors: a sentence without its full stop, when it is none of these, or is not there, or may not be opened.
std::expected<SourceName, std::string> sourceNamed(const std::string& source);

/// The number of a sequence's first picture, 0 to 9; nothing when there is none.
std::optional<int> firstPicture(const std::string& pattern);

/// The name of one picture of a sequence: the number in place of its pattern.
std::string pictureNumbered(const std::string& pattern, int number);

}  // namespace huewright::frames
