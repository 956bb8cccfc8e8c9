// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace hatring::bench {

//! Plans of a cool-down from the state after the last hot lap, and the whole session again for each, of one session
//! file.
void add_cooldown(const std::string& session);

}  // namespace hatring::bench
