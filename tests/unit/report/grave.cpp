// Where grave cautions are told, and where they are not told again.
#include "tests/unit/report/flat_pages.hpp"

using namespace rackwright;
using namespace rackwright::report;
using sample::has;

TEST_CASE("grave cautions stand at the head of the page and not among the others") {
  const std::string grave = "Grave: fodder is to be too much of what they eat: pony, 61 % of the dry matter (20 % is the usual upper limit for horse: 8.2 kg a head). Cut the ration.";
  for (const bool sized : {false, true}) {
    results::ResultFile file = sized ? sample::size_file(1, -1) : sample::simulate_file();
    file.arrays["scenario/caution"] = results::row(std::vector<std::string>{"Never feed a mouldy mat.", grave});
    const std::string page = sample::page(file);
    CHECK(has(page, "<p class=\"grave\">" + grave + "</p>"));
    CHECK_FALSE(has(page, "<li>Grave"));
    CHECK(has(page, "<li>Never feed a mouldy mat.</li>"));
    // The page tells of the design that it shows.
    DesignFacts facts;
    facts.cautions = {"Keep the floor dry."};
    CHECK_FALSE(has(html_page(file, facts), "Grave: fodder"));
  }
}
