// Dried fruit in a liquid: what it takes up, what it leaks, what is left; and what fruit
// that was not soaked takes from a dough.
#pragma once

#include <string_view>

#include "finish/tables.h"
#include "finish/unknowns.h"
#include "properties/portion.h"

namespace maslin {

struct Soak {
  Portions fruit;   // the dried fruit
  Portions liquid;  // what it stands in
  Lanes hours;
  Lanes celsius;
};

struct Soaked {
  Lanes taken_up_g;           // water into the fruit
  Lanes leaked_g;             // sugar out of it
  Lanes left_g;               // liquid left over, with what leaked
  Lanes left_sugar_fraction;  // g sugar per g of that liquid
  Lanes fruit_activity;       // water activity of the fruit afterwards
  Lanes uptake_g_per_g;
};

/// Peleg's curve for the fruit, faster by half for each 10 K, slower in a sweet liquid by
/// (a_liquid - a_fruit)/(1 - a_fruit) and where too little liquid is left to cover the
/// fruit; at most the water offered; 5-60 C, to 48 h.
Soaked soak_fruit(const FinishTables& tables, const Soak& soak, const FinishUnknowns& unknowns);

}  // namespace maslin
