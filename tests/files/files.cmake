# Result files in the tools of others, on the files the browser's pages are made from.
function(rackwright_file_test name)
  add_test(NAME "files: ${name}" COMMAND ${ARGN})
  set_tests_properties("files: ${name}" PROPERTIES FIXTURES_REQUIRED pages LABELS files TIMEOUT 1200
    ENVIRONMENT "PYTHONDONTWRITEBYTECODE=1")
endfunction()
set(results ${CMAKE_BINARY_DIR}/browser)
rackwright_file_test("h5py, xarray and ncdump read them" ${CMAKE_CURRENT_LIST_DIR}/test_python.py ${results})
add_test(NAME "files: the worklist's calendar is read by others"
  COMMAND ${CMAKE_CURRENT_LIST_DIR}/test_calendar.py $<TARGET_FILE:rackwright> ${CMAKE_SOURCE_DIR}/scenarios/hillside.toml)
set_tests_properties("files: the worklist's calendar is read by others" PROPERTIES LABELS files TIMEOUT 120 ENVIRONMENT "PYTHONDONTWRITEBYTECODE=1")
rackwright_file_test("R reads them" ${CMAKE_CURRENT_LIST_DIR}/test_r.R ${results})
rackwright_file_test("the analyses of docs/analysis.md run"
  ${CMAKE_CURRENT_LIST_DIR}/run_analysis.py $<TARGET_FILE:rackwright> ${results})
rackwright_file_test("the plot scripts draw them" ${CMAKE_CURRENT_LIST_DIR}/test_plots.py ${results})
