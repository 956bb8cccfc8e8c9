// SPDX-License-Identifier: MIT
#include <cvode/cvode.h>
#include <fmt/format.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunmatrix/sunmatrix_sparse.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

#include "tools/bench/wheel_run.hpp"

namespace hatring::bench {
namespace {

constexpr double kTooClose = 1e-9;  // to a restart for CVODE to move at all [s]

void check(int flag, const char* what) {
  if (flag < 0) throw std::runtime_error(fmt::format("CVODE: {} returned {}", what, flag));
}

// The nodes alone are handed to CVODE: it needs no integrals.
struct Peer {
  LeanWheel wheel;
  solve::WheelSystem system;  // for the Jacobian
  Eigen::VectorXd x, f;       // as the system has them
  Linear linear;
  std::vector<std::pair<int, int>> entries;  // by column, rows rising
  std::vector<int> slots;                    // of the same entries in the matrix
  long rates = 0;

  void take(N_Vector y) { std::copy_n(N_VGetArrayPointer(y), system.nodes(), x.data()); }
};

int rates(realtype t, N_Vector y, N_Vector dydt, void* data) {
  Peer& p = *static_cast<Peer*>(data);
  p.wheel.rates(t, N_VGetArrayPointer(y), N_VGetArrayPointer(dydt));
  ++p.rates;
  return 0;
}

int jacobian(realtype t, N_Vector y, N_Vector, SUNMatrix j, void* data, N_Vector, N_Vector, N_Vector) {
  Peer& p = *static_cast<Peer*>(data);
  p.take(y);
  p.system.lanes().renew();  // the derivatives of here, not of somewhere near
  p.system.lanes().linearise(t, p.x, {}, p.f);
  const auto values = p.system.lanes().matrix();
  const auto capacity = p.system.lanes().capacity();
  SUNMatZero(j);
  if (p.linear == Linear::dense) {
    for (std::size_t k = 0; k < p.entries.size(); ++k)
      SM_ELEMENT_D(j, p.entries[k].first, p.entries[k].second) = -values[p.slots[k]] / capacity[p.entries[k].second];
    return 0;
  }
  int column = -1;
  for (std::size_t k = 0; k < p.entries.size(); ++k) {
    while (column < p.entries[k].second) SM_INDEXPTRS_S(j)[++column] = static_cast<sunindextype>(k);
    SM_INDEXVALS_S(j)[k] = p.entries[k].first;
    SM_DATA_S(j)[k] = -values[p.slots[k]] / capacity[p.entries[k].second];
  }
  SM_INDEXPTRS_S(j)[p.system.nodes()] = static_cast<sunindextype>(p.entries.size());
  return 0;
}

void find_entries(Peer& p, const network::Network& net) {
  std::vector<std::pair<int, int>> columns;
  const auto both = [&](int a, int b) {
    columns.emplace_back(a, b);
    columns.emplace_back(b, a);
  };
  for (int i = 0; i < net.size(); ++i) columns.emplace_back(i, i);
  for (const auto& l : net.links) both(l.a, l.b);
  for (const auto& r : net.rubbings) both(r.ring, r.pad);
  for (const auto& s : net.surfaces)
    if (s.air != network::kAmbient) both(s.node, s.air);
  for (const auto& r : net.radiations)
    if (r.b != network::kAmbient) both(r.a, r.b);
  std::sort(columns.begin(), columns.end());
  columns.erase(std::unique(columns.begin(), columns.end()), columns.end());
  for (const auto& [column, row] : columns) {
    p.entries.emplace_back(row, column);
    p.slots.push_back(p.system.lanes().factor().slot(row, column));
  }
}

Work solve_by_cvode(const WheelRun& run, Tape& tape, Linear linear, double absolute) {
  Peer p{run.lean(), run.system(), {}, {}, linear, {}, {}};
  p.x = p.f = p.system.initial_state();
  find_entries(p, p.system.network());
  const sunindextype n = p.system.nodes();

  SUNContext context = nullptr;
  check(SUNContext_Create(nullptr, &context), "SUNContext_Create");
  N_Vector y = N_VNew_Serial(n, context), tolerance = N_VNew_Serial(n, context);
  const Eigen::VectorXd per_kelvin = run.per_kelvin();
  for (sunindextype i = 0; i < n; ++i) {
    NV_Ith_S(y, i) = p.x[i];
    NV_Ith_S(tolerance, i) = absolute * per_kelvin[i];
  }
  void* memory = CVodeCreate(CV_BDF, context);
  check(CVodeInit(memory, rates, 0, y), "CVodeInit");
  check(CVodeSetUserData(memory, &p), "CVodeSetUserData");
  check(CVodeSVtolerances(memory, 1e-9, tolerance), "CVodeSVtolerances");
  check(CVodeSetMaxNumSteps(memory, 1'000'000), "CVodeSetMaxNumSteps");
  SUNMatrix matrix = linear == Linear::dense
                         ? SUNDenseMatrix(n, n, context)
                         : SUNSparseMatrix(n, n, static_cast<sunindextype>(p.entries.size()), CSC_MAT, context);
  SUNLinearSolver solver =
      linear == Linear::dense ? SUNLinSol_Dense(y, matrix, context) : SUNLinSol_KLU(y, matrix, context);
  check(CVodeSetLinearSolver(memory, solver, matrix), "CVodeSetLinearSolver");
  check(CVodeSetJacFn(memory, jacobian), "CVodeSetJacFn");

  auto next = run.outputs().begin();
  Work work;
  realtype t = 0;
  for (std::size_t i = 0; i + 1 < run.restarts().size(); ++i) {
    const double begin = run.restarts()[i], end = run.restarts()[i + 1];
    p.system.set_window(begin, end);
    p.wheel.set_window(begin, end);
    if (i > 0) {
      long steps = 0;
      CVodeGetNumSteps(memory, &steps);
      work.steps += steps;
      check(CVodeReInit(memory, begin, y), "CVodeReInit");
    }
    check(CVodeSetStopTime(memory, end), "CVodeSetStopTime");
    for (; next != run.outputs().end() && *next < end; ++next) {
      if (*next > begin + kTooClose) check(CVode(memory, *next, y, &t, CV_NORMAL), "CVode");
      p.take(y);
      tape.put(p.system, p.x);
    }
    // From an output back to where CVODE stands is no step: integrate on to the end of the stretch.
    check(CVode(memory, end, y, &t, CV_NORMAL), "CVode");
  }
  for (; next != run.outputs().end(); ++next) {
    p.take(y);
    tape.put(p.system, p.x);
  }
  long steps = 0;
  CVodeGetNumSteps(memory, &steps);
  work.steps += steps;
  work.rates = p.rates;
  CVodeFree(&memory);
  SUNLinSolFree(solver);
  SUNMatDestroy(matrix);
  N_VDestroy(y);
  N_VDestroy(tolerance);
  SUNContext_Free(&context);
  return work;
}

}  // namespace

Method cvode(Linear linear, double absolute) {
  return {linear == Linear::dense ? "CVODE BDF, dense" : "CVODE BDF, KLU", fmt::format("{} K", absolute),
          [=](const WheelRun& run, Tape& tape) { return solve_by_cvode(run, tape, linear, absolute); }};
}

}  // namespace hatring::bench
