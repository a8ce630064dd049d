#include "shape/rules.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <sstream>
#include <string_view>
#include <utility>

namespace huewright::shape {
namespace {

bool isWord(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }

bool isProgram(const std::string& path) { return path == "src/cli/main.cpp" || path == "src/cli/pages_main.cpp" || path == "src/desk/main.cpp"; }

std::string where(const SourceFile& file, int line) { return file.path + ":" + std::to_string(line) + " "; }

/// "judge" of "judge/verdict.hpp"; empty without a slash.
std::string folderOf(const std::string& name) {
  const auto slash = name.find('/');
  return slash == std::string::npos ? std::string{} : name.substr(0, slash);
}

// Source: ISO/IEC 14882:2024 (C++23), tables 24 and 25, without those that only C has.
constexpr std::string_view kStandardHeaders =
    " algorithm any array atomic barrier bit bitset cassert cctype cerrno cfenv cfloat charconv chrono cinttypes climits clocale cmath "
    "codecvt compare complex concepts condition_variable coroutine csetjmp csignal cstdarg cstddef cstdint cstdio cstdlib cstring ctime "
    "cuchar cwchar cwctype deque exception execution expected filesystem flat_map flat_set format forward_list fstream functional future "
    "generator initializer_list iomanip ios iosfwd iostream istream iterator latch limits list locale map mdspan memory memory_resource "
    "mutex new numbers numeric optional ostream print queue random ranges ratio regex scoped_allocator semaphore set shared_mutex "
    "source_location span spanstream sstream stack stacktrace stdexcept stdfloat stop_token streambuf string string_view strstream "
    "syncstream system_error thread tuple type_traits typeindex typeinfo unordered_map unordered_set utility valarray variant vector "
    "version ";
constexpr std::string_view kSystemHeaders =
    " dirent.h dlfcn.h errno.h fcntl.h poll.h pthread.h signal.h spawn.h termios.h time.h unistd.h ";

bool isStandardOrSystem(const std::string& name) {
  const std::string padded = " " + name + " ";
  return kStandardHeaders.find(padded) != std::string_view::npos || kSystemHeaders.find(padded) != std::string_view::npos ||
         name.starts_with("sys/");
}

/// The tokens of CMake text: words, quoted or not, and brackets.
std::vector<std::string> cmakeTokens(const std::string& text) {
  std::vector<std::string> tokens;
  std::string word;
  const auto close = [&] {
    if (!word.empty()) tokens.push_back(std::exchange(word, {}));
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '#') i = std::min(text.find('\n', i), text.size());
    if (c == '#' || c == '"' || std::isspace(static_cast<unsigned char>(c)) != 0) {
      close();
    } else if (c == '(' || c == ')') {
      close();
      tokens.emplace_back(1, c);
    } else {
      word += c;
    }
  }
  close();
  return tokens;
}

}  // namespace

const Arrows& allowedArrows() {
  static const Arrows kArrows{
      {"base", {}},
      {"colour", {"base"}},
      {"photo", {"colour"}},
      {"scene", {"photo"}},
      {"camera", {"photo"}},
      {"judge", {"scene", "camera"}},
      {"mix", {"colour"}},
      {"drift", {"base"}},
      {"book", {"judge", "mix", "drift"}},
      {"paper", {"judge", "mix", "drift"}},
      {"capture", {"photo"}},
      {"frames", {"capture"}},
      {"session", {"judge", "mix", "drift", "book", "paper", "capture"}},
      {"cli", {"session"}},
      {"sitting", {"session"}},
      {"desk", {"sitting"}},
  };
  return kArrows;
}

std::set<std::string> reach(const Arrows& arrows, const std::string& room) {
  std::set<std::string> found{room};
  std::vector<std::string> open{room};
  while (!open.empty()) {
    const auto at = arrows.find(open.back());
    open.pop_back();
    if (at == arrows.end()) continue;
    for (const std::string& next : at->second)
      if (found.insert(next).second) open.push_back(next);
  }
  return found;
}

std::string roomOf(const std::string& path) { return path.starts_with("src/") ? folderOf(path.substr(4)) : std::string{}; }

