// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <functional>

namespace hatring::tools {

//! Calls `run` once for each number below `count`, on several threads. \param jobs 0 for one a core
//! \throws what run throws, once every thread has come to rest
void many_runs(std::uint64_t count, unsigned jobs, const std::function<void(std::uint64_t number)>& run);

}  // namespace hatring::tools
