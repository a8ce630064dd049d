// Where the program's data files are.
#pragma once

#include <filesystem>

#include "base/problem.hpp"

namespace huewright {

/// The calib folder: $HUEWRIGHT_DATA if set, else ../share/huewright/calib beside the running program's folder.
/// Errors: DataMissing.
Result<std::filesystem::path> findCalib();

/// The folder of the sample job, ../share/huewright/samples likewise: on-the-mat.jpg, with-chart.jpg and teal-series.json. Errors: DataMissing.
Result<std::filesystem::path> findSamples();

}  // namespace huewright
