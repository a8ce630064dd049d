// Which photos of a watched folder have their verdict, whatever they are called.
#pragma once

#include <expected>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace huewright {

class JudgedList {
 public:
  /// The name of its file, in the folder.
  static constexpr std::string_view kFileName = ".huewright-judged.json";

  /// Reads text() back, strictly: an unknown field, a sum that is none or stands twice: each is a mistake. Errors: why not, as "it is not JSON".
  static std::expected<JudgedList, std::string> parse(std::string_view text);

  /// JSON, one photo a line, sorted by sum, with a final newline. Text that is no UTF-8 gets a sign in its place.
  std::string text() const;

  /// The names that a content has borne, oldest first; nullptr where it was not judged.
  const std::vector<std::string>* namesOf(const std::string& sum) const;

  /// Notes a name of a content. In: SHA-256 as sha256() gives it. False when it was there.
  bool add(const std::string& sum, const std::string& name);

  /// Takes in what the other list holds.
  void add(const JudgedList& other);

  std::size_t size() const { return names_.size(); }

 private:
  std::map<std::string, std::vector<std::string>> names_;
};

}  // namespace huewright
