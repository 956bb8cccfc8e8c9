// SPDX-License-Identifier: MIT
//! \file
//! How the face temperature of a slab, cut into graded layers as the ring is, converges to its Fourier series.
#pragma once

namespace hatring::test {

//! Rise of the face 2.5 s into a flux that falls linearly from 2 MW/m2 to nothing in 5 s; half thickness 10 mm, k 50,
//! rho 7200, c 500, mid-plane insulated [K].
[[nodiscard]] double slab_face_rise(int layers);
//! The same by Fourier series and Duhamel's integral [K].
[[nodiscard]] double slab_face_rise_exact();

}  // namespace hatring::test
