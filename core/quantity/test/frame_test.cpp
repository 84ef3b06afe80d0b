#include "quantity/frame.hpp"

#include <doctest/doctest.h>

#include "quantity/angle.hpp"

using namespace strikewright;

TEST_CASE("a direction to the right has a negative y in the world frame") {
  const Vec3<double> d = direction(5.0 * kDegree, 10.0 * kDegree);
  CHECK(d.y() < 0.0);
  CHECK(azimuth_of(d) == doctest::Approx(5.0 * kDegree).epsilon(1e-12));
  CHECK(elevation_of(d) == doctest::Approx(10.0 * kDegree).epsilon(1e-12));
}

TEST_CASE("turning about the vertical by a positive angle takes the target direction to the left") {
  const Mat3<double> turned = turn_about(Vec3<double>(0.0, 0.0, 1.0), 90.0 * kDegree);
  CHECK((turned * Vec3<double>(1.0, 0.0, 0.0) - Vec3<double>(0.0, 1.0, 0.0)).norm() < 1e-15);
}

TEST_CASE("mirroring twice gives the same bits") {
  const Vec3<double> v(0.1, -0.2, 0.3);
  CHECK(mirrored_vector(mirrored_vector(v)) == v);
  CHECK(mirrored_axial(mirrored_axial(v)) == v);
}
