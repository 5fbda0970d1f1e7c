// Commands that are proposed run as they stand: with the farm, its settings, and a file that the run before did not write.
#include "sim/report/command_words.hpp"

#include "sim/report/words.hpp"
#include "tests/catch.hpp"

using namespace rackwright::report;

TEST_CASE("a command names the farm of the one that was typed, with its settings") {
  CHECK(compare_command("rackwright simulate barn/farm.toml --out runs.h5", "line.soak=8 h") ==
        "`rackwright simulate barn/farm.toml --against \"line.soak=8 h\" --out against.h5`");
  CHECK(farm_words("rackwright size --set 'line.soak=8 h' '--set=rack.tiers=5' '/my farm/it'\\''s.toml' --set @kit.toml --out size.h5") ==
        "'/my farm/it'\\''s.toml' --set 'line.soak=8 h' --set 'rack.tiers=5' --set @kit.toml");
  CHECK(farm_words("") == "FARM.toml");
  CHECK(farm_words("rackwright simulate - --set line.soak=8") == "FARM.toml --set line.soak=8");
}

TEST_CASE("the file of the run before is not written again, and a design that was chosen is set") {
  CHECK(compare_command("rackwright simulate a.toml --out against.h5", "rack.tiers=5").ends_with("--out compared.h5`"));
  CHECK(farm_words("rackwright size a.toml --set rack.tiers=3 --set 'line.soak+=1 h'", {{"rack.tiers", "6"}, {"room.insulation", "5 cm"}}) ==
        "a.toml --set 'line.soak+=1 h' --set \"rack.tiers=6\" --set \"room.insulation=5 cm\"");
}

TEST_CASE("cautions get the farm, and commands are not broken into lines") {
  const std::string plain = "Too little water: see `rackwright simulate FARM.toml --against \"water.on_time=9 min\" --out against.h5`. And more.";
  CHECK(with_farm({plain, "Other."}, "rackwright check b.toml --set rack.tiers=3") ==
        std::vector<std::string>{"Too little water: see `rackwright simulate b.toml --set rack.tiers=3 --against \"water.on_time=9 min\" --out against.h5`. And more.", "Other."});
  CHECK(with_farm({plain}, "")[0] == plain);
  const std::string words = "one two three four five six seven eight nine ten eleven twelve thirteen ";
  CHECK(wrapped(words + plain.substr(0, plain.size() - 11) + " and more") .find("\n`rackwright simulate FARM.toml --against \"water.on_time=9 min\" --out against.h5`") != std::string::npos);
}
