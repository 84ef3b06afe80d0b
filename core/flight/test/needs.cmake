# Peers that only tests use: GSL integrates the same equations a second time.
find_package(GSL REQUIRED)
target_link_libraries(test_flight PRIVATE GSL::gsl)
