#include "models/route/feeding_rounds.hpp"

#include "models/base/expects.hpp"

namespace rackwright::route {

Layout with_feeding_rounds(Layout usual, const LineShape& shape, double rounds_per_day) {
  EXPECTS(shape.batches_per_day > 0.0 && usual.paths.size() == 5);
  const double only_fed = rounds_per_day - shape.batches_per_day;
  if (only_fed <= 0.0) return usual;
  Metres& to_animals = usual.paths[3].distance;
  to_animals = to_animals + only_fed / shape.batches_per_day * (shape.rack_to_animals + shape.animals_to_wash);
  return usual;
}

}  // namespace rackwright::route
