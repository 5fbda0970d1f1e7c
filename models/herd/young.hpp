#pragma once
// What young that were born in a group get of the fodder, against what they eat.

#include <optional>

#include "models/herd/animals.hpp"

namespace rackwright::herd {

/// The class of growing animals that young of that class belong to once weaned; none where the program has no other for them (foals).
std::optional<Class> class_of_young(const Class& animal);

/// How the young of a class grow, where grown ones weigh so much.
GrowthCurve curve_of_young(const Class& animal, Kilograms grown);

/// Fodder's share of the dry matter that a weaned one eats at an age, where it is `share` of a grown one's and the young one wants what young_share()
/// says: by weight as a grown one, which eats more for its weight where it is in milk, and less where it is dry. `young` as class_of_young() gives it.
double young_diet_share(const Class& animal, const Class& young, Kilograms grown, std::optional<Kilograms> milk, double share, Hours age);

}  // namespace rackwright::herd
