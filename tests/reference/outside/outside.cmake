# Comparisons with other programs, run at test time. The first step asks them; the rest read what they said.
add_test(NAME "outside: other programs are here and answer" COMMAND ${CMAKE_CURRENT_LIST_DIR}/prepare ${CMAKE_BINARY_DIR}/outside)
set_tests_properties("outside: other programs are here and answer" PROPERTIES FIXTURES_SETUP outside LABELS reference TIMEOUT 300)
file(GLOB outside_sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/*.cpp)
add_executable(test_reference_outside ${outside_sources})
target_include_directories(test_reference_outside PRIVATE ${CMAKE_CURRENT_BINARY_DIR}/made)
target_link_libraries(test_reference_outside PRIVATE rackwright_flags rackwright_study rackwright_scenario rackwright_random Boost::headers
  Boost::random fmt::fmt nlohmann_json::nlohmann_json Catch2::Catch2WithMain)
catch_discover_tests(test_reference_outside ${must_match} TEST_PREFIX "reference_outside: "
  PROPERTIES LABELS reference TIMEOUT 300 FIXTURES_REQUIRED outside)
