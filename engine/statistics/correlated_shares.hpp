#pragma once

#include <Eigen/Core>
#include <vector>

namespace dullcast::statistics {

/// The symmetric root of a correlation matrix; what rounding makes of a 0 counts as 0.
Eigen::MatrixXd correlation_root(const Eigen::MatrixXd& correlation);

/// Makes independent shares (uniform in 0..1) go together as normal variables of that correlation do, each
/// uniform still: u' = F(R^(1/2) F^-1(u)), F the normal law (a normal copula [hb: Joe, Dependence Modeling
/// with Copulas, 2014]). A share whose row of the root is that of the identity stays as it is to the last
/// bit. Throws std::invalid_argument for sizes that do not agree.
void make_go_together(std::vector<double>& shares, const Eigen::MatrixXd& root);

}  // namespace dullcast::statistics
