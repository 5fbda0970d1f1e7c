#pragma once
// Friction in full pipes: Darcy-Weisbach, which the watering network is solved with, and Hazen-Williams, which many printed tables
// use. Equations, sources and how far the two disagree: docs/models/water.md.

#include "models/base/quantity.hpp"

namespace rackwright::water {

/// Wall and water of a pipe.
struct Wall {
  Metres roughness{1.5e-6};   ///< height of the wall's roughness: smooth plastic 0.0015 mm, galvanised steel 0.15 mm
  Celsius water{20.0};        ///< 0 to 60 degC
};

/// Kinematic viscosity of water [m2/s], 0 to 60 degC, within 0.3 %: viscosity by the formula of Kestin, Sokolov & Wakeham 1978
/// (J. Phys. Chem. Ref. Data 7:941), density by Kell's rational form.
double kinematic_viscosity(Celsius water);

/// Darcy's friction factor: 64/Re up to Reynolds number 2000; above 4000 Swamee & Jain 1976 (within 3 % of Colebrook & White);
/// between them the cubic of Dunlop 1991, as the EPANET manual prints it. `relative_roughness` is roughness over diameter, up to 0.05.
double friction_factor(double reynolds, double relative_roughness);

/// Head lost [m] to friction at a flow [L/h], and how it grows with the flow [m per L/h].
struct HeadLoss { double head = 0.0, slope = 0.0; };

/// One pipe, worked out once for many flows: f L/d v^2/2g. Head and slope rise with the flow at every Reynolds number.
class PipeFriction {
 public:
  PipeFriction(Metres diameter, Metres length, const Wall& wall = {});
  [[nodiscard]] HeadLoss at(double litres_per_hour) const;
  /// Head per flow where the flow is laminar, below which no flow loses [m per L/h].
  [[nodiscard]] double laminar() const { return laminar_; }

 private:
  double reynolds_per_flow_, relative_roughness_, scale_, laminar_;
};

/// Head lost by Darcy-Weisbach; flow not negative.
Metres pipe_loss(LitresPerHour flow, Metres diameter, Metres length, const Wall& wall = {});
/// The same by Hazen-Williams: 10.67 L (Q/C)^1.852 / d^4.8704 in m and m3/s. For turbulent water in ordinary pipe; in smooth pipe it
/// is 11 % lower than Darcy-Weisbach at Reynolds number 15,000 and 19 % at 6,600.
Metres hazen_williams_loss(LitresPerHour flow, Metres diameter, Metres length, double c = 150.0);

}  // namespace rackwright::water
