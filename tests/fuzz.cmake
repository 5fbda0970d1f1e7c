# Fuzzing. Without an engine: every target tried on mutations of its seeds and on every case found before, as tests.
# With clang and RACKWRIGHT_FUZZ=ON: the same targets under its coverage-guided engine (scripts/test --long).
option(RACKWRIGHT_FUZZ "Build the fuzzing targets for clang's engine instead of the short run" OFF)
set(RACKWRIGHT_FUZZ_TRIES 10000 CACHE STRING "Mutations a target in the short run")

function(rackwright_fuzz target)
  add_executable(fuzz_${target} fuzz/${target}.cpp $<IF:$<BOOL:${RACKWRIGHT_FUZZ}>,fuzz/engine.cpp,fuzz/drive.cpp>)
  target_include_directories(fuzz_${target} PRIVATE ${CMAKE_CURRENT_BINARY_DIR}/made)
  target_link_libraries(fuzz_${target} PRIVATE rackwright_flags ${ARGN})
  if(RACKWRIGHT_FUZZ)
    target_link_options(fuzz_${target} PRIVATE -fsanitize=fuzzer)
    return()
  endif()
  file(GLOB cases CONFIGURE_DEPENDS fuzz/cases/${target}/*)
  add_test(NAME "fuzz: ${target}" COMMAND fuzz_${target} --tries ${RACKWRIGHT_FUZZ_TRIES} ${cases})
  set_tests_properties("fuzz: ${target}" PROPERTIES LABELS fuzz TIMEOUT 1200)
endfunction()

rackwright_fuzz(scenario rackwright_scenario)
rackwright_fuzz(settings rackwright_scenario)
rackwright_fuzz(weather rackwright_scenario)
rackwright_fuzz(tray_log rackwright_scenario)
rackwright_fuzz(arguments rackwright_app fmt::fmt)
rackwright_fuzz(result_file rackwright_results HDF5::HDF5 fmt::fmt)
