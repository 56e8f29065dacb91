#include "quantity/number_text.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>

namespace maslin {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// 10^e, by repeated squaring in long double so that 1e-3 comes out as written.
double power_of_ten(int e) {
  long double result = 1.0L;
  long double base = 10.0L;
  for (int n = e < 0 ? -e : e; n > 0; n /= 2) {
    if (n % 2 == 1) {
      result *= base;
    }
    base *= base;
  }
  return static_cast<double>(e < 0 ? 1.0L / result : result);
}

}  // namespace

std::optional<double> number_from(std::string_view text) {
  std::size_t i = 0;
  bool negative = false;
  if (i < text.size() && (text[i] == '-' || text[i] == '+')) {
    negative = text[i] == '-';
    ++i;
  }
  std::uint64_t digits = 0;
  int exponent = 0;
  int seen = 0;
  bool point = false;
  for (; i < text.size() && (is_digit(text[i]) || (text[i] == '.' && !point)); ++i) {
    if (text[i] == '.') {
      point = true;
      continue;
    }
    ++seen;
    if (digits < 100000000000000000ULL) {
      digits = digits * 10 + static_cast<std::uint64_t>(text[i] - '0');
      exponent -= point ? 1 : 0;
    } else {
      exponent += point ? 0 : 1;
    }
  }
  if (seen == 0) {
    return std::nullopt;
  }
  if (i < text.size() && (text[i] == 'e' || text[i] == 'E')) {
    ++i;
    bool exponent_negative = false;
    if (i < text.size() && (text[i] == '-' || text[i] == '+')) {
      exponent_negative = text[i] == '-';
      ++i;
    }
    int written = 0;
    int count = 0;
    for (; i < text.size() && is_digit(text[i]); ++i, ++count) {
      written = written < 1000 ? written * 10 + (text[i] - '0') : written;
    }
    if (count == 0) {
      return std::nullopt;
    }
    exponent += exponent_negative ? -written : written;
  }
  if (i != text.size() || exponent > 300 || exponent < -330) {
    return std::nullopt;
  }
  // Division by an exact power of ten rounds once; multiplying by 10^-n would twice.
  const double magnitude = static_cast<double>(digits);
  const double value =
      exponent < 0 ? magnitude / power_of_ten(-exponent) : magnitude * power_of_ten(exponent);
  return negative ? -value : value;
}

std::string number_text(double value, int decimals) {
  if (!std::isfinite(value) || std::fabs(value) > 1e15) {
    return std::isfinite(value) ? (value < 0 ? "-1e15" : "1e15") : "?";
  }
  std::uint64_t scale = 1;
  for (int d = 0; d < decimals; ++d) {
    scale *= 10;
  }
  // Past 2^53 the scaled value has no fraction left to print.
  while (scale > 1 && std::fabs(value) * static_cast<double>(scale) > 9e18) {
    scale /= 10;
  }
  const auto scaled =
      static_cast<std::uint64_t>(std::floor(std::fabs(value) * static_cast<double>(scale) + 0.5));
  std::string out = std::to_string(scaled / scale);
  std::uint64_t rest = scaled % scale;
  if (rest != 0) {
    out += '.';
    for (std::uint64_t place = scale / 10; place > 0 && rest > 0; place /= 10) {
      out += static_cast<char>('0' + rest / place);
      rest %= place;
    }
  }
  return value < 0 && scaled != 0 ? "-" + out : out;
}

std::string fraction_text(double value) {
  constexpr std::array<std::pair<int, int>, 9> k_fractions{
      {{1, 2}, {1, 4}, {3, 4}, {1, 3}, {2, 3}, {1, 8}, {3, 8}, {5, 8}, {7, 8}}};
  const double whole = std::floor(value);
  const double rest = value - whole;
  if (value < 0 || value > 1e6 || rest == 0) {
    return number_text(value, 3);
  }
  for (const auto& [top, bottom] : k_fractions) {
    if (rest == static_cast<double>(top) / bottom) {
      const std::string fraction = std::to_string(top) + "/" + std::to_string(bottom);
      return whole > 0 ? number_text(whole, 0) + " " + fraction : fraction;
    }
  }
  return number_text(value, 3);
}

}  // namespace maslin
