#include "strike/strike_of.hpp"

#include "quantity/dual.hpp"
#include "strike/strike_of.ipp"

namespace strikewright {

template Strike<double> strike_of<double>(const Delivery<double>&, const Club&, const Ball&, const Ground&,
                                          bool);
template Strike<Dual<12>> strike_of<Dual<12>>(const Delivery<Dual<12>>&, const Club&, const Ball&,
                                              const Ground&, bool);

}  // namespace strikewright
