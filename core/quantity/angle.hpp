#pragma once
// Small value types for the doors: an angle cannot be mistaken for degrees or radians, a length for
// millimetres, a speed for miles per hour. Inside the rooms plain SI doubles (and dual numbers) run.

#include <numbers>

namespace strikewright {

inline constexpr double kDegree = std::numbers::pi / 180.0;  ///< rad in one degree
inline constexpr double kRpm = std::numbers::pi / 30.0;      ///< rad/s in one turn per minute
inline constexpr double kMph = 0.44704;      ///< m/s in one mile per hour (exact: international yard, 1959)
inline constexpr double kKmh = 1.0 / 3.6;    ///< m/s in one kilometre per hour
inline constexpr double kMillimetre = 1e-3;  ///< m in one millimetre (exact)
inline constexpr double kYard = 0.9144;      ///< m in one yard (exact: international yard, 1959)
inline constexpr double kFoot = 0.3048;      ///< m in one foot (exact)
inline constexpr double kInch = 0.0254;      ///< m in one inch (exact)
inline constexpr double kGravity = 9.80665;  ///< m/s2, standard acceleration of free fall (3rd CGPM, 1901)

class Angle {
 public:
  constexpr Angle() = default;
  static constexpr Angle from_rad(double v) { return Angle{v}; }
  static constexpr Angle from_deg(double v) { return Angle{v * kDegree}; }
  [[nodiscard]] constexpr double rad() const { return rad_; }
  [[nodiscard]] constexpr double deg() const { return rad_ / kDegree; }
  constexpr bool operator==(const Angle&) const = default;

 private:
  constexpr explicit Angle(double rad) : rad_{rad} {}
  double rad_ = 0.0;
};

class Length {
 public:
  constexpr Length() = default;
  static constexpr Length from_m(double v) { return Length{v}; }
  static constexpr Length from_mm(double v) { return Length{v * 1e-3}; }
  static constexpr Length from_yd(double v) { return Length{v * kYard}; }
  static constexpr Length from_in(double v) { return Length{v * kInch}; }
  [[nodiscard]] constexpr double m() const { return m_; }
  [[nodiscard]] constexpr double mm() const { return m_ * 1e3; }
  [[nodiscard]] constexpr double yd() const { return m_ / kYard; }
  [[nodiscard]] constexpr double in() const { return m_ / kInch; }
  constexpr bool operator==(const Length&) const = default;

 private:
  constexpr explicit Length(double m) : m_{m} {}
  double m_ = 0.0;
};

class Speed {
 public:
  constexpr Speed() = default;
  static constexpr Speed from_mps(double v) { return Speed{v}; }
  static constexpr Speed from_mph(double v) { return Speed{v * kMph}; }
  [[nodiscard]] constexpr double mps() const { return mps_; }
  [[nodiscard]] constexpr double mph() const { return mps_ / kMph; }
  constexpr bool operator==(const Speed&) const = default;

 private:
  constexpr explicit Speed(double mps) : mps_{mps} {}
  double mps_ = 0.0;
};

}  // namespace strikewright
