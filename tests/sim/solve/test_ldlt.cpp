// SPDX-License-Identifier: MIT
#include <Eigen/Cholesky>
#include <catch2/catch.hpp>
#include <random>

#include "sim/solve/ldlt.hpp"

namespace hatring::solve {
namespace {

// Conductances on a random graph, as the networks have them, with a positive diagonal on top.
struct Problem {
  std::vector<std::pair<int, int>> pairs;
  Eigen::MatrixXd dense;
  Eigen::VectorXd diagonal, right;
};

Problem random_problem(int size, double density, std::mt19937& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  Problem p;
  p.dense = Eigen::MatrixXd::Zero(size, size);
  for (int i = 0; i < size; ++i)
    for (int j = 0; j < i; ++j) {
      if (unit(random) > density) continue;
      p.pairs.emplace_back(unit(random) < 0.5 ? std::pair{i, j} : std::pair{j, i});
      const double g = std::pow(10.0, 4 * unit(random) - 2);
      p.dense(i, i) += g;
      p.dense(j, j) += g;
      p.dense(i, j) = p.dense(j, i) = -g;
    }
  p.diagonal = Eigen::VectorXd::NullaryExpr(size, [&] { return 0.01 + unit(random); });
  p.right = Eigen::VectorXd::NullaryExpr(size, [&] { return 2 * unit(random) - 1; });
  return p;
}

void fill(SparseLdlt& sparse, const Problem& p) {
  sparse.values().setZero();
  for (int i = 0; i < sparse.size(); ++i) sparse.values()[sparse.slot(i, i)] = p.dense(i, i);
  for (const auto& [i, j] : p.pairs) sparse.values()[sparse.slot(i, j)] = p.dense(i, j);
}

}  // namespace

TEST_CASE("sparse LDLt agrees with Eigen's dense LDLt on random sparse positive definite matrices") {
  std::mt19937 random(7);
  for (int size = 1; size <= 80; ++size) {
    for (const double density : {0.0, 2.0 / size, 0.2, 1.0}) {
      const Problem p = random_problem(size, density, random);
      SparseLdlt sparse(size, p.pairs);
      fill(sparse, p);
      const Eigen::VectorXd before = sparse.values();
      REQUIRE(sparse.factorise(p.diagonal));
      CHECK(sparse.values() == before);
      Eigen::VectorXd x = p.right;
      sparse.solve(x);
      Eigen::MatrixXd full = p.dense;
      full.diagonal() += p.diagonal;
      const Eigen::VectorXd expected = full.ldlt().solve(p.right);
      CAPTURE(size, density);
      CHECK((x - expected).norm() <= 1e-10 * expected.norm());
    }
  }
}

TEST_CASE("sparse LDLt does not depend on the order, direction or repetition of the pairs given") {
  std::mt19937 random(11);
  const Problem p = random_problem(20, 0.2, random);
  std::vector<std::pair<int, int>> untidy = p.pairs;
  for (const auto& [i, j] : p.pairs) untidy.emplace_back(j, i);
  untidy.emplace_back(3, 3);
  SparseLdlt tidy(20, p.pairs), other(20, untidy);
  CHECK(tidy.entries() == other.entries());
  fill(tidy, p);
  fill(other, p);
  REQUIRE(tidy.factorise(p.diagonal));
  REQUIRE(other.factorise(p.diagonal));
  Eigen::VectorXd x = p.right, y = p.right;
  tidy.solve(x);
  other.solve(y);
  CHECK((x - y).norm() <= 1e-12 * x.norm());
}

TEST_CASE("minimum degree keeps a tree free of fill whatever its numbering") {
  // A star numbered with its centre first would fill completely if eliminated in the given order.
  std::vector<std::pair<int, int>> star;
  for (int i = 1; i < 30; ++i) star.emplace_back(0, i);
  CHECK(SparseLdlt(30, star).entries() == 29);
}

TEST_CASE("slot finds both orders of a pair and refuses what is not in the pattern") {
  const SparseLdlt m(4, {{0, 1}, {2, 1}});
  CHECK(m.slot(2, 2) == 2);
  CHECK(m.slot(0, 1) == m.slot(1, 0));
  CHECK(m.slot(1, 2) >= 4);
  CHECK_THROWS_AS(m.slot(0, 3), std::out_of_range);
  CHECK_THROWS_AS(m.slot(0, 4), std::out_of_range);
  CHECK_THROWS_AS(m.slot(-1, 0), std::out_of_range);
  CHECK_THROWS_AS(m.slot(4, 4), std::out_of_range);
}

TEST_CASE("factorise refuses a pivot that is zero, negative or not a number") {
  SparseLdlt m(2, {{0, 1}});
  m.values() << 1, 1, -1;  // singular without a diagonal on top
  CHECK(m.factorise(Eigen::Vector2d(0.1, 0.1)));
  CHECK_FALSE(m.factorise(Eigen::Vector2d(0, 0)));
  CHECK_FALSE(m.factorise(Eigen::Vector2d(-3, 0)));
  CHECK_FALSE(m.factorise(Eigen::Vector2d(std::nan(""), 1)));
  CHECK_FALSE(m.factorise(Eigen::Vector2d(1, INFINITY)));
}

}  // namespace hatring::solve
