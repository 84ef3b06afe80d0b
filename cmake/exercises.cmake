# The catalogue of exercises as part of their room: the product shows them without the repository at hand. The C++
# source is written at build time and compiled like any other.
file(GLOB exercise_documents CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/core/exercise/catalogue/*.json
     ${CMAKE_SOURCE_DIR}/core/exercise/catalogue/*.svg)
set(exercise_source ${CMAKE_BINARY_DIR}/generated/exercises.cpp)
add_custom_command(
  OUTPUT ${exercise_source}
  COMMAND ${CMAKE_COMMAND} -DFOLDER=${CMAKE_SOURCE_DIR}/core/exercise/catalogue -DOUT=${exercise_source}
          -P ${CMAKE_SOURCE_DIR}/cmake/write_exercises.cmake
  DEPENDS ${exercise_documents} ${CMAKE_SOURCE_DIR}/cmake/write_exercises.cmake
  VERBATIM)
target_sources(exercise PRIVATE ${exercise_source})
