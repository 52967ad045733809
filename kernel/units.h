#pragma once

#include <compare>
#include <numbers>

namespace dryfit {

/// A length. Held in millimetres; other units exist only at the edge of the program.
///
/// There is no implicit way from or to `double`: write `Length::mm(3)` and `length.mm()`.
/// The ratio of two lengths is a plain number. Sums and differences are exact where `double` is.
class Length {
 public:
  constexpr Length() = default;
  [[nodiscard]] static constexpr Length mm(double value) { return Length(value); }
  [[nodiscard]] constexpr double mm() const { return mm_; }

  friend constexpr auto operator<=>(Length, Length) = default;
  friend constexpr Length operator+(Length a, Length b) { return Length(a.mm_ + b.mm_); }
  friend constexpr Length operator-(Length a, Length b) { return Length(a.mm_ - b.mm_); }
  friend constexpr Length operator-(Length a) { return Length(-a.mm_); }
  friend constexpr Length operator*(Length a, double k) { return Length(a.mm_ * k); }
  friend constexpr Length operator*(double k, Length a) { return Length(a.mm_ * k); }
  friend constexpr Length operator/(Length a, double k) { return Length(a.mm_ / k); }
  friend constexpr double operator/(Length a, Length b) { return a.mm_ / b.mm_; }

 private:
  explicit constexpr Length(double value) : mm_(value) {}
  double mm_ = 0;
};

/// An angle. Held in radians.
class Angle {
 public:
  constexpr Angle() = default;
  [[nodiscard]] static constexpr Angle radians(double value) { return Angle(value); }
  [[nodiscard]] static constexpr Angle degrees(double value) {
    return Angle(value * std::numbers::pi / 180);
  }
  [[nodiscard]] constexpr double radians() const { return radians_; }
  [[nodiscard]] constexpr double degrees() const { return radians_ * 180 / std::numbers::pi; }

  friend constexpr auto operator<=>(Angle, Angle) = default;
  friend constexpr Angle operator-(Angle a) { return Angle(-a.radians_); }

 private:
  explicit constexpr Angle(double value) : radians_(value) {}
  double radians_ = 0;
};

}  // namespace dryfit
