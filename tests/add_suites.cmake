# Read by ctest itself, each time it starts: asks one test program for its suites and adds one entry for each.
# In: cmake, folder, program, locales, sanitized, wrapper (a command the tests run under; may be empty), leaks (that are not ours). The label comes from the suite's name:
#   Run...   run    (CI)
#   Long...  long   (on demand; LongTerm..., LongActing... and LongLasting... are words of the trade and stay quick)
#   other    quick

set(factor 1)
if(sanitized)
  set(factor 4)
endif()
math(EXPR limit_quick "120 * ${factor}")
math(EXPR limit_run "900 * ${factor}")
math(EXPR limit_long "7200 * ${factor}")

execute_process(COMMAND "${program}" --gtest_list_tests
  OUTPUT_VARIABLE listing ERROR_VARIABLE complaint RESULT_VARIABLE status TIMEOUT 60)

# A suite stands at the start of its line and ends in a full stop; its tests are indented.
string(REGEX MATCHALL "(^|\n)[A-Za-z0-9_/]+\\.[ \r\n]" suites "${listing}")
list(TRANSFORM suites REPLACE "[. \r\n]" "")

if(NOT status EQUAL 0 OR NOT suites)
  # Nothing to run must not look like nothing failed.
  add_test("${folder} lists its tests" "${cmake}" -E false)
  set_tests_properties("${folder} lists its tests" PROPERTIES LABELS "quick;run;long")
  message("${program} gave no list of tests (${status}): ${complaint}")
  return()
endif()

foreach(suite IN LISTS suites)
  # With parameters the name is Instance/Suite or Suite/0.
  string(REGEX REPLACE "^[^/]+/([A-Za-z_])" "\\1" own_name "${suite}")
  if(own_name MATCHES "^Run")
    set(label run)
  elseif(own_name MATCHES "^Long" AND NOT own_name MATCHES "^Long(Term|Acting|Lasting)")
    set(label long)
  else()
    set(label quick)
  endif()
  add_test("${folder}.${suite}" ${wrapper} "${program}" "--gtest_filter=${suite}.*" --gtest_brief=0)
  set(labels ${label})
  if(sanitized AND suite STREQUAL "RunKeys")
    list(APPEND labels sanitized)  # the windows at work; the looks would take an hour under the sanitizers
  endif()
  set_tests_properties("${folder}.${suite}" PROPERTIES
    LABELS "${labels}" TIMEOUT ${limit_${label}} ENVIRONMENT
    "LOCPATH=${locales};UBSAN_OPTIONS=print_stacktrace=1;LSAN_OPTIONS=suppressions=${leaks}:print_suppressions=0")
  if(label STREQUAL "quick")
    set_tests_properties("${folder}.${suite}" PROPERTIES COST 1000)  # ctest starts with the dearest
  endif()
endforeach()
