# The fuzz target's own function, so that its checks run on every build, not only on clang's.
target_sources(test_serve PRIVATE ${CMAKE_SOURCE_DIR}/fuzz/request.cpp)
