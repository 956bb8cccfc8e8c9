// SPDX-License-Identifier: MIT
// instruction_cases NAME: work whose instructions tests/instructions/check.py counts, with kernels that every x86-64
// machine and valgrind know. Only what happens inside counted() is counted.
#include <cstdio>
#include <exception>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"
#include "sim/network/assemble.hpp"
#include "sim/solve/integrate.hpp"
#include "tests/checks/track_session.hpp"

using namespace hatring;

// A name that valgrind can be told, counted* for the compiler's clones. What is left to do after the work keeps the
// call a call.
bool done = false;
extern "C" __attribute__((noinline)) void counted(const std::function<void()>& work) {
  work();
  done = true;
}

namespace {

// One wheel of the invented car, two hot laps, in every lane of a kernel.
template <class Real>
void solve_wheel(const session::Mesh mesh, const solve::WheelKernel<Real>& kernel) {
  const session::Case c = test::track_session(mesh, 2);
  const session::Drive drive(c);
  const network::Network net = network::assemble(c, session::Axle::front, 65);
  const auto count = static_cast<std::size_t>(kernel.lanes);
  solve::LaneSystem<Real> system(std::vector<const network::Network*>(count, &net),
                                 std::vector<solve::LoadFunction>(count, test::load_of(drive, session::Axle::front)),
                                 kernel);
  Eigen::VectorXd x = system.initial_state();
  counted([&] {
    (void)solve::integrate(system, drive.restarts(), {}, x, {}, solve::ros34pw2(),
                           [](double, const Eigen::VectorXd&) {});
  });
}

void answer_demo() {
  const session::Case c = io::read_case("configs/demo.yaml", {}).c;
  counted([&] { (void)answer::run(c); });
}

const std::map<std::string, std::function<void()>> kCases{
    {"one_scenario", [] { solve_wheel(session::Mesh::standard, solve::single_kernel()); }},
    {"four_scenarios", [] { solve_wheel(session::Mesh::standard, *solve::lanes_kernel(4)); }},
    {"fine_mesh", [] { solve_wheel(session::Mesh::fine, solve::single_kernel()); }},
    {"demo", answer_demo},
};

}  // namespace

int main(int argc, char** argv) {
  const auto found = kCases.find(argc > 1 ? argv[1] : "");
  if (found == kCases.end()) {
    for (const auto& [name, work] : kCases) std::puts(name.c_str());
    return argc > 1 ? 2 : 0;
  }
  (void)solve::limit_lanes(4);
  try {
    found->second();
  } catch (const std::exception& e) {
    std::fprintf(stderr, "%s: %s\n", argv[1], e.what());
    return 1;
  }
  return done ? 0 : 1;
}
