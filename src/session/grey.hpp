// Measures the user's own grey patch beside a colour chart, and keeps it. Free of any command line or window.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/caution.hpp"
#include "session/kept_grey.hpp"
#include "session/session.hpp"

namespace huewright {

struct GreyRequest {
  std::filesystem::path photo;
  std::optional<Quad> grey;                ///< where the patch lies, upright full-size pixels
  ChartUse chart_use = ChartUse::Auto;     ///< None is no choice here
  std::optional<Quad> chart;               ///< Here: outer corners of the chart's corner patches
  std::optional<std::filesystem::path> chart_data;
  Encoding encoding = Encoding::Auto;
  std::filesystem::path out;               ///< a .json file; one that is there is replaced
  Limits limits;
};

struct GreyReport {
  KeptGrey grey;                           ///< as it was kept
  std::vector<std::string> sentences;      ///< what was measured, and that it is fit for a grey
  std::vector<Caution> cautions;
};

/// Finds the chart, measures the patch against it, and keeps it if it is fit for a grey. Checks the request before any file is opened.
/// Errors: NoPhoto, NoGrey, BadChoice; of Photo and arrange; ChartNotFound, ChartDataUnusable, NoProfile; GreyUnfit with what is wrong and what to do;
/// WriteFailed. Nothing is kept then, and what was kept before stays.
Result<GreyReport> measureGrey(const GreyRequest& request, const std::filesystem::path& calib);

}  // namespace huewright
