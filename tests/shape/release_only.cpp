#include "shape/release_only.hpp"

#include <algorithm>
#include <regex>
#include <sstream>

namespace huewright::shape {
namespace {

struct LeftOut {
  std::string what, reason, line;
  bool isFile() const { return what.ends_with("_test.cpp"); }
};

std::vector<LeftOut> leftOutOf(const std::string& list) {
  std::vector<LeftOut> all;
  std::istringstream stream(list);
  for (std::string line; std::getline(stream, line);) {
    if (line.empty() || line.starts_with("#")) continue;
    std::istringstream words(line);
    LeftOut one{{}, {}, line};
    words >> one.what >> std::ws;
    std::getline(words, one.reason);
    all.push_back(one);
  }
  return all;
}

/// "photo/Jpeg.Reads": a case of a file of tests/photo.
bool isThere(const LeftOut& one, const std::vector<SourceFile>& tests) {
  if (one.isFile()) return std::ranges::any_of(tests, [&](const SourceFile& file) { return file.path == "tests/" + one.what; });
  static const std::regex form(R"((\w+)/(\w+)\.(\w+|\*))");
  std::smatch part;
  if (!std::regex_match(one.what, part, form)) return false;
  const std::regex declared("(^|\n)(TEST|TEST_F|TEST_P|TYPED_TEST)\\(" + part[2].str() + ", " + (part[3] == "*" ? "\\w+" : part[3].str()) + "\\)");
  const std::string folder = "tests/" + part[1].str() + "/";
  return std::ranges::any_of(tests, [&](const SourceFile& file) { return file.path.starts_with(folder) && std::regex_search(file.text, declared); });
}

}  // namespace

Complaints leftOutWrongly(const std::string& list, const std::vector<SourceFile>& tests) {
  Complaints complaints;
  for (const LeftOut& one : leftOutOf(list)) {
    if (!isThere(one, tests)) complaints.push_back("there is no test like " + one.what);
    if (one.reason.empty()) complaints.push_back(one.what + " has no reason beside it");
    if (one.line.find_first_of(";[]\\\"$\t") != std::string::npos) complaints.push_back("CMake would misread: " + one.line);
  }
  return complaints;
}

std::vector<std::string> withoutLeftOut(const std::string& list, const std::vector<std::string>& paths) {
  std::vector<std::string> left = paths;
  for (const LeftOut& one : leftOutOf(list))
    if (one.isFile()) std::erase(left, "tests/" + one.what);
  return left;
}

}  // namespace huewright::shape
