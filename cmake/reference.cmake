# The tables of reference/ as a library: the product shows them without the repository at hand. The C++ source is
# written at build time and compiled like any other.
file(GLOB reference_tables CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/reference/*.csv)
set(reference_source ${CMAKE_BINARY_DIR}/generated/reference_tables.cpp)
add_custom_command(
  OUTPUT ${reference_source}
  COMMAND ${CMAKE_COMMAND} -DFOLDER=${CMAKE_SOURCE_DIR}/reference -DOUT=${reference_source}
          -P ${CMAKE_SOURCE_DIR}/cmake/write_reference.cmake
  DEPENDS ${reference_tables} ${CMAKE_SOURCE_DIR}/cmake/write_reference.cmake
  VERBATIM)
add_library(reference_tables STATIC ${reference_source})
target_link_libraries(reference_tables PUBLIC house)
target_include_directories(reference_tables PRIVATE ${CMAKE_SOURCE_DIR}/cli)
