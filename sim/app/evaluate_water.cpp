// `evaluate`: a mat's thirst, pipe, emitter and orifice, called exactly as the simulator calls them.
#include "models/climate/climate.hpp"
#include "models/growth/mat.hpp"
#include "models/room/heat_balance.hpp"
#include "models/water/friction.hpp"
#include "models/water/hydraulics.hpp"
#include "sim/app/evaluate_biology.hpp"
#include "sim/scenario/dry_air.hpp"
#include "sim/scenario/watering.hpp"

namespace rackwright::app {

namespace {

std::vector<Result> pipe_loss(const Arguments& in) {
  const LitresPerHour flow(in.number("flow"));
  const Metres diameter(in.number("diameter"));
  const Metres length(in.number("length"));
  const water::Wall wall{Metres(in.number("roughness")), Celsius(in.number("temperature"))};
  const double reynolds = water::velocity(flow, diameter) * diameter.value() / water::kinematic_viscosity(wall.water);
  return {{"head", water::hazen_williams_loss(flow, diameter, length, in.number("c")).value(), "m"},
          {"velocity", water::velocity(flow, diameter), "m/s"},
          {"head_darcy", water::pipe_loss(flow, diameter, length, wall).value(), "m"},
          {"reynolds", reynolds, "1"}};
}

std::vector<Result> emitter(const Arguments& in) {
  const water::Emitter emitter{LitresPerHour(in.number("reference_flow")), Metres(in.number("reference_head")),
                               in.number("exponent")};
  if (in.has("head") == in.has("flow")) throw BadArguments{"give either head or flow, and not both"};
  if (in.has("head")) {
    const Metres head(in.number("head"));
    return {{"flow", water::emitter_flow(emitter, head).value(), "L/h"}, {"head", head.value(), "m"}};
  }
  if (emitter.exponent <= 0.0)
    throw BadArguments{"exponent 0 is an emitter whose flow does not follow its head: give head, not flow"};
  const LitresPerHour flow(in.number("flow"));
  const double head = water::emitter_head(emitter, flow).value();
  if (!(head <= 1e6)) throw BadArguments{"flow is far beyond what this emitter can pass at any head"};
  return {{"flow", flow.value(), "L/h"}, {"head", head, "m"}};
}

std::vector<Result> orifice(const Arguments& in) {
  const LitresPerHour flow =
      water::orifice_flow(Metres(in.number("diameter")), Metres(in.number("head")), in.number("cd"));
  return {{"flow", flow.value(), "L/h"}};
}

std::vector<Result> drain(const Arguments& in) {
  const LitresPerHour flow = water::drain_capacity(Metres(in.number("diameter")), in.number("slope") / 100.0, in.number("roughness"));
  return {{"flow", flow.value(), "L/h"}};
}

std::vector<Result> thirst(const Arguments& in) {
  const growth::Parameters growth = preset_of(in, growth::preset);
  const SquareMetres wet(in.number("mats"));
  room::Parameters room;
  room.floor_area = SquareMetres(in.number("volume") / room.height.value());
  room.air_changes = in.number("air_changes");
  room.wet_area = wet;
  const Celsius air(in.number("temperature"));
  const KilogramsPerSquareMetre density(in.number("sowing_density"));
  const double a_metre = lost_to_air(room::prepare(room), air, climate::humidity_ratio_at_dew_point(Celsius(in.number("dew_point"))), wet);
  const double pace = growth::growth_rate(growth, air), lost = a_metre / density.value();
  const double drunk = daily_drink(growth, in.number("age"), pace, in.number("sprouted") / 100.0, density, 1.0 - in.number("moisture") / 100.0, lost);
  return {{"drinks", drunk, "L/kg/d"}, {"lost", daily_loss(growth, pace, lost), "L/kg/d"}, {"lost_by_room", lost, "L/kg/d"}};
}

}  // namespace

std::vector<Evaluator> water_evaluators() {
  return {
      {"thirst",
       "What a mat drinks on a day, per kg of grain as bought: taken up, and lost to the air (by the room's law, or the species' own figure where that is more).",
       "mat page (docs/models/mat.md) and the room's humidity (docs/models/room.md); a tier's need is the sum of its trays (docs/models/water.md)",
       {species_argument(),
        {"age", "d", "3", 0.0, 30.0, "middle of the day, from sowing"},
        {"temperature", "degC", "20", 0.0, 37.0, "of the room, all along"},
        {"sprouted", "%", "92", 0.0, 100.0, "of the grain"},
        {"sowing_density", "kg/m2", "5", 0.5, 20.0, "grain as bought"},
        {"moisture", "%", "12", 1.0, 30.0, "of the grain, wet basis"},
        {"dew_point", "degC", "12", -40.0, 37.0, "outdoors"},
        {"air_changes", "1/h", "1", 0.0, 100.0, "of the room"},
        {"volume", "m3", "28.8", 1.0, 1e5, "of the room"},
        {"mats", "m2", "10", 0.01, 1e4, "area of all the mats in the room"}},
       thirst},
      {"pipe-loss",
       "Friction head lost in a full pipe, by Hazen-Williams and by Darcy-Weisbach (which the watering line is solved with), and the mean "
       "velocity.",
       "Hazen-Williams, 10.67 L (Q/C)^1.852 / d^4.8704 in m and m3/s; Darcy-Weisbach with 64/Re, Dunlop's cubic from Re 2000 to 4000 "
       "(the form with both logarithms at Re 4000, docs/models/water.md), Swamee & Jain 1976",
       {{"flow", "L/h", "", 0.0, 1e7, "flow of water"},
        {"diameter", "m", "", 0.001, 2.0, "inside diameter"},
        {"length", "m", "", 0.0, 1e5, "length of pipe"},
        {"c", "1", "150", 20.0, 200.0, "Hazen-Williams coefficient; 150 smooth plastic, 100 old iron"},
        {"roughness", "m", "1.5e-6", 0.0, 0.005, "of the wall, for Darcy-Weisbach; smooth plastic 0.0015 mm, galvanised steel 0.15 mm; more than a twentieth of the diameter counts as a twentieth"},
        {"temperature", "degC", "20", 0.0, 60.0, "of the water, for Darcy-Weisbach"}},
       pipe_loss},
      {"emitter",
       "Flow of an emitter at a head, or the head it needs for a flow: flow = reference_flow (head/reference_head)^exponent.",
       "emitter law of irrigation textbooks; exponent 1 laminar, 0.5 orifice, 0 compensating",
       {{"reference_flow", "L/h", "", 1e-3, 1e5, "flow at the reference head"},
        {"reference_head", "m", "", 1e-3, 1000.0, "head it is stated for"},
        {"exponent", "1", "", 0.0, 1.0, "how flow follows head"},
        {"head", "m", "", 0.0, 1000.0, "head at the emitter", true},
        {"flow", "L/h", "", 0.0, 1e6, "flow wanted", true}},
       emitter},
      {"orifice",
       "Free jet through a sharp-edged hole: Cd A sqrt(2 g h).",
       "Torricelli with a discharge coefficient, hydraulics textbooks",
       {{"diameter", "m", "", 1e-5, 1.0, "of the hole"},
        {"head", "m", "", 0.0, 1000.0, "of water above the hole"},
        {"cd", "1", "0.61", 0.05, 1.0, "discharge coefficient"}},
       orifice},
      {"drain",
       "Flow of a round drain that runs full by its fall alone.",
       "Manning",
       {{"diameter", "m", "", 0.001, 2.0, "inside diameter"},
        {"slope", "%", "", 0.0, 100.0, "fall by length"},
        {"roughness", "1", "0.009", 0.005, 0.1, "Manning's n: 0.009 smooth plastic, 0.013 concrete"}},
       drain},
  };
}

}  // namespace rackwright::app
