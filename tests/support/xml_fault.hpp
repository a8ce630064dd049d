// A simple look at an XML text: enough to see that a drawing is whole.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace huewright::fixtures {

/// "" when every element is closed in its turn, there is one outermost element, attributes are quoted, and every & starts an entity; else what is wrong.
inline std::string xmlFault(std::string_view text) {
  std::vector<std::string> open;
  int roots = 0;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '&') {
      const auto end = text.find(';', i);
      if (end == std::string_view::npos || end - i > 8) return "a bare & at " + std::to_string(i);
    }
    if (text[i] == '>') return "a bare > at " + std::to_string(i);
    if (text[i] != '<') {
      if (open.empty() && text[i] != '\n' && text[i] != ' ') return "text outside at " + std::to_string(i);
      ++i;
      continue;
    }
    if (text.substr(i, 2) == "<?") {
      i = text.find("?>", i);
      if (i == std::string_view::npos) return "an open <?";
      i += 2;
      continue;
    }
    // The end of the tag, quotes skipped.
    std::size_t end = i + 1;
    bool quoted = false;
    for (; end < text.size() && (quoted || text[end] != '>'); ++end) {
      if (text[end] == '"') quoted = !quoted;
      else if (text[end] == '<') return "a < within a tag at " + std::to_string(end);
    }
    if (end >= text.size()) return "an open tag at " + std::to_string(i);
    const std::string_view tag = text.substr(i + 1, end - i - 1);
    if (tag.starts_with('/')) {
      if (open.empty() || open.back() != tag.substr(1)) return "</" + std::string(tag.substr(1)) + "> closes nothing at " + std::to_string(i);
      open.pop_back();
    } else {
      if (open.empty() && ++roots > 1) return "two outermost elements";
      if (!tag.ends_with('/')) open.emplace_back(tag.substr(0, tag.find_first_of(" \n")));
    }
    i = end + 1;
  }
  if (!open.empty()) return "<" + open.back() + "> is never closed";
  return roots == 1 ? "" : "nothing in it";
}

}  // namespace huewright::fixtures
