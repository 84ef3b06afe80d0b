#include "shot/shot_of.hpp"

namespace strikewright {

Setting mirrored(const Setting& setting) {
  Setting m = setting;
  m.day.wind_across = -setting.day.wind_across;
  return m;
}

namespace {

Delivery<double> mirrored(const Delivery<double>& d) {
  Delivery<double> m = d;
  for (Vec3<double> Delivery<double>::*v :
       {&Delivery<double>::normal_W, &Delivery<double>::toe_W, &Delivery<double>::up_W,
        &Delivery<double>::shaft_W, &Delivery<double>::v_WH_W})
    m.*v = mirrored_vector<double>(d.*v);
  m.w_WH_W = mirrored_axial<double>(d.w_WH_W);
  for (const int i : {0, 2}) {
    m.inertia_W(i, 1) = -d.inertia_W(i, 1);
    m.inertia_W(1, i) = -d.inertia_W(1, i);
  }
  m.arc.direction = -d.arc.direction;
  return m;
}

Strike<double> mirrored(const Strike<double>& s) {
  Strike<double> m = s;
  m.launch.v_WB_W = mirrored_vector<double>(s.launch.v_WB_W);
  m.launch.w_WB_W = mirrored_axial<double>(s.launch.w_WB_W);
  m.launch.azimuth = -s.launch.azimuth;
  m.launch.axis_tilt = -s.launch.axis_tilt;
  m.divot.direction = -s.divot.direction;
  m.v_WH_after_W = mirrored_vector<double>(s.v_WH_after_W);
  return m;
}

Flight<double> mirrored(const Flight<double>& f) {
  Flight<double> m = f;
  m.side = -f.side;
  m.curve = -f.curve;
  m.v_landing_W = mirrored_vector<double>(f.v_landing_W);
  m.w_landing_W = mirrored_axial<double>(f.w_landing_W);
  return m;
}

}  // namespace

Shot<double> mirrored(const Shot<double>& shot) {
  Shot<double> m = shot;
  m.delivery = mirrored(shot.delivery);
  m.strike = mirrored(shot.strike);
  m.flight = mirrored(shot.flight);
  return m;
}

}  // namespace strikewright
