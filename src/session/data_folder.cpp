#include "session/data_folder.hpp"

#include <cstdlib>

namespace huewright {

namespace fs = std::filesystem;

namespace {

/// A folder of that name in ../share/huewright, seen from the running program's own folder.
Result<fs::path> besideTheProgram(const char* name) {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  fs::path folder = program.parent_path().parent_path() / "share/huewright" / name;
  if (!error && fs::is_directory(folder, error)) return folder;
  return fail(Code::DataMissing, folder.string());
}

}  // namespace

Result<fs::path> findCalib() {
  std::error_code error;
  if (const char* told = std::getenv("HUEWRIGHT_DATA"); told && *told) {
    if (fs::is_directory(told, error)) return fs::path(told);
    return fail(Code::DataMissing, told);
  }
  return besideTheProgram("calib");
}

Result<fs::path> findSamples() { return besideTheProgram("samples"); }

}  // namespace huewright
