// SPDX-License-Identifier: MIT
// Prints the key reference of the config as the schema knows it.
#include <cstdio>

#include "sim/io/read_case.hpp"

int main() {
  std::fputs(hatring::io::schema_markdown().c_str(), stdout);
}
