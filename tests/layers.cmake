# The shape of the tree as tests: the order of the layers, the guard of that order, and every header by itself.
add_test(NAME "layers: the tree keeps its order" COMMAND ${CMAKE_SOURCE_DIR}/scripts/layers ${CMAKE_SOURCE_DIR})
add_test(NAME "layers: the guard refuses what is planted"
  COMMAND ${CMAKE_CURRENT_SOURCE_DIR}/layers_planted.sh ${CMAKE_SOURCE_DIR})

# Every header stands by itself, under the flags of the product: those that a source of their own name includes first are proven by the build of that source, with
# `#pragma once` in their first line; for each of the others there is a source that includes it twice and nothing else.
file(GLOB_RECURSE headers CONFIGURE_DEPENDS RELATIVE ${CMAKE_SOURCE_DIR}
  ${CMAKE_SOURCE_DIR}/models/*.hpp ${CMAKE_SOURCE_DIR}/sim/*.hpp)
set(alone)
foreach(header ${headers})
  string(REGEX REPLACE "hpp$" "cpp" own ${CMAKE_SOURCE_DIR}/${header})
  if(EXISTS ${own})
    file(STRINGS ${own} included REGEX "^[ \t]*#[ \t]*include" LIMIT_COUNT 1)
    file(STRINGS ${CMAKE_SOURCE_DIR}/${header} guard LIMIT_COUNT 1)
    if(included STREQUAL "#include \"${header}\"" AND guard STREQUAL "#pragma once")
      continue()
    endif()
  endif()
  set(source ${CMAKE_BINARY_DIR}/headers_alone/${header}.cpp)
  file(CONFIGURE OUTPUT ${source}
    CONTENT "#include \"${header}\"\n#include \"${header}\"  // again: it must guard itself\n")
  list(APPEND alone ${source})
endforeach()
add_library(headers_alone OBJECT EXCLUDE_FROM_ALL ${alone})
target_link_libraries(headers_alone PRIVATE rackwright_flags rackwright_app Boost::headers Boost::random HDF5::HDF5 fmt::fmt)
target_compile_options(headers_alone PRIVATE -O0)
add_test(NAME "layers: every header compiles alone"
  COMMAND ${CMAKE_COMMAND} --build ${CMAKE_BINARY_DIR} --target headers_alone)
set_tests_properties("layers: the tree keeps its order" "layers: the guard refuses what is planted"
  "layers: every header compiles alone" PROPERTIES LABELS layers TIMEOUT 1200)
