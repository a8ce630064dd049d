#include "session/wrapped.hpp"

#include <algorithm>

namespace huewright {
namespace {

std::size_t codePoints(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

}  // namespace

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent, std::size_t hang) {
  std::string out;
  std::string margin(indent, ' ');
  std::size_t column = 0;
  while (!text.empty()) {
    const auto end = std::min(text.find_first_of(" \n"), text.size());
    const std::string_view word = text.substr(0, end);
    const bool line_end = end < text.size() && text[end] == '\n';
    const std::size_t size = codePoints(word);
    if (column == 0) {
      out += margin;
      column = margin.size();
      if (out.size() == column) margin.append(hang, ' ');
    } else if (column + 1 + size > width) {
      out += "\n" + margin;
      column = margin.size();
    } else {
      out += ' ';
      ++column;
    }
    out += word;
    column += size;
    if (line_end) {
      out += '\n';
      column = 0;
    }
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return column == 0 ? out : out + "\n";
}

}  // namespace huewright
