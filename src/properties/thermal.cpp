#include "properties/thermal.h"

#include "properties/water.h"

namespace maslin {
namespace {

/// c0 + c1 t + c2 t^2, t in degrees Celsius.
struct Quadratic {
  double c0, c1, c2;
  Lanes at(const Lanes& t) const { return c0 + t * (c1 + t * c2); }
};

struct ComponentModel {
  Quadratic density_kg_per_m3;
  Quadratic heat_capacity_kj_per_kg_k;
  Quadratic conductivity_w_per_m_k;
};

// Choi and Okos 1986. Water's heat capacity is often miscopied with 4.1289 or with
// its signs turned; these are the figures that give water 4.18 at room temperature.
constexpr ComponentModel k_water{{997.18, 3.1439e-3, -3.7574e-3},
                                 {4.1762, -9.0864e-5, 5.4731e-6},
                                 {0.57109, 1.7625e-3, -6.7036e-6}};
constexpr ComponentModel k_protein{
    {1329.9, -0.5184, 0.0}, {2.0082, 1.2089e-3, -1.3129e-6}, {0.17881, 1.1958e-3, -2.7178e-6}};
constexpr ComponentModel k_fat{
    {925.59, -0.41757, 0.0}, {1.9842, 1.4733e-3, -4.8008e-6}, {0.18071, -2.7604e-4, -1.7749e-7}};
constexpr ComponentModel k_carbohydrate{
    {1599.1, -0.31046, 0.0}, {1.5488, 1.9625e-3, -5.9399e-6}, {0.20141, 1.3874e-3, -4.3312e-6}};
constexpr ComponentModel k_fibre{
    {1311.5, -0.36589, 0.0}, {1.8459, 1.8306e-3, -4.6509e-6}, {0.18331, 1.2497e-3, -3.1683e-6}};
constexpr ComponentModel k_ash{
    {2423.8, -0.28063, 0.0}, {1.0926, 1.8896e-3, -3.6817e-6}, {0.32962, 1.4011e-3, -2.9069e-6}};
constexpr ComponentModel k_alcohol{{789.0, 0.0, 0.0}, {2.44, 0.0, 0.0}, {0.17, 0.0, 0.0}};

}  // namespace

FoodFractions food_fractions(const Portions& portions) {
  const auto grams = portions.components();
  const auto of = [&grams](Component c) { return grams[static_cast<std::size_t>(c)]; };
  FoodFractions out;
  out.water = of(Component::water);
  out.protein = of(Component::protein);
  out.fat = of(Component::fat);
  out.carbohydrate = of(Component::sucrose) + of(Component::glucose) + of(Component::fructose) +
                     of(Component::lactose) + of(Component::maltose) + of(Component::starch) +
                     of(Component::other_carbohydrate) + of(Component::acid);
  out.fibre = of(Component::fibre);
  out.ash = of(Component::minerals);
  out.alcohol = of(Component::alcohol);
  const Lanes total =
      out.water + out.protein + out.fat + out.carbohydrate + out.fibre + out.ash + out.alcohol;
  const Lanes scale = select(total > Lanes(0.0), 1.0 / max(total, 1e-300), 0.0);
  for (Lanes* part : {&out.water, &out.protein, &out.fat, &out.carbohydrate, &out.fibre, &out.ash,
                      &out.alcohol}) {
    *part *= scale;
  }
  return out;
}

ThermalProperties thermal_properties(const FoodFractions& food, const Lanes& temperature_k) {
  const Lanes t = clamp(temperature_k - k_zero_celsius_k, -40.0, 150.0);
  struct Share {
    Lanes mass;
    const ComponentModel* model;
  };
  const Share shares[] = {{food.water, &k_water},    {food.protein, &k_protein},
                          {food.fat, &k_fat},        {food.carbohydrate, &k_carbohydrate},
                          {food.fibre, &k_fibre},    {food.ash, &k_ash},
                          {food.alcohol, &k_alcohol}};
  Lanes volume = 0.0, heat = 0.0, along = 0.0, across = 0.0;
  for (const Share& share : shares) {
    const Lanes part = share.mass / share.model->density_kg_per_m3.at(t);
    const Lanes k = share.model->conductivity_w_per_m_k.at(t);
    volume += part;
    heat += share.mass * share.model->heat_capacity_kj_per_kg_k.at(t);
    along += part * k;
    across += part / k;
  }
  const Lanes floor = max(volume, 1e-300);
  return {1.0 / floor, 1000.0 * heat, along / floor, floor / max(across, 1e-300)};
}

Lanes porous_conductivity_w_per_m_k(const Lanes& dense_conductivity_w_per_m_k,
                                    const Lanes& porosity, const Lanes& temperature_k) {
  const Lanes t = temperature_k - k_zero_celsius_k;
  const Lanes gas = 0.0241 + 7.5e-5 * t;  // dry air, from memory
  const Lanes& k = dense_conductivity_w_per_m_k;
  const Lanes gap = k - gas;
  return k * (2.0 * k + gas - 2.0 * porosity * gap) / (2.0 * k + gas + porosity * gap);
}

}  // namespace maslin
