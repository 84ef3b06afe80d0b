#include "strike/strike_of.hpp"

#include "quantity/dual.hpp"
#include "strike/strike_of.ipp"

namespace strikewright {

template Strike<double> strike_of<double>(const Delivery<double>&, const Club&, const Ball&, const Ground&,
                                          bool);
template Strike<Dual<15>> strike_of<Dual<15>>(const Delivery<Dual<15>>&, const Club&, const Ball&,
                                              const Ground&, bool);

}  // namespace strikewright
