// Keys of a species of the keeper's own.
#include "models/grain/species.hpp"
#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"

namespace rackwright::keys {
namespace {

using O = OwnSpecies;
constexpr std::string_view yours = "yours";
constexpr std::string_view practice = "common practice, no source";
constexpr std::string_view becker = "Becker 1960, Cereal Chem. 37:309-323, or borrowed from wheat";
constexpr std::string_view rowse = "form: Rowse & Finch-Savage 2003; barley fitted to open counts, others borrowed";
constexpr std::string_view yin = "form: Yin et al. 1995, Agric. For. Meteorol. 77:1-16; value assumed";

bool copy_preset(O& species, const std::string& like) {
  const auto body = grain::find_species(like);
  const auto soak = soak::preset(like);
  const auto germination = germination::preset(like);
  const auto growth = growth::preset(like);
  if (!body || !soak || !germination || !growth) return false;
  species.bulk_density = body->bulk_density;
  species.soak = *soak;
  species.germination = *germination;
  species.growth = *growth;
  species.like = like;
  return true;
}

Key<O> like_key() {
  Key<O> key = text<O>("like", AT(like),
                       "The known species this one is copied from; what is not stated below is as there.", yours);
  key.set = [](O& species, const Value& value, const Scenario&) -> std::optional<std::string> {
    const std::string& wanted = std::get<std::string>(value);
    if (wanted == species.like) return std::nullopt;  // keeps what has been changed since
    if (copy_preset(species, wanted)) return std::nullopt;
    return "is not a species the program knows";
  };
  return key;
}

void add_soak(Table<O>& table) {
  const auto add = [&](Key<O> key) { table.push_back(std::move(key)); };
  add(real<O>("soak.diffusivity", {0.01, 1.0e5}, AT(soak.diffusivity_prefactor),
              "Water diffusivity in the kernel, before the effect of temperature.", becker).in("cm2/s"));
  add(real<O>("soak.activation", {1000.0, 40000.0}, AT(soak.activation_energy),
              "How strongly warm water speeds uptake.", becker).in("cal/mol"));
  add(real<O>("soak.surface_moisture", {0.4, 1.5}, AT(soak.surface_moisture),
              "Water by dry matter at the kernel's surface, which drives uptake.", becker));
  add(real<O>("soak.ceiling_moisture", {0.4, 1.6}, AT(soak.ceiling_moisture),
              "Water by dry matter at which uptake ends.", "\"Wheat grains hydration\" (newsciencepubl)"));
  add(real<O>("soak.skin", {0.0, 0.3}, AT(soak.skin), "Water by dry matter taken up by the skin at once.", becker));
  add(real<O>("soak.surface_to_volume", {1.0, 60.0}, AT(soak.surface_to_volume),
              "Surface of a kernel by its volume; small kernels have more.", becker).in("1/cm"));
  add(real<O>("soak.full_moisture", {0.2, 0.6}, AT(soak.full_moisture),
              "Share of water at which dryness no longer holds germination back.",
              "Evans et al. 2024, J. Inst. Brew. 130:126-181"));
}

void add_germination(Table<O>& table) {
  const auto add = [&](Key<O> key) { table.push_back(std::move(key)); };
  add(real<O>("germination.base", {-15.0, 18.0}, AT(germination.base), "Below this nothing germinates.", rowse));
  add(real<O>("germination.toe", {0.0, 30.0}, AT(germination.toe),
              "How gently germination starts above base; 0 is a straight line.", rowse));
  add(real<O>("germination.decline", {10.0, 50.0}, AT(germination.decline), "Above this germination slows.", rowse));
  add(real<O>("germination.ceiling", {22.0, 60.0}, AT(germination.ceiling), "Above this nothing germinates.", rowse));
  add(real<O>("germination.theta", {1.0, 1000.0}, AT(germination.theta),
              "Thermal time until half has germinated.", rowse).in("K d"));
  add(real<O>("germination.fraction_ceiling", {15.0, 60.0}, AT(germination.fraction_ceiling),
              "Temperature at which the share that can germinate reaches zero.", rowse));
  add(real<O>("germination.fraction_scale", {0.1, 30.0}, AT(germination.fraction_scale),
              "How gently that share falls towards it.", rowse));
  add(real<O>("germination.shape", {1.0, 40.0}, AT(germination.shape),
              "How closely kernels germinate together; higher is closer.", rowse));
}

void add_growth(Table<O>& table) {
  const auto add = [&](Key<O> key) { table.push_back(std::move(key)); };
  // Growth time is counted in days at 20 degC: a mat that does not grow there has none.
  add(real<O>("growth.base", {-10.0, 18.0}, AT(growth.base), "Below this a mat does not grow.", yin));
  add(real<O>("growth.optimum", {10.0, 45.0}, AT(growth.optimum), "A mat grows fastest here.", yin));
  add(real<O>("growth.ceiling", {22.0, 55.0}, AT(growth.ceiling), "Above this a mat does not grow.", yin));
  add(real<O>("growth.curvature", {0.05, 10.0}, AT(growth.curvature),
              "How sharply growth follows temperature (exponent).", "assumed"));
  add(real<O>("growth.pace", {0.2, 5.0}, AT(growth.pace), "How fast it grows at 20 degC, against the species it is copied from.", "assumed"));
  add(real<O>("growth.swelling", {0.1, 5.0}, AT(growth.swelling),
              "How much water its mats hold beyond soaked grain, against that species.", "assumed"));
  add(real<O>("growth.loss_plateau", {0.02, 0.9}, AT(growth.loss_plateau),
              "Share of the grain's dry matter lost in the end.", "assumed from published trials"));
  add(real<O>("growth.loss_time", {1.0, 40.0}, AT(growth.loss_time),
              "Growth time over which it is lost.", "assumed from published trials").in("d"));
  add(real<O>("growth.loss_shape", {0.5, 6.0}, AT(growth.loss_shape),
              "How late the loss sets in; 1 is at once.", "assumed from published trials"));
  add(real<O>("growth.respired", {0.0, 1.0}, AT(growth.respired_share),
              "Share of the loss breathed off as heat; the rest leaves with the water.", "assumed"));
  add(real<O>("growth.dry_matter_start", {0.2, 0.9}, AT(growth.mat_dry_matter_start),
              "Dry matter of a tray just sown and drained.", "assumed"));
  add(real<O>("growth.dry_matter_end", {0.04, 0.5}, AT(growth.mat_dry_matter_end),
              "Dry matter of a mat at which it levels out.", "assumed from published trials"));
  add(real<O>("growth.water_time", {0.3, 30.0}, AT(growth.water_time),
              "Growth time over which water is taken up.", "assumed").in("d"));
  add(real<O>("growth.water_shape", {0.2, 10.0}, AT(growth.water_shape),
              "How late that uptake sets in; 1 is at once.", "assumed"));
  add(real<O>("growth.evaporated", {0.0, 10.0}, AT(growth.evaporated_litres),
              "Water lost to the air for each kilogram of grain and day of growth.", "assumed").in("L/kg/d"));
  add(real<O>("growth.height_end", {1.0, 80.0}, AT(growth.height_end),
              "Height of a full-grown mat.", "Alemnew & Mekuriaw 2023, Adv. Agric. 9315556").in("cm"));
  add(real<O>("growth.height_middle", {0.5, 30.0}, AT(growth.height_middle),
              "Growth time to half that height.", "assumed").in("d"));
  add(real<O>("growth.height_scale", {0.05, 15.0}, AT(growth.height_scale),
              "How gradual the rise is.", "assumed").in("d"));
  add(real<O>("growth.ripe", {1.0, 30.0}, AT(growth.ripe), "Growth time at which a mat is best.", practice).in("d"));
  add(real<O>("growth.overdue", {1.0, 60.0}, AT(growth.overdue),
              "Growth time past which a mat loses colour and feed value.", practice).in("d"));
  add(real<O>("growth.plateau_density", {1.0, 30.0}, AT(growth.plateau_density),
              "Sowing density beyond which a kilogram of grain yields less.", "assumed from published trials"));
}

}  // namespace

template <>
O fresh_item<O>() {
  O species;
  copy_preset(species, species.like);
  return species;
}

const Table<O>& species_keys() {
  static const Table<O> table = [] {
    Table<O> t{
        text<O>("name", AT(name), "What you call this species.", yours).must(),
        like_key(),
        real<O>("bulk_density", {100.0, 1500.0}, AT(bulk_density),
                "Weight of a volume of loose grain.", "legal bushel weights"),
    };
    add_soak(t);
    add_germination(t);
    add_growth(t);
    return t;
  }();
  return table;
}

}  // namespace rackwright::keys
