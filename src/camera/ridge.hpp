// Linear least squares with a ridge, and what each observation looks like when it is left out.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace huewright {

/// Rows of an overdetermined linear system, and which of them belong together.
struct LinearSystem {
  std::size_t columns = 0;
  std::vector<double> a;            ///< row by row, weights already multiplied in
  std::vector<double> b;            ///< one value a row, weighted alike
  std::vector<std::size_t> group;   ///< per row: rows with the same number are left out together; empty: each row by itself

  std::size_t rows() const { return b.size(); }
};

struct RidgeFit {
  std::vector<double> solution;
  std::vector<double> residual;      ///< a·solution − b, per row
  std::vector<double> left_out;      ///< the same when the row's group takes no part in the fit; exact for a fixed penalty
  std::vector<double> inverse_root;  ///< columns × columns, row by row: C with C·Cᵀ = (aᵀa + penalty)⁻¹; upper triangular
};

/// Minimises |a·x − b|² + Σ penalty_i·x_i². In: penalty as long as columns, >= 0, or empty for none.
/// Accuracy: by Householder's QR of the scaled, extended system, so that the condition number is not squared: nine digits of the NIST set Longley.
/// Nothing when the system does not settle all unknowns, or a group alone settles one (it cannot be left out).
/// Source: Björck, Numerical Methods for Least Squares Problems (1996); left-out residuals by the blocks of the hat matrix, (I − H_gg)⁻¹·residual_g
/// (Cook and Weisberg, Residuals and Influence in Regression, 1982).
std::optional<RidgeFit> solveRidge(const LinearSystem& system, std::span<const double> penalty = {});

}  // namespace huewright
