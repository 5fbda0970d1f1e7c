# Report pages in a real browser. The first step brings what npm has (nothing when it is there), the second makes the pages.
set(pages ${CMAKE_BINARY_DIR}/browser)
add_test(NAME "browser: what it takes is here" COMMAND ${CMAKE_CURRENT_LIST_DIR}/prepare)
add_test(NAME "browser: the pages are made" COMMAND ${CMAKE_CURRENT_LIST_DIR}/make_pages $<TARGET_FILE:rackwright> ${pages})
add_test(NAME "browser: pages are quiet, fit, print and can be read by all"
  COMMAND ${CMAKE_CURRENT_LIST_DIR}/test_page.py ${pages})
add_test(NAME "browser: numbers on the page are those of the file"
  COMMAND ${CMAKE_CURRENT_LIST_DIR}/test_numbers.py ${pages})
set_tests_properties("browser: what it takes is here" PROPERTIES FIXTURES_SETUP browser)
set_tests_properties("browser: the pages are made" PROPERTIES FIXTURES_SETUP pages)
set_tests_properties("browser: pages are quiet, fit, print and can be read by all"
  "browser: numbers on the page are those of the file" PROPERTIES FIXTURES_REQUIRED "browser;pages" TIMEOUT 1200)
set_tests_properties("browser: what it takes is here" "browser: the pages are made"
  "browser: pages are quiet, fit, print and can be read by all"
  "browser: numbers on the page are those of the file" PROPERTIES LABELS browser ENVIRONMENT "PYTHONDONTWRITEBYTECODE=1")
