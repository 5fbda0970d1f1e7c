# The program as it is installed, and as a Debian package.
add_test(NAME "package: installs, and its Debian package holds the same"
  COMMAND ${CMAKE_CURRENT_SOURCE_DIR}/package.sh ${CMAKE_BINARY_DIR} ${CMAKE_COMMAND} ${CMAKE_CPACK_COMMAND})
set_tests_properties("package: installs, and its Debian package holds the same" PROPERTIES LABELS regression TIMEOUT 1200)
if(RACKWRIGHT_HARDEN AND NOT RACKWRIGHT_SANITIZE AND CMAKE_BUILD_TYPE STREQUAL "Release")
  add_test(NAME "package: the program is hardened" COMMAND ${CMAKE_CURRENT_SOURCE_DIR}/hardened.sh $<TARGET_FILE:rackwright>)
  set_tests_properties("package: the program is hardened" PROPERTIES LABELS regression)
endif()
