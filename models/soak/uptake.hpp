#pragma once
// Water uptake in the soak: diffusion into the kernel (Becker 1960, Cereal Chem. 37:309-323), a dip, and oxygen stress.

#include <optional>
#include <string_view>

#include "models/base/origin.hpp"
#include "models/base/quantity.hpp"

namespace rackwright::soak {

/// Diffusion form: M = M0 + skin + (2/sqrt(pi)) (Ms - M0) (S/V) sqrt(D t) up to Ms, M in g/g dry basis; from there M nears the
/// ceiling without a kink (assumed: the published equation ends at Ms). The skin fills within five minutes.
struct Parameters {
  double diffusivity_prefactor = 30.0;      ///< [cm2/s]
  double activation_energy = 12300.0;       ///< [cal/mol]
  double surface_moisture = 0.75;           ///< Ms, effective moisture at the surface, dry basis [g/g]
  double skin = 0.045;                      ///< taken up by the seed coat at once, dry basis [g/g]
  double surface_to_volume = 17.0;          ///< [1/cm]
  double full_moisture = 0.42;              ///< wet-basis moisture at which germination is not held back by water [1]
  double ceiling_moisture = 0.909;          ///< where uptake ends, dry basis [g/g]; Ms itself where it is lower
  Origin origin = Origin::measured;
};

/// Preset for a species; wheat is published, barley's activation energy and surface moisture too; the rest is borrowed.
std::optional<Parameters> preset(std::string_view species);

/// Diffusivity of water in the kernel [cm2/s].
double diffusivity(const Parameters& parameters, Celsius water);

/// Moisture at drain, wet basis [1]. start wet basis in [0, 1); time >= 0.
double moisture_after(const Parameters& parameters, Celsius water, double start_moisture, Hours time);

/// What a soak does to the grain that is sown from it.
struct Effect {
  double moisture = 0.43;     ///< at drain, wet basis [1]
  double head_start = 0.0;    ///< germination progress made in the soak, as hours at 20 degC
  double delay = 0.0;         ///< hours at 20 degC lost to dry kernels or to oxygen shock
  double stress = 0.0;        ///< oxygen stress, 0 none .. 1 severe; raises souring and lowers germination
  double survival = 1.0;      ///< multiplies the germinable fraction [1]
};

/// Effect of soaking for `time` in water at `water`. Still water carries the grain 12 h at 20 degC, longer when cold (more
/// oxygen, slower breathing), shorter when warm; hours beyond that are stress (assumed form; published trials and malting
/// work agree that longer is not better). What a soak is worth is head_start - delay. Time not negative.
Effect effect(const Parameters& parameters, Celsius water, double start_moisture, Hours time);

/// Mean temperature over a soak of a bucket filled at `water` in a room at `room`: it takes on the room's warmth within hours (assumed), but
/// neither freezes nor boils.
Celsius bucket_temperature(Celsius water, Celsius room, Hours time);

/// Disinfecting dip before the soak.
struct Dip {
  double strength_percent = 0.0;  ///< sodium hypochlorite, % (0: none)
  Hours time{0.25};
};

/// Share of the inoculum that a dip leaves (1: none removed), and share of germination it keeps, by strength times minutes
/// (assumed dose response inside the published range). Never mix hypochlorite with acid, ammonia or manure: toxic gas.
/// Of a washed tray, which shelters nothing, `surface_left` is left.
struct DipEffect { double inoculum_left = 1.0, germination_kept = 1.0, surface_left = 1.0; };
DipEffect dip_effect(const Dip& dip);

}  // namespace rackwright::soak
