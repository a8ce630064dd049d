#include "mix/least_squares.hpp"

#include <ceres/ceres.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <functional>

namespace huewright {
namespace {

using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

class TaskCost final : public ceres::CostFunction {
 public:
  explicit TaskCost(const LeastSquaresTask& task) : task_(task) {
    set_num_residuals(static_cast<int>(task.residuals));
    mutable_parameter_block_sizes()->push_back(static_cast<int>(task.start.size()));
  }
  bool Evaluate(double const* const* blocks, double* residuals, double** jacobians) const override {
    const std::size_t n = task_.start.size();
    double* jacobian = jacobians == nullptr ? nullptr : jacobians[0];
    const std::span<double> r(residuals, task_.residuals), j(jacobian, jacobian == nullptr ? 0 : n * task_.residuals);
    // The solver writes what is not finite to standard error; what is not defined it only steps back from.
    const auto finite = [](double v) { return std::isfinite(v); };
    return task_.evaluate({blocks[0], n}, r, j) && std::ranges::all_of(r, finite) && std::ranges::all_of(j, finite);
  }

 private:
  const LeastSquaresTask& task_;
};

/// One search, the held unknowns fixed.
void solveWithHeld(const LeastSquaresTask& task, const std::vector<bool>& held, LeastSquaresFit& fit) {
  std::vector<int> fixed;
  for (std::size_t i = 0; i < held.size(); ++i)
    if (held[i]) fixed.push_back(static_cast<int>(i));
  if (fixed.size() == held.size()) return;
  ceres::Problem problem;
  problem.AddResidualBlock(new TaskCost(task), nullptr, fit.x.data());
  if (!fixed.empty()) problem.SetManifold(fit.x.data(), new ceres::SubsetManifold(static_cast<int>(held.size()), fixed));
  ceres::Solver::Options options;
  options.logging_type = ceres::SILENT;
  options.linear_solver_type = ceres::DENSE_QR;
  options.max_num_iterations = task.max_steps;
  options.function_tolerance = 1e-15;
  options.parameter_tolerance = 1e-15;
  options.gradient_tolerance = 1e-12;
  options.num_threads = 1;
  ceres::Solver::Summary summary;
  ceres::Solve(options, &problem, &summary);
  fit.converged = summary.termination_type == ceres::CONVERGENCE;
  fit.steps += static_cast<int>(summary.iterations.size());
}

/// Holds what lies below its bound, lets go what the gradient pulls above it. False: nothing changed.
bool adjustHeld(const LeastSquaresTask& task, std::vector<bool>& held, std::vector<double>& x) {
  bool changed = false;
  for (std::size_t i = 0; i < task.lower.size(); ++i)
    if (!held[i] && x[i] < task.lower[i]) {
      x[i] = task.lower[i];
      held[i] = changed = true;
    }
  if (changed || std::ranges::none_of(held, std::identity{})) return changed;
  const std::size_t n = x.size();
  std::vector<double> residuals(task.residuals), jacobian(task.residuals * n);
  if (!task.evaluate(x, residuals, jacobian)) return false;
  for (std::size_t i = 0; i < n; ++i) {
    double gradient = 0;
    for (std::size_t r = 0; held[i] && r < task.residuals; ++r) gradient += residuals[r] * jacobian[r * n + i];
    if (gradient < 0) {
      held[i] = false;
      changed = true;
    }
  }
  return changed;
}

}  // namespace

Result<LeastSquaresFit> leastSquares(const LeastSquaresTask& task) {
  LeastSquaresFit fit;
  fit.x = task.start;
  const std::size_t n = fit.x.size();
  std::vector<double> residuals(task.residuals);
  if (!task.evaluate(fit.x, residuals, {}) || !std::ranges::all_of(residuals, [](double r) { return std::isfinite(r); }))
    return fail(Code::Internal, "the fit has no start");

  // Active set: what would run below its bound is held there, and let go again when the sum would fall above it.
  std::vector<bool> held(n, false);
  for (std::size_t round = 0; round <= 2 * n; ++round) {
    solveWithHeld(task, held, fit);
    if (!adjustHeld(task, held, fit.x)) break;
  }

  std::vector<double> jacobian(task.residuals * n);
  if (!task.evaluate(fit.x, residuals, jacobian)) return fail(Code::Internal, "the fit has no end");
  for (const double r : residuals) fit.sum_of_squares += r * r;
  // Columns are brought to length 1 first, so that the rank is judged without regard to the unknowns' units.
  Eigen::MatrixXd j = Eigen::Map<RowMajor>(jacobian.data(), static_cast<Eigen::Index>(task.residuals), static_cast<Eigen::Index>(n));
  const Eigen::VectorXd scale = j.colwise().norm().transpose();
  if (task.residuals < n || !(scale.minCoeff() > 0) || !j.allFinite()) return fail(Code::Internal, "an unknown of the fit has no effect");
  j = j * scale.cwiseInverse().asDiagonal();
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(j);
  const Eigen::MatrixXd r = qr.matrixR().topRows(static_cast<Eigen::Index>(n)).triangularView<Eigen::Upper>();
  if (!(r.diagonal().cwiseAbs().minCoeff() > 1e-12 * r.diagonal().cwiseAbs().maxCoeff())) return fail(Code::Internal, "unknowns of the fit cannot be told apart");
  // J P = Q R, so (JᵀJ)⁻¹ = P R⁻¹ R⁻ᵀ Pᵀ.
  const Eigen::MatrixXd root = r.triangularView<Eigen::Upper>().solve(Eigen::MatrixXd::Identity(static_cast<Eigen::Index>(n), static_cast<Eigen::Index>(n)));
  const Eigen::MatrixXd half = scale.cwiseInverse().asDiagonal() * (qr.colsPermutation() * root);
  fit.covariance.resize(n * n);
  Eigen::Map<RowMajor>(fit.covariance.data(), static_cast<Eigen::Index>(n), static_cast<Eigen::Index>(n)) = half * half.transpose();
  return fit;
}

}  // namespace huewright