std::string withoutComments(const std::string& text, bool without_strings) {
  std::string out = text;
  const auto blank = [&](std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < std::min(to, out.size()); ++i)
      if (out[i] != '\n') out[i] = ' ';
  };
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = std::string_view(text).substr(i);
    if (rest.starts_with("//")) {
      const auto end = std::min(text.find('\n', i), text.size());
      blank(i, end);
      i = end;
    } else if (rest.starts_with("/*")) {
      const auto close = text.find("*/", i + 2);
      const auto end = close == std::string::npos ? text.size() : close + 2;
      blank(i, end);
      i = end;
    } else if (rest.starts_with("R\"") && (i == 0 || !isWord(text[i - 1]))) {
      const auto open = std::min(text.find('(', i), text.size());
      const std::string closing = ")" + text.substr(std::min(i + 2, open), open - std::min(i + 2, open)) + "\"";
      const auto close = text.find(closing, open);
      const auto end = close == std::string::npos ? text.size() : close + closing.size();
      if (without_strings) blank(i, end);
      i = end;
    } else if (text[i] == '"' || (text[i] == '\'' && (i == 0 || !isWord(text[i - 1])))) {  // after a digit ' only parts a number
      std::size_t end = i + 1;
      while (end < text.size() && text[end] != text[i] && text[end] != '\n') end += text[end] == '\\' ? 2 : 1;
      if (without_strings) blank(i + 1, end);
      i = std::min(end + 1, text.size());
    } else {
      ++i;
    }
  }
  return out;
}

std::vector<Include> includesOf(const std::string& text) {
  std::vector<Include> found;
  std::istringstream lines(withoutComments(text, false));
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    const auto skipSpace = [&](std::size_t at) { return std::min(line.find_first_not_of(" \t", at), line.size()); };
    std::size_t at = skipSpace(0);
    if (at >= line.size() || line[at] != '#') continue;
    at = skipSpace(at + 1);
    if (!line.substr(at).starts_with("include")) continue;
    at = skipSpace(at + 7);
    const char close = at < line.size() && line[at] == '<' ? '>' : '"';
    const auto end = at < line.size() && (line[at] == '<' || line[at] == '"') ? line.find(close, at + 1) : std::string::npos;
    found.push_back({end == std::string::npos ? std::string{} : line.substr(at + 1, end - at - 1), close == '>', number});
  }
  return found;
}

std::set<std::string> usesInCMake(const std::string& room, const std::string& cmake) {
  std::set<std::string> uses;
  const auto tokens = cmakeTokens(cmake);
  for (std::size_t i = 0; i + 2 < tokens.size(); ++i) {
    const bool call = (tokens[i] == "huewright_room" || tokens[i] == "target_link_libraries") && tokens[i + 1] == "(" && tokens[i + 2] == room;
    for (std::size_t j = i + 3; call && j < tokens.size() && tokens[j] != ")"; ++j)
      if (allowedArrows().contains(tokens[j])) uses.insert(tokens[j]);
  }
  return uses;
}

Complaints upwardIncludes(const SourceFile& file, const Arrows& arrows) {
  Complaints wrong;
  const std::string room = roomOf(file.path);
  if (!arrows.contains(room)) return {file.path + " lies in no room of the table"};
  const auto allowed = reach(arrows, room);
  for (const Include& include : includesOf(file.text)) {
    const std::string other = folderOf(include.name);
    if (include.name.empty()) wrong.push_back(where(file, include.line) + "includes something that is neither quoted nor in angle brackets");
    else if (arrows.contains(other) && !allowed.contains(other)) wrong.push_back(where(file, include.line) + "includes upward: " + include.name);
    else if (!include.angled && !arrows.contains(other)) wrong.push_back(where(file, include.line) + "quotes a header of no room: " + include.name);
  }
  return wrong;
}

Complaints strangersInHeader(const SourceFile& file) {
  Complaints wrong;
  if (!file.path.ends_with(".hpp")) return wrong;
  for (const Include& include : includesOf(file.text))
    if (include.angled && !isStandardOrSystem(include.name)) wrong.push_back(where(file, include.line) + "shows a third-party header: " + include.name);
  return wrong;
}

