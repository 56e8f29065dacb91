// Dried fruit in a liquid: what it takes up, what it leaks, what is left; and what fruit
// that was not soaked takes from a dough. Fruit blended and strained: what goes through.
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

/// Whole fruit blended, strained and washed.
struct Straining {
  Lanes fruit_g;
  Lanes insoluble;  // g fibre per g of fruit
  Lanes soluble;    // g sugars and acids per g of fruit
  Lanes wash_g;     // water for each washing
  int washings = 1;
  Lanes holdup_g_per_g;  // liquid that stays with a gram of the insoluble
  Lanes mixing = 1.0;    // 1: each wash mixes wholly with what was held
};

struct Strained {
  Lanes first_g;          // through the cloth before any washing
  Lanes first_fraction;   // g solubles per g of it
  Lanes washed_g;         // all washings
  Lanes washed_fraction;  // g solubles per g of them
  Lanes first_recovery;   // share of the solubles in the first extract
  Lanes recovery;         // and in all
  Lanes residue_g;
};

/// Mass balance: the liquid has s/(1 - i) solubles; r i F of it stays, each wash W
/// thins what stayed by R/(R + W).
Strained strain_fruit(const Straining& straining);

}  // namespace maslin
