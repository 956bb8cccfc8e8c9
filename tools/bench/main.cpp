// SPDX-License-Identifier: MIT
// Work (processor time) against precision of our solver and of others on the same wheel; growth with the mesh and with
// the session; plans of a cool-down; convergence with the mesh. Names are GROUP|METHOD|SETTING; write_page.py reads
// them.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cmath>
#include <deque>
#include <exception>

#include "tests/sim/network/mesh_order.hpp"
#include "tools/bench/cooldown.hpp"
#include "tools/bench/tableaus.hpp"
#include "tools/bench/wheel_run.hpp"

namespace hatring::bench {
namespace {

using network::MeshCounts;

constexpr double kDefault = 0.02;  // tolerance of our program [K]

struct Subject {
  Subject(const MeshCounts& mesh, double duration, const Method& exact) : run(mesh, duration), reference(run) {
    exact.solve(run, reference);
  }
  WheelRun run;
  Tape reference;
};

void add(const std::string& group, const Subject& subject, const Method& method) {
  benchmark::RegisterBenchmark(fmt::format("{}|{}|{}", group, method.name, method.setting).c_str(),
                               [&subject, method](benchmark::State& state) {
                                 Tape tape(subject.run);
                                 Work work;
                                 for (auto _ : state) {
                                   tape = Tape(subject.run);
                                   work = method.solve(subject.run, tape);
                                 }
                                 state.counters["nodes"] = subject.run.nodes();
                                 state.counters["nodes_once"] = subject.run.nodes_once();
                                 state.counters["minutes"] = subject.run.duration() / 60;
                                 state.counters["scenarios"] = method.scenarios;
                                 state.counters["error"] = tape.error(subject.reference);
                                 state.counters["steps"] = static_cast<double>(work.steps);
                                 state.counters["rates"] = static_cast<double>(work.rates);
                               })
      ->Unit(benchmark::kMillisecond);
}

void add_work(const Subject& s) {
  for (const auto* tableau : {&solve::ros34pw2(), &solve::rodas3(), &ros2(), &ros4()})
    for (const double tolerance : {0.3, 0.1, 0.05, 0.03, 0.02, 0.01, 0.003, 0.001})
      add("work", s, ours(*tableau, tolerance));
  add("work", s, as_run(kDefault));
  for (const int scenarios : {4, 8}) add("work", s, lanes_as_run(scenarios, kDefault));
  add("work", s, lanes_as_run(8, kDefault, true));
  for (const Linear linear : {Linear::dense, Linear::klu})
    for (const double tolerance : {0.01, 0.003, 0.001, 3e-4, 1e-4}) add("work", s, cvode(linear, tolerance));
  for (const double tolerance : {0.1, 0.03, 0.01, 0.001, 1e-4}) add("work", s, dopri5(tolerance));
  for (const double tolerance : {0.1, 0.03, 0.01, 0.003, 0.001, 3e-4}) add("work", s, rkc(s.run, tolerance));
  const int least = stable_rk4(s.run, s.reference);
  for (const int times : {1, 2, 3, 5}) add("work", s, rk4(times * least));
}

// Meshes of about 15, 45, 150 and 500 nodes, each part cut about alike.
constexpr MeshCounts kSizes[] = {
    {.lump = true, .layers = 1, .inner_bands = 0, .swept_bands = 1, .bell = 1, .pad_layers = 3},
    {.layers = 3, .inner_bands = 1, .swept_bands = 2, .bell = 4, .pad_layers = 4},
    {.layers = 6, .inner_bands = 2, .swept_bands = 7, .bell = 8, .pad_layers = 8},
    {.layers = 12, .inner_bands = 4, .swept_bands = 14, .bell = 16, .pad_layers = 16}};
constexpr double kMinutes[] = {5, 20, 60, 180};
constexpr double kSession = 1200;           // [s]
constexpr int kTooManyForEqualSteps = 200;  // nodes: Runge-Kutta 4 would take half a minute

void add_growth(std::deque<Subject>& subjects) {
  for (const MeshCounts& mesh : kSizes) {
    const Subject& s = subjects.emplace_back(mesh, kSession, ours(solve::ros34pw2(), 3e-4));
    add("growth", s, ours(solve::ros34pw2(), kDefault));
    add("growth", s, as_run(kDefault));
    add("growth", s, cvode(Linear::klu, 0.001));
    if (s.run.nodes() < kTooManyForEqualSteps) add("growth", s, rk4(stable_rk4(s.run, s.reference)));
  }
  for (const double minutes : kMinutes) {
    const Subject& s = subjects.emplace_back(network::mesh_counts(session::Mesh::standard), 60 * minutes,
                                             ours(solve::ros34pw2(), 1e-3));
    add("length", s, ours(solve::ros34pw2(), kDefault));
  }
}

// Error of the face temperature of a slab against its Fourier series.
void add_convergence() {
  for (int layers = 4; layers <= 64; layers *= 2)
    benchmark::RegisterBenchmark(fmt::format("convergence|slab|{}", layers).c_str(), [layers](benchmark::State& state) {
      double rise = 0;
      for (auto _ : state) rise = test::slab_face_rise(layers);
      state.counters["error"] = std::abs(rise / test::slab_face_rise_exact() - 1);
    });
}

}  // namespace
}  // namespace hatring::bench

int main(int argc, char** argv) {
  using namespace hatring;
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  try {
    std::deque<bench::Subject> subjects;
    bench::add_work(
        subjects.emplace_back(network::mesh_counts(session::Mesh::standard), bench::kSession, bench::dopri5(1e-5)));
    bench::add_growth(subjects);
    bench::add_cooldown("configs/demo.yaml");
    bench::add_convergence();
    benchmark::RunSpecifiedBenchmarks();
  } catch (const std::exception& e) {
    fmt::print(stderr, "hatring_bench: {}\n", e.what());
    return 1;
  }
}
