// SPDX-License-Identifier: MIT
//! \file
//! Free thermal movement of ring and hat at the bolt circle. Everything fits freely at 20 degC; strains are thermal
//! strains from there. Growths are radial, outward positive [m]. Checked by tests/models/test_joint.cpp.
#pragma once

namespace hatring::models {

//! Radial movement of the ring's fastener holes: a eps_mean + (r_b - a) eps_lug. The annulus moves as a whole with its
//! mean strain (free thermoelastic ring, the resultant of Timoshenko and Goodier's plane stress solution, from memory).
//! Lugs that reach inside the bore (r_b < a) grow inward and so subtract, at their own temperature; holes outside the
//! bore (r_b > a) add: then pass the strain of the iron between bore and holes, and expect a few percent from the
//! radial temperature profile.
//! \param bore_radius a, bolt_radius r_b [m]
//! \param mean_strain weighted by area and thickness over the annulus [-]
[[nodiscard]] double ring_growth(double bore_radius, double bolt_radius, double mean_strain, double lug_strain);

//! Radial movement of the hat's holes: r_b (eps_flange + restraint (eps_bell - eps_flange)).
//! \param restraint share that the bell's edge has in the flange's hoop stiffness, 0 (free flange) to 1
[[nodiscard]] double hat_growth(double bolt_radius, double flange_strain, double bell_strain, double restraint);

//! Hoop stiffness of a long bell's edge, rotation free (2 beta^3 D), over that plus the flange's E A / r^2 (Timoshenko
//! and Woinowsky-Krieger, Theory of Plates and Shells, from memory). One material. Low when the flange also holds the
//! edge's slope.
//! \param bell_radius mean radius of the wall [m]
//! \param flange_width radial [m]
//! \throws std::invalid_argument when a length is not positive
[[nodiscard]] double bell_restraint(double bell_radius, double wall_thickness, double flange_width,
                                    double flange_thickness, double poisson);

//! Positive when the ring outgrows the hat, everywhere in this program.
[[nodiscard]] double differential_expansion(double ring_growth, double hat_growth);

//! Radial clearance left in the direction in which the ring moves outward on the hat; negative is interference.
//! \param float_clearance radial clearance each way at 20 degC, centred
[[nodiscard]] double clearance_outward(double float_clearance, double differential);
//! The same for the hat moving outward in the ring.
[[nodiscard]] double clearance_inward(double float_clearance, double differential);

}  // namespace hatring::models
