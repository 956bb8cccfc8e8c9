// SPDX-License-Identifier: MIT
// Prints layers, face rise on that mesh and its exact value [K], one mesh a line.
#include "tests/sim/network/mesh_order.hpp"

#include <cstdio>

int main() {
  for (int layers = 4; layers <= 64; layers *= 2)
    std::printf("%d %.9f %.9f\n", layers, hatring::test::slab_face_rise(layers), hatring::test::slab_face_rise_exact());
}