Complaints printsOrExits(const SourceFile& file) {
  constexpr std::array<std::string_view, 7> kStreams{"cout", "cerr", "clog", "wcout", "wcerr", "stdout", "stderr"};
  constexpr std::array<std::string_view, 13> kCalls{"printf", "vprintf", "puts",       "putchar", "perror",    "print", "println",
                                                    "exit",   "_exit",   "quick_exit", "abort",   "terminate", "_Exit"};
  Complaints wrong;
  if (isProgram(file.path)) return wrong;
  const std::string code = withoutComments(file.text, true);
  int line = 1;
  for (std::size_t i = 0; i < code.size();) {
    if (code[i] == '\n') ++line;
    if (!isWord(code[i])) {
      ++i;
      continue;
    }
    std::size_t end = i;
    while (end < code.size() && isWord(code[end])) ++end;
    const std::string_view word = std::string_view(code).substr(i, end - i);
    const bool member = (i >= 1 && code[i - 1] == '.') || (i >= 2 && code[i - 2] == '-' && code[i - 1] == '>');
    const auto next = code.find_first_not_of(" \t\n", end);
    const bool call = next != std::string::npos && code[next] == '(';
    const bool prints = std::ranges::find(kStreams, word) != kStreams.end() || (call && std::ranges::find(kCalls, word) != kCalls.end());
    const bool to_terminal = word == "write" && call && (code.substr(next).starts_with("(STDOUT") || code.substr(next).starts_with("(STDERR"));
    if (!member && (prints || to_terminal)) wrong.push_back(where(file, line) + "prints or exits: " + std::string(word));
    i = end;
  }
  return wrong;
}

Complaints parserElsewhere(const SourceFile& file) {
  Complaints wrong;
  if (file.path == "src/cli/arguments.cpp") return wrong;
  for (const Include& include : includesOf(file.text))
    if (include.name.starts_with("CLI/")) wrong.push_back(where(file, include.line) + "includes the option parser: " + include.name);
  return wrong;
}

Complaints videoElsewhere(const SourceFile& file) {
  Complaints wrong;
  if (roomOf(file.path) == "frames") return wrong;
  for (const Include& include : includesOf(file.text))
    if (include.name.starts_with("opencv2/videoio") || include.name == "opencv2/opencv.hpp" || include.name.starts_with("frames/"))
      wrong.push_back(where(file, include.line) + "includes the video library, or the module that holds it: " + include.name);
  return wrong;
}

Complaints cmakeDisagrees(const std::string& room, const std::map<std::string, std::string>& cmake_by_room,
                          const std::vector<SourceFile>& files, const Arrows& arrows) {
  const auto cmake = cmake_by_room.find(room);
  if (cmake == cmake_by_room.end()) return {"src/" + room + " has no CMakeLists.txt"};
  Complaints wrong;
  Arrows told;
  for (const auto& [name, text] : cmake_by_room) told[name] = usesInCMake(name, text);
  const auto allowed = reach(arrows, room);
  for (const std::string& use : told[room])
    if (!allowed.contains(use)) wrong.push_back("src/" + room + "/CMakeLists.txt uses upward: " + use);
  const auto covered = reach(told, room);
  for (const SourceFile& file : files) {
    if (roomOf(file.path) != room) continue;
    for (const Include& include : includesOf(file.text))
      if (const std::string other = folderOf(include.name); arrows.contains(other) && !covered.contains(other))
        wrong.push_back(where(file, include.line) + "includes " + include.name + ", which src/" + room + "/CMakeLists.txt does not use");
  }
  return wrong;
}

Complaints withoutTest(const std::vector<std::string>& paths) {
  std::vector<std::string> stems;  // "tests/photo/jpeg" of "src/photo/jpeg.cpp"
  for (const std::string& path : paths)
    if (!roomOf(path).empty() && path.ends_with(".cpp") && !isProgram(path)) stems.push_back("tests/" + path.substr(4, path.size() - 8));
  std::set<std::string> tested;
  for (const std::string& path : paths) {
    if (!path.ends_with("_test.cpp")) continue;
    // jpeg_reader_odd_test.cpp belongs to jpeg_reader.cpp, and to jpeg.cpp only if there is none.
    const std::string* owner = nullptr;
    for (const std::string& stem : stems)
      if (path.starts_with(stem + "_") && (owner == nullptr || stem.size() > owner->size())) owner = &stem;
    if (owner != nullptr) tested.insert(*owner);
  }
  Complaints wrong;
  for (const std::string& stem : stems)
    if (!tested.contains(stem)) wrong.push_back("src" + stem.substr(5) + ".cpp has no test: " + stem + "_test.cpp");
  return wrong;
}

}  // namespace huewright::shape
