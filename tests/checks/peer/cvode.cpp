// SPDX-License-Identifier: MIT
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <memory>
#include <stdexcept>
#include <string>

#include "tests/checks/peer/wheel_peer.hpp"

namespace hatring::test {
namespace {

constexpr double kTooClose = 1e-9;  // to a restart for CVODE to move at all [s]

void check(int flag, const char* what) {
  if (flag < 0) throw std::runtime_error(std::string("CVODE: ") + what + " returned " + std::to_string(flag));
}

int peer_rates(realtype t, N_Vector y, N_Vector dydt, void* peer) {
  static_cast<const WheelPeer*>(peer)->rates(t, N_VGetArrayPointer(y), N_VGetArrayPointer(dydt));
  return 0;
}

}  // namespace

std::vector<std::vector<double>> WheelPeer::solve(const std::vector<double>& restarts,
                                                  const std::vector<double>& outputs) {
  const auto n = static_cast<sunindextype>(network_.nodes.size());
  SUNContext context = nullptr;
  check(SUNContext_Create(nullptr, &context), "SUNContext_Create");
  N_Vector y = N_VNew_Serial(n, context);
  for (sunindextype i = 0; i < n; ++i) NV_Ith_S(y, i) = network_.nodes[static_cast<std::size_t>(i)].temperature;
  SUNMatrix matrix = SUNDenseMatrix(n, n, context);
  SUNLinearSolver solver = SUNLinSol_Dense(y, matrix, context);
  void* memory = CVodeCreate(CV_BDF, context);
  begin_ = restarts[0];
  end_ = restarts[1];
  check(CVodeInit(memory, peer_rates, begin_, y), "CVodeInit");
  check(CVodeSetUserData(memory, this), "CVodeSetUserData");
  check(CVodeSStolerances(memory, 1e-9, 1e-6), "CVodeSStolerances");
  check(CVodeSetMaxNumSteps(memory, 1'000'000), "CVodeSetMaxNumSteps");
  check(CVodeSetLinearSolver(memory, solver, matrix), "CVodeSetLinearSolver");

  std::vector<std::vector<double>> out;
  auto next = outputs.begin();
  const auto record = [&] { out.emplace_back(N_VGetArrayPointer(y), N_VGetArrayPointer(y) + n); };
  for (std::size_t i = 0; i + 1 < restarts.size(); ++i) {
    begin_ = restarts[i];
    end_ = restarts[i + 1];
    if (i > 0) check(CVodeReInit(memory, begin_, y), "CVodeReInit");
    check(CVodeSetStopTime(memory, end_), "CVodeSetStopTime");
    realtype t = 0;
    for (; next != outputs.end() && *next < end_; ++next) {
      if (*next > begin_ + kTooClose) check(CVode(memory, *next, y, &t, CV_NORMAL), "CVode");
      record();
    }
    check(CVode(memory, end_, y, &t, CV_NORMAL), "CVode");
  }
  for (; next != outputs.end(); ++next) record();
  CVodeFree(&memory);
  SUNLinSolFree(solver);
  SUNMatDestroy(matrix);
  N_VDestroy(y);
  SUNContext_Free(&context);
  return out;
}

}  // namespace hatring::test
