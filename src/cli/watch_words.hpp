// What a watch is told, whether it watches a folder or a camera.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "base/problem.hpp"
#include "cli/arguments.hpp"

namespace huewright {

struct WatchWords {
  std::optional<std::size_t> count;            ///< verdicts after which it ends
  bool json = false, explain = false, gate = false;
};

/// In: what is counted, as "photos". Errors: BadNumber.
Result<WatchWords> watchWords(const Arguments& arguments, std::string_view counted);

}  // namespace huewright
