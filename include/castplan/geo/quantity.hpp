// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <compare>

namespace castplan {

/// A number that knows its unit. Metres and degrees cannot be mixed, a product changes the unit, and a quotient of
/// like quantities is a plain number. Rep is double for single values and float for grid cells (4 bytes a cell).
template <class Unit, class Rep = double>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(Rep value) : value_(value) {}
  template <class Other>
  constexpr explicit Quantity(Quantity<Unit, Other> other) : value_(static_cast<Rep>(other.value())) {}

  /// The bare number, in the unit that the type names.
  [[nodiscard]] constexpr Rep value() const { return value_; }

  constexpr auto operator<=>(const Quantity&) const = default;
  constexpr Quantity operator-() const { return Quantity(-value_); }
  constexpr Quantity operator+(Quantity other) const { return Quantity(value_ + other.value_); }
  constexpr Quantity operator-(Quantity other) const { return Quantity(value_ - other.value_); }
  constexpr Quantity operator*(Rep factor) const { return Quantity(value_ * factor); }
  constexpr Quantity operator/(Rep divisor) const { return Quantity(value_ / divisor); }
  constexpr Rep operator/(Quantity other) const { return value_ / other.value_; }
  constexpr Quantity& operator+=(Quantity other) { return *this = *this + other; }
  friend constexpr Quantity operator*(Rep factor, Quantity quantity) { return quantity * factor; }

 private:
  Rep value_{};
};

struct MetreUnit;
struct SquareMetreUnit;
struct CubicMetreUnit;
struct DegreeUnit;
struct MetrePerSecondUnit;
struct CelsiusStepUnit;

using Metres = Quantity<MetreUnit>;
using Metres32 = Quantity<MetreUnit, float>;  ///< a cell of a depth grid
using SquareMetres = Quantity<SquareMetreUnit>;
using CubicMetres = Quantity<CubicMetreUnit>;
using Degrees = Quantity<DegreeUnit>;           ///< an angle or a bearing
using Degrees32 = Quantity<DegreeUnit, float>;  ///< a cell of a slope or aspect grid
using MetresPerSecond = Quantity<MetrePerSecondUnit>;
using CelsiusStep = Quantity<CelsiusStepUnit>;  ///< a difference of temperatures

static_assert(sizeof(Metres32) == 4 && sizeof(Degrees32) == 4);

constexpr SquareMetres operator*(Metres a, Metres b) { return SquareMetres(a.value() * b.value()); }
constexpr CubicMetres operator*(SquareMetres a, Metres b) { return CubicMetres(a.value() * b.value()); }

/// A temperature: a point on a scale. Two of them cannot be added; their difference is a CelsiusStep.
class Celsius {
 public:
  constexpr Celsius() = default;
  constexpr explicit Celsius(double value) : value_(value) {}
  [[nodiscard]] constexpr double value() const { return value_; }
  constexpr auto operator<=>(const Celsius&) const = default;
  constexpr CelsiusStep operator-(Celsius other) const { return CelsiusStep(value_ - other.value_); }
  constexpr Celsius operator+(CelsiusStep step) const { return Celsius(value_ + step.value()); }

 private:
  double value_{};
};

constexpr Celsius fahrenheit(double degrees) { return Celsius((degrees - 32.0) * 5.0 / 9.0); }
constexpr double to_fahrenheit(Celsius temperature) { return temperature.value() * 9.0 / 5.0 + 32.0; }
constexpr Metres feet(double count) { return Metres(count * 0.3048); }  ///< international foot, exact
constexpr double to_feet(Metres length) { return length.value() / 0.3048; }
constexpr Metres fathoms(double count) { return Metres(count * 1.8288); }  ///< six international feet, exact

}  // namespace castplan
