// SPDX-License-Identifier: MIT
//! \file
//! A sweep: one session read once, what is changed in it from run to run, and the Case of each run.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/io/read_case.hpp"
#include "sim/study/parameter.hpp"

namespace hatring::io {

//! What the command line adds to the `sweep` of the session file, or puts in its place.
struct SweepOptions {
  ReadOptions reading = {};                        //!< `variant` is not looked at
  std::optional<std::filesystem::path> plan = {};  //!< a file whose one key is `sweep`
  std::vector<std::string> vary = {};              //!< "car.mass=uniform(900 kg, 1100 kg)"
  std::optional<study::DesignKind> design = {};
  std::optional<int> runs = {}, seed = {};
};

class Sweep {
 public:
  //! Reads everything and tries every value once, the others at their first.
  //! \throws ConfigError with what is wrong   Tested in tests/sim/io/test_sweep.cpp.
  Sweep(const std::filesystem::path& session, const SweepOptions& options);
  ~Sweep();
  Sweep(const Sweep&) = delete;
  Sweep& operator=(const Sweep&) = delete;

  [[nodiscard]] const std::string& name() const;  //!< of the session
  [[nodiscard]] const std::vector<study::Parameter>& parameters() const;
  [[nodiscard]] const study::Design& design() const;
  [[nodiscard]] study::DesignKind kind() const;
  //! The resolved config with every parameter at its first value.
  [[nodiscard]] const std::string& resolved_yaml() const;
  //! Everything else that the runs follow from, as text: parameters with their values, and the design.
  [[nodiscard]] const std::string& description() const;

  [[nodiscard]] std::vector<study::Setting> settings(std::uint64_t run) const;
  //! The Case of a run. No files are read; may be called by several threads at once.
  //! \throws ConfigError when the values do not go together
  [[nodiscard]] session::Case at(std::uint64_t run) const;

 private:
  class Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace hatring::io
