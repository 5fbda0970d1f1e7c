# The comparison with the outside: the rows are a library, read by the test that asserts them and by the program that
# prints docs/validation.md.
file(GLOB validation_sources CONFIGURE_DEPENDS reference/table/*.cpp)
list(FILTER validation_sources EXCLUDE REGEX "(check|print_main)\\.cpp$")
add_library(validation_rows STATIC ${validation_sources})
target_link_libraries(validation_rows PUBLIC rackwright_flags rackwright_app rackwright_study rackwright_kernel rackwright_random
  Boost::headers Boost::random fmt::fmt)
add_executable(test_reference_table reference/table/check.cpp)
target_include_directories(test_reference_table PRIVATE ${CMAKE_CURRENT_BINARY_DIR}/made)
target_link_libraries(test_reference_table PRIVATE validation_rows Catch2::Catch2WithMain)
catch_discover_tests(test_reference_table ${must_match} TEST_PREFIX "reference_table: " PROPERTIES LABELS reference TIMEOUT 600)
add_executable(validation_page reference/table/print_main.cpp)
target_link_libraries(validation_page PRIVATE validation_rows)
