// Nonlinear least squares with bounds: the one place that knows the solver.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "base/problem.hpp"

namespace huewright {

struct LeastSquaresTask {
  /// Fills the residuals and, unless its span is empty, their derivatives row by row (residuals × unknowns). False: not defined there.
  std::function<bool(std::span<const double> x, std::span<double> residuals, std::span<double> jacobian)> evaluate;
  std::size_t residuals = 0;
  std::vector<double> start;
  std::vector<double> lower;      ///< as long as start, or empty: no bounds
  int max_steps = 200;
};

struct LeastSquaresFit {
  std::vector<double> x;
  double sum_of_squares = 0;
  std::vector<double> covariance; ///< (JᵀJ)⁻¹ at x, row by row; times the residuals' variance it is that of x
  bool converged = false;
  int steps = 0;
};

/// Levenberg-Marquardt (Ceres Solver, dense QR). Stops at relative changes of 1e-15 or a gradient of 1e-12.
/// Errors: Internal when the residuals are not defined at the start or the unknowns cannot be told apart (singular JᵀJ). Running out of steps is no
/// error, but `converged` is false. Accuracy: seven digits on a NIST set of higher difficulty, see the test.
/// Bounds are kept by an active set.
Result<LeastSquaresFit> leastSquares(const LeastSquaresTask& task);

}  // namespace huewright
