# The page's three files, built from web/ and packed: ${page_files} in ${page_folder}, made again when a source changes.
# Everything is written into the build folder; web/ stays as it is. The builds of the presets, side by side in build/,
# share one page.

cmake_path(GET CMAKE_BINARY_DIR PARENT_PATH page_folder)
if(NOT page_folder STREQUAL "${CMAKE_SOURCE_DIR}/build")
  set(page_folder ${CMAKE_BINARY_DIR})
endif()
set(page_folder ${page_folder}/page)
set(page_files ${page_folder}/index.html.gz ${page_folder}/app.js.gz ${page_folder}/app.css.gz)
find_program(NPM npm REQUIRED)
file(GLOB page_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/*.json ${CMAKE_SOURCE_DIR}/web/*.ts
     ${CMAKE_SOURCE_DIR}/web/*.js ${CMAKE_SOURCE_DIR}/web/index.html)
file(GLOB_RECURSE page_inner_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/src/*)
list(FILTER page_inner_sources EXCLUDE REGEX "\\.test\\.ts$")
add_custom_command(
  OUTPUT ${page_files}
  COMMAND ${CMAKE_COMMAND} -DFROM=${CMAKE_SOURCE_DIR}/web -DTO=${page_folder} -DNPM=${NPM}
          -P ${CMAKE_SOURCE_DIR}/cmake/build_page.cmake
  DEPENDS ${page_sources} ${page_inner_sources} ${CMAKE_SOURCE_DIR}/cmake/build_page.cmake
  COMMENT "building the page"
  VERBATIM)
add_custom_target(page DEPENDS ${page_files})
