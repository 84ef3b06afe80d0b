#include "strike/strike_of.hpp"

#include "delivery/pass_vector.hpp"
#include "quantity/dual.hpp"
#include "strike/strike_of.ipp"

namespace strikewright {

using Slopes = Dual<kPassSize>;

template Strike<double> strike_of<double>(const Delivery<double>&, const Club&, const Ball&, const Ground&,
                                          bool);
template Strike<Slopes> strike_of<Slopes>(const Delivery<Slopes>&, const Club&, const Ball&, const Ground&,
                                          bool);

}  // namespace strikewright
