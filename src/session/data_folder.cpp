#include "session/data_folder.hpp"

#include <cstdlib>

namespace huewright {

namespace fs = std::filesystem;

Result<fs::path> findCalib() {
  std::error_code error;
  if (const char* told = std::getenv("HUEWRIGHT_DATA"); told && *told) {
    if (fs::is_directory(told, error)) return fs::path(told);
    return fail(Code::DataMissing, told);
  }
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  const fs::path calib = program.parent_path().parent_path() / "share/huewright/calib";
  if (!error && fs::is_directory(calib, error)) return calib;
  return fail(Code::DataMissing, calib.string());
}

}  // namespace huewright
