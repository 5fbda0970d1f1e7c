# The shape of the tree as tests: the order of the layers, the guard of that order, and every header by itself.
add_test(NAME "layers: the tree keeps its order" COMMAND ${CMAKE_SOURCE_DIR}/scripts/layers ${CMAKE_SOURCE_DIR})
add_test(NAME "layers: the guard refuses what is planted"
  COMMAND ${CMAKE_CURRENT_SOURCE_DIR}/layers_planted.sh ${CMAKE_SOURCE_DIR})

# One source a header, which includes it twice and nothing else, under the flags of the product.
file(GLOB_RECURSE headers CONFIGURE_DEPENDS RELATIVE ${CMAKE_SOURCE_DIR}
  ${CMAKE_SOURCE_DIR}/models/*.hpp ${CMAKE_SOURCE_DIR}/sim/*.hpp)
set(alone)
foreach(header ${headers})
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
