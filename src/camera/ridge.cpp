#include "camera/ridge.hpp"

#include <Eigen/Cholesky>
#include <Eigen/QR>
#include <cmath>
#include <map>

namespace huewright {
namespace {

using Eigen::Index;
using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

constexpr double kSettled = 1e-12;  // smallest diagonal entry of R in the scaled system; Longley's is about 1e-4, Wampler's 1e-6

std::vector<double> plain(const Eigen::VectorXd& v) { return {v.data(), v.data() + v.size()}; }

}  // namespace

std::optional<RidgeFit> solveRidge(const LinearSystem& system, std::span<const double> penalty) {
  const auto m = static_cast<Index>(system.rows()), n = static_cast<Index>(system.columns);
  if (n == 0 || m + static_cast<Index>(penalty.empty() ? 0 : n) < n) return {};
  const Eigen::Map<const Rows> a(system.a.data(), m, n);
  const Eigen::Map<const Eigen::VectorXd> b(system.b.data(), m);

  // The penalty as further rows; columns scaled to length one.
  Eigen::MatrixXd extended = Eigen::MatrixXd::Zero(m + n, n);
  extended.topRows(m) = a;
  for (Index i = 0; i < n && !penalty.empty(); ++i) extended(m + i, i) = std::sqrt(penalty[static_cast<std::size_t>(i)]);
  const Eigen::VectorXd scale = extended.colwise().norm();
  if (!scale.allFinite() || !b.allFinite() || scale.minCoeff() <= 0) return {};
  extended *= scale.cwiseInverse().asDiagonal();
  const Eigen::HouseholderQR<Eigen::MatrixXd> qr(extended);
  const Eigen::MatrixXd r = qr.matrixQR().topRows(n).triangularView<Eigen::Upper>();
  if (r.diagonal().cwiseAbs().minCoeff() < kSettled) return {};

  Eigen::VectorXd wanted = Eigen::VectorXd::Zero(m + n);
  wanted.head(m) = b;
  const Eigen::VectorXd rotated = qr.householderQ().transpose() * wanted;
  const Eigen::VectorXd x = scale.cwiseInverse().asDiagonal() * r.triangularView<Eigen::Upper>().solve(rotated.head(n)).eval();
  const Rows root = scale.cwiseInverse().asDiagonal() * r.triangularView<Eigen::Upper>().solve(Eigen::MatrixXd::Identity(n, n)).eval();
  const Eigen::VectorXd residual = a * x - b;
  const Eigen::MatrixXd q = a * root;  // the hat matrix is q·qᵀ

  std::map<std::size_t, std::vector<Index>> groups;
  for (Index i = 0; i < m; ++i)
    groups[system.group.empty() ? static_cast<std::size_t>(i) : system.group[static_cast<std::size_t>(i)]].push_back(i);
  Eigen::VectorXd left_out(m);
  for (const auto& [name, rows] : groups) {
    const Eigen::MatrixXd part = q(rows, Eigen::all);
    const auto size = static_cast<Index>(rows.size());
    const Eigen::LDLT<Eigen::MatrixXd> rest(Eigen::MatrixXd::Identity(size, size) - part * part.transpose());
    if (rest.vectorD().minCoeff() < kSettled) return {};
    const Eigen::VectorXd out = rest.solve(residual(rows).eval());
    for (Index i = 0; i < size; ++i) left_out(rows[static_cast<std::size_t>(i)]) = out(i);
  }
  return RidgeFit{plain(x), plain(residual), plain(left_out), {root.data(), root.data() + root.size()}};
}

}  // namespace huewright
