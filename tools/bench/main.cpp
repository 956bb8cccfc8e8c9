// SPDX-License-Identifier: MIT
// Work (processor time) against precision of our solver and of others on the same wheel, and growth with the mesh.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cmath>
#include <map>
#include <memory>

#include "tests/sim/network/mesh_order.hpp"
#include "tools/bench/wheel_run.hpp"

namespace hatring::bench {
namespace {

constexpr double kGoodEnough = 0.05;  // largest error that counts [K]

struct Subject {
  explicit Subject(session::Mesh mesh) : run(mesh), reference(run) { dopri5(1e-4).solve(run, reference); }
  WheelRun run;
  Tape reference;
};

void add(const std::string& group, const Subject& subject, const Method& method) {
  benchmark::RegisterBenchmark(
      fmt::format("{} ({} nodes)|{}|{}", group, subject.run.nodes(), method.name, method.setting).c_str(),
      [&subject, method](benchmark::State& state) {
        Tape tape(subject.run);
        Work work;
        for (auto _ : state) {
          tape = Tape(subject.run);
          work = method.solve(subject.run, tape);
        }
        state.counters["scenarios"] = method.scenarios;
        state.counters["error"] = tape.error(subject.reference);
        state.counters["steps"] = static_cast<double>(work.steps);
        state.counters["rates"] = static_cast<double>(work.rates);
      })
      ->Unit(benchmark::kMillisecond);
}

// One line a run as it comes; at the end, by group and method, the fastest setting that is good enough.
class Table : public benchmark::BenchmarkReporter {
 public:
  bool ReportContext(const Context&) override {
    fmt::print("{:<24} {:<28} {:>10} {:>10} {:>10} {:>9} {:>10}\n", "mesh", "method", "setting", "ms", "error K",
               "steps", "rates");
    return true;
  }
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& r : runs) {
      const std::string& name = r.run_name.function_name;
      const auto a = name.find('|'), b = name.rfind('|');
      const double ms = r.GetAdjustedCPUTime() / r.counters.at("scenarios"), error = r.counters.at("error");
      const std::string group = name.substr(0, a), method = name.substr(a + 1, b - a - 1), setting = name.substr(b + 1);
      fmt::print("{:<24} {:<28} {:>10} {:>10.2f} {:>10.4f} {:>9.0f} {:>10.0f}\n", group, method, setting, ms, error,
                 double{r.counters.at("steps")}, double{r.counters.at("rates")});
      if (error > kGoodEnough) continue;
      const auto [entry, fresh] = best_[group].try_emplace(method, Best{ms, error, setting});
      if (!fresh && ms < entry->second.ms) entry->second = {ms, error, setting};
    }
    std::fflush(stdout);
  }
  void Finalize() override {
    for (const auto& [group, methods] : best_) {
      const double first = methods.count("ours, ROS34PW2") ? methods.at("ours, ROS34PW2").ms : 0;
      fmt::print("\n{}: fastest setting with error below {} K\n", group, kGoodEnough);
      for (const auto& [method, best] : methods)
        fmt::print("  {:<28} {:>10} {:>10.2f} ms  {:>8.4f} K  {:>6.1f} times ours\n", method, best.setting, best.ms,
                   best.error, best.ms / first);
    }
  }

 private:
  struct Best {
    double ms, error;
    std::string setting;
  };
  std::map<std::string, std::map<std::string, Best>> best_;
};

// Error of the face temperature of a slab against its Fourier series, and the order from mesh to mesh.
void print_mesh_order() {
  fmt::print("\nface of a slab against its Fourier series: layers, error, observed order\n");
  double before = 0;
  for (int layers = 4; layers <= 64; layers *= 2) {
    const double error = std::abs(test::slab_face_rise(layers) / test::slab_face_rise_exact() - 1);
    fmt::print("  {:>3} {:>10.2e} {}\n", layers, error,
               before > 0 ? fmt::format("{:.2f}", std::log2(before / error)) : "");
    before = error;
  }
}

}  // namespace
}  // namespace hatring::bench

int main(int argc, char** argv) {
  using namespace hatring::bench;
  using hatring::session::Mesh;
  const Subject coarse(Mesh::coarse), standard(Mesh::standard), fine(Mesh::fine);
  for (const auto* tableau : {&hatring::solve::ros34pw2(), &hatring::solve::rodas3()})
    for (const double tolerance : {0.3, 0.1, 0.06, 0.04, 0.03, 0.025, 0.02, 0.01, 0.003, 0.001})
      add("standard", standard, ours(*tableau, tolerance));
  for (const int lanes : {2, 4, 8})
    if (const auto method = ours_in_lanes(lanes, 0.02)) add("standard", standard, *method);
  for (const Linear linear : {Linear::dense, Linear::klu})
    for (const double tolerance : {0.01, 0.003, 0.001}) add("standard", standard, cvode(linear, tolerance));
  for (const double tolerance : {10.0, 1.0, 0.1, 0.01}) add("standard", standard, dopri5(tolerance));
  for (const auto& [name, subject] :
       {std::pair{"coarse", &coarse}, std::pair{"standard", &standard}, std::pair{"fine", &fine}}) {
    const int least = stable_rk4(subject->run, subject->reference);
    for (const int steps : {least, 2 * least}) add(name, *subject, rk4(steps));
    if (subject == &standard) continue;
    for (const double tolerance : {0.06, 0.03, 0.02, 0.01})
      add(name, *subject, ours(hatring::solve::ros34pw2(), tolerance));
    for (const double tolerance : {0.003, 0.001}) add(name, *subject, cvode(Linear::klu, tolerance));
  }
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  Table table;
  benchmark::RunSpecifiedBenchmarks(&table);
  print_mesh_order();
}
