// SPDX-License-Identifier: MIT
//! \file
//! Counting of load cycles and the damage that they do. Lives scatter by a factor of ten between specimens and more
//! between a specimen and a part: who shows a life shows that band. Checked by tests/models/test_fatigue.cpp and
//! tests/checks/check_08_rainflow.cpp.
#pragma once

#include <functional>
#include <span>
#include <vector>

namespace hatring::models {

//! The values at which a series turns, with its first and last. A reversal not larger than the dead band is no turn;
//! the extremes between two turns are kept. \param dead_band in the series' unit, 0 keeps every turn  \throws
//! std::invalid_argument when negative
[[nodiscard]] std::vector<double> turning_points(std::span<const double> series, double dead_band);

struct LoadCycle {
  double range = 0;  //!< in the series' unit
  double mean = 0;
  double count = 0;  //!< 1, or 0.5 for a half cycle
};

//! Rainflow counting, ASTM E1049-85 section 5.4.4 (from memory and a secondary text), for a history that does not
//! repeat: cycles in the order in which they close, then the half cycles that are left. Fewer than two points: none.
//! \param turns peaks and valleys in turn, as turning_points gives
[[nodiscard]] std::vector<LoadCycle> rainflow(std::span<const double> turns);

//! How a mean stress shortens life: by the ultimate strength (Goodman 1899), by the fatigue strength coefficient
//! (Morrow 1968), or through the peak stress (Smith, Watson and Topper 1970); all from memory.
enum class MeanStress { none, goodman, morrow, smith_watson_topper };

//! Constants of a material's lives, for smooth specimens at 20 degC.
struct FatigueConstants {
  double strength_coefficient = 0;                           //!< sigma_f', 0 = not known [Pa]
  double strength_exponent = -0.12;                          //!< b, below 0 [-]
  double ductility_coefficient = 0;                          //!< eps_f', 0 = stress-life only [-]
  double ductility_exponent = -0.6;                          //!< c, below 0 [-]
  MeanStress mean_stress = MeanStress::smith_watson_topper;  //!< which correction goes with the constants

  [[nodiscard]] bool known() const { return strength_coefficient > 0; }
  [[nodiscard]] bool has_strain_life() const { return known() && ductility_coefficient > 0; }
};

//! Universal slopes (Manson 1965, from memory): strain range = 3.5 (sigma_u/E) N^-0.12 + D^0.6 N^-0.6, as constants on
//! reversals: sigma_f' = 1.75 2^0.12 sigma_u, eps_f' = 0.5 (2 D)^0.6. For wrought metals; weak for cast iron.
//! \param ductility D = ln(1/(1 - reduction of area)) [-]  \throws std::invalid_argument when not positive
[[nodiscard]] FatigueConstants universal_slopes(double ultimate, double ductility);
//! Constants at a temperature at which the strength is `ratio` of the cold one: the elastic part alone falls (our
//! assumption; hot, strain-life is kinder to the plastic part than oxidation and creep are).
[[nodiscard]] FatigueConstants scaled(FatigueConstants constants, double ratio);

//! One cycle as the material feels it, notch included.
struct StressCycle {
  double stress_amplitude = 0;  //!< half the range [Pa]
  double mean_stress = 0;       //!< [Pa]
  double strain_amplitude = 0;  //!< mechanical, half the range; strain-life only [-]
};

//! Lives longer than this count as endless [cycles].
inline constexpr double kLongestLife = 1e12;

//! Cycles to failure N by stress (Basquin 1910, from memory): sigma_a = sigma_f' (1 - sigma_m/sigma_ref) (2N)^b, with
//! sigma_ref by the correction, or sqrt(sigma_max sigma_a) = sigma_f' (2N)^b. A compressive mean earns nothing with
//! Goodman and Morrow; with Smith-Watson-Topper a cycle without tension does no damage. No endurance limit. \param
//! ultimate tensile strength, for Goodman [Pa] \returns 0.5 at least (it breaks at once), infinite beyond kLongestLife
//! \throws std::invalid_argument for constants that are not known or a negative amplitude
[[nodiscard]] double stress_life(const FatigueConstants& constants, double ultimate, const StressCycle& cycle);

//! Cycles to failure by strain (Basquin, Coffin and Manson, from memory): eps_a = (sigma_f'/E) (1 - sigma_m/sigma_ref)
//! (2N)^b + eps_f' (2N)^c, or sigma_max eps_a = (sigma_f'^2/E) (2N)^2b + sigma_f' eps_f' (2N)^(b+c). Solved between
//! brackets, to 1e-10 in ln N. Returns and throws as stress_life.
[[nodiscard]] double strain_life(const FatigueConstants& constants, double modulus, double ultimate,
                                 const StressCycle& cycle);

//! Sum of count/life (Palmgren 1924 and Miner 1945, from memory); 1 is failure, in tests 0.3 to 3. Takes no account of
//! order. \param life cycles to failure of one counted cycle, may be infinite
[[nodiscard]] double miner_sum(std::span<const LoadCycle> cycles, const std::function<double(const LoadCycle&)>& life);

}  // namespace hatring::models
