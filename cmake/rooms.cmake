# Everything that is the same for all rooms: flags, the library, its tests.

add_library(house INTERFACE)
# core/ for "room/header.hpp", the root for "book/book.hpp", "verbs/...", "serve/...".
target_include_directories(house INTERFACE ${CMAKE_SOURCE_DIR}/core ${CMAKE_SOURCE_DIR})
# No contraction into fused multiply-adds: the same swing must give the same bits in debug and release, on one
# thread or many, with or without wide registers.
target_compile_options(house INTERFACE -ffp-contract=off -Wall -Wextra -Wpedantic -Wconversion -Wshadow)
# & and | join masks: of one number a mask is a bool, of several it is not.
target_compile_options(house INTERFACE $<$<CXX_COMPILER_ID:Clang>:-Wno-bitwise-instead-of-logical>)
# Errors only with the compilers that the tests know: a new compiler's new warning shall stop nobody.
if(STRIKEWRIGHT_WERROR)
  target_compile_options(house INTERFACE
    $<$<OR:$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>,$<AND:$<CXX_COMPILER_ID:Clang>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,15>>>:-Werror>)
endif()

# Most of the compiler's time goes into the headers of the libraries, and into the same templates again and again.
if(STRIKEWRIGHT_BATCHES)
  set(CMAKE_UNITY_BUILD ON)
  set(CMAKE_UNITY_BUILD_BATCH_SIZE 12)
endif()

if(STRIKEWRIGHT_TESTS)
  enable_testing()
  add_library(test_main STATIC ${CMAKE_SOURCE_DIR}/tools/test_main.cpp)
  target_link_libraries(test_main PUBLIC house)
endif()

# room(name [SEES rooms...]): a library from core/name/*.cpp and one test program from core/name/test/*.cpp.
function(room name)
  cmake_parse_arguments(ROOM "" "" "SEES" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/core/${name}/*.cpp)
  if(sources)
    add_library(${name} STATIC ${sources})
    set(reach PUBLIC)
  else()
    add_library(${name} INTERFACE)
    set(reach INTERFACE)
  endif()
  target_link_libraries(${name} ${reach} house Eigen3::Eigen fmt::fmt-header-only Threads::Threads ${ROOM_SEES})
  if(STRIKEWRIGHT_TESTS)
    room_tests(${name} core/${name}/test ${name})
  endif()
endfunction()

# room_tests(name folder libraries...): one doctest program test_<name>; a test file may ask for more libraries
# in folder/needs.cmake (peers that only tests use).
function(room_tests name folder)
  file(GLOB tests CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/${folder}/*.cpp)
  if(NOT tests)
    return()
  endif()
  add_executable(test_${name} ${tests})
  target_link_libraries(test_${name} PRIVATE test_main ${ARGN})
  target_compile_definitions(test_${name} PRIVATE SOURCE_DIR="${CMAKE_SOURCE_DIR}")
  # Test code is compiled often and run once; the rooms that it tests keep the flags of the build.
  target_compile_options(test_${name} PRIVATE -O1)
  if(EXISTS ${CMAKE_SOURCE_DIR}/${folder}/needs.cmake)
    include(${CMAKE_SOURCE_DIR}/${folder}/needs.cmake)
  endif()
  add_test(NAME ${name} COMMAND test_${name} WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
endfunction()
