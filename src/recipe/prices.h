// What things cost where a person shops. There are no prices of our own.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace maslin {

/// A pack as a shop sells it.
struct PricedPack {
  std::string item;  // as the person calls it
  double amount = 0.0;
  std::string unit;  // g, kg, l, piece, packet, ...
  double price = 0.0;
  bool operator==(const PricedPack&) const = default;
};

/// A person's own table.
struct PriceList {
  std::string currency;  // written behind every sum; may be empty
  std::vector<PricedPack> packs;
  std::optional<double> energy_per_kwh;
  std::optional<double> oven_kw;    // of the elements, as on its plate
  std::optional<double> waste_pct;  // of what is put in; left out: 2 %, on bowl, bench and hands
  bool operator==(const PriceList&) const = default;

  bool empty() const { return *this == PriceList{}; }
  /// The share of what is put in that is left on bowl, bench and hands.
  double waste_share() const;
};

}  // namespace maslin
