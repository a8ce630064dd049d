// Films written on the spot by a program of its own (tests/frames/make_films.cpp).
#pragma once

#include <cstdlib>
#include <filesystem>
#include <string>

#include "support/temp_dir.hpp"

namespace huewright::fixtures {

/// film.avi and film.mkv of so many moving pictures in a folder of their own. False, and no files, where OpenCV's videoio is not installed.
inline bool makeFilms(const TempDir& folder, int pictures) {
#ifdef HUEWRIGHT_MAKE_FILMS
  const std::string command = "'" HUEWRIGHT_MAKE_FILMS "' '" + folder.path().string() + "' " + std::to_string(pictures) + " >/dev/null";
  return std::system(command.c_str()) == 0 && std::filesystem::exists(folder.path() / "film.avi") && std::filesystem::exists(folder.path() / "film.mkv");
#else
  return folder.path().empty() && pictures < 0;
#endif
}

}  // namespace huewright::fixtures
