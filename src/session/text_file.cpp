#include "session/text_file.hpp"

#include "photo/file_bytes.hpp"

namespace huewright {

Result<std::string> readTextFile(const std::filesystem::path& path, Code code) {
  Limits limits;
  limits.file_bytes = 4U << 20;
  const auto bytes = FileBytes::read(path, limits);
  if (!bytes) {
    const std::string name = "\"" + path.string() + "\"";
    switch (bytes.error().code) {
      case Code::FileMissing: return fail(code, "there is no file " + name);
      case Code::FileEmpty: return fail(code, name + " is empty");
      case Code::FileIsFolder: return fail(code, name + " is a folder");
      case Code::PhotoTooLarge: return fail(code, name + " is too large for one");
      default: return fail(code, name + " cannot be opened");
    }
  }
  return std::string(reinterpret_cast<const char*>(bytes->bytes().data()), bytes->bytes().size());
}

}  // namespace huewright
