#include "strike/strike_of.hpp"

#include "quantity/dual.hpp"
#include "strike/strike_of.ipp"

namespace strikewright {

template Strike<double> strike_of<double>(const Delivery<double>&, const Club&, const Ball&, const Ground&,
                                          bool);
template Strike<Dual<10>> strike_of<Dual<10>>(const Delivery<Dual<10>>&, const Club&, const Ball&,
                                              const Ground&, bool);

}  // namespace strikewright
