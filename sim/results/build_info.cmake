# What every result file says of the program that wrote it. Settled when CMake configures; a new commit makes it do so.
set(RACKWRIGHT_COMMIT unknown)
find_program(GIT git)
if(GIT)
  execute_process(COMMAND ${GIT} describe --always --dirty --abbrev=12 --match=v[0-9]*
    WORKING_DIRECTORY ${CMAKE_SOURCE_DIR}
    OUTPUT_VARIABLE described OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET RESULT_VARIABLE failed)
  if(NOT failed)
    set(RACKWRIGHT_COMMIT ${described})
  endif()
endif()
if(EXISTS ${CMAKE_SOURCE_DIR}/.git/logs/HEAD)
  set_property(DIRECTORY ${CMAKE_SOURCE_DIR} APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/.git/logs/HEAD)
endif()

string(TOUPPER "${CMAKE_BUILD_TYPE}" build_type)
string(STRIP "${CMAKE_CXX_FLAGS} ${CMAKE_CXX_FLAGS_${build_type}}" flags)
string(STRIP "${flags} -ffp-contract=off" flags)
string(REGEX REPLACE " +" " " flags "${flags}")
if(RACKWRIGHT_SANITIZE)
  string(APPEND flags " -fsanitize=${RACKWRIGHT_SANITIZE}")
endif()
if(RACKWRIGHT_HARDEN AND NOT RACKWRIGHT_SANITIZE)
  string(APPEND flags ", hardened")
endif()
# Two libraries do not tell their version to CMake; Debian's package does.
find_program(DPKG_QUERY dpkg-query)
function(rackwright_package_version package out)
  set(found "of unknown version")
  if(DPKG_QUERY)
    execute_process(COMMAND ${DPKG_QUERY} --show --showformat=$\{Version} ${package}
      OUTPUT_VARIABLE told OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET RESULT_VARIABLE failed)
    if(NOT failed AND told)
      string(REGEX REPLACE "^[0-9]+:|[-+].*$" "" found "${told}")
    endif()
  endif()
  set(${out} "${found}" PARENT_SCOPE)
endfunction()
rackwright_package_version(libudunits2-dev udunits_version)
rackwright_package_version(librandom123-dev random123_version)
string(CONCAT libraries
  "Boost ${Boost_VERSION_STRING}, toml++ ${tomlplusplus_VERSION}, fmt ${fmt_VERSION}, "
  "nlohmann-json ${nlohmann_json_VERSION}, NLopt ${NLopt_VERSION}, UDUNITS-2 ${udunits_version}, Random123 ${random123_version}")
set_property(SOURCE ${CMAKE_CURRENT_LIST_DIR}/build_info.cpp PROPERTY COMPILE_DEFINITIONS
  "RACKWRIGHT_VERSION=\"${PROJECT_VERSION}\""
  "RACKWRIGHT_COMMIT=\"${RACKWRIGHT_COMMIT}\""
  "RACKWRIGHT_COMPILER=\"${CMAKE_CXX_COMPILER_ID} ${CMAKE_CXX_COMPILER_VERSION}\""
  "RACKWRIGHT_FLAGS=\"${flags}\""
  "RACKWRIGHT_DEPENDENCIES=\"${libraries}\"")
