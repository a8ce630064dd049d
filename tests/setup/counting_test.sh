#!/usr/bin/env bash
# The closing line of the test scripts counts what ran, and what did not run is told with its reason.
# Arguments: the build folder, and cmake.
set -euo pipefail
. tests/setup/run_tests.sh
cmake=$2
PATH=$(dirname "$cmake"):$PATH
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
cd "$scratch"
cat >CMakeLists.txt <<'END'
cmake_minimum_required(VERSION 3.25)
project(counting LANGUAGES NONE)
enable_testing()
add_test(NAME good COMMAND sh -c "echo fine")
add_test(NAME bad COMMAND sh -c "echo '[  SKIPPED ] is only said'; exit 1")
add_test(NAME gone COMMAND /no/such/program)
add_test(NAME shell COMMAND sh -c "echo 'no <samples> & \"photos\"'; exit 77")
set_tests_properties(shell PROPERTIES SKIP_RETURN_CODE 77)
add_test(NAME gtest COMMAND printf "%s\n" "[ RUN      ] A.b" "a.cpp:4: Skipped" "two" "lines" "[  SKIPPED ] A.b (0 ms)" "[  PASSED  ] 0 tests.")
add_test(NAME silent COMMAND printf "%s\n" "[ RUN      ] A.b" "a.cpp:4: Skipped" "" "[  SKIPPED ] A.b (0 ms)")
set_tests_properties(gtest silent PROPERTIES SKIP_REGULAR_EXPRESSION "\\[  SKIPPED \\]")
add_test(NAME off COMMAND sh -c "exit 0")
set_tests_properties(off PROPERTIES DISABLED TRUE)
# One process with several cases, as GoogleTest tells of them.
set(told "[ RUN      ] A.b" "a.cpp:4: Skipped" "too few" "" "[  SKIPPED ] A.b (0 ms)" "[ RUN      ] A.c/0" "a.cpp:9: Skipped" "[  SKIPPED ] A.c/0, where GetParam() = 3 (0 ms)"
  "[==========] 9 tests from 2 test suites ran. (4 ms total)" "[  PASSED  ] 6 tests." "[  SKIPPED ] 2 tests, listed below:" "[  SKIPPED ] A.b" "[  SKIPPED ] A.c/0")
add_test(NAME many.part1 COMMAND printf "%s\n" ${told})
add_test(NAME none.part2 COMMAND printf "%s\n" "[==========] 0 tests from 0 test suites ran. (0 ms total)" "[  PASSED  ] 0 tests.")
add_test(NAME wrong.part3 COMMAND sh -c "printf '%s\\n' \"$@\"; exit 1" sh
  "[  FAILED  ] D.e (0 ms)" "[  PASSED  ] 5 tests." "[  FAILED  ] 2 tests, listed below:" "[  FAILED  ] D.e" "[  FAILED  ] D.f" "" " 2 FAILED TESTS")
add_test(NAME leaks.part4 COMMAND sh -c "echo 'Running main()'; echo '[  PASSED  ] 7 tests.'; exit 1")
END
"$cmake" -S . -B build >log || { cat log; exit 1; }

# expect NAMES STATUS TEXT: running the tests whose names match ends with the text.
expect() {
  local status=0 said
  (run_tests build -R "$1") >said 2>&1 || status=1
  said=$(tail -n "$(wc -l <<<"$3")" said)
  [ "$status" = "$2" ] && [ "$said" = "$3" ] || { echo "Tests $1: status $status, and the end of what was said is:"; cat said; exit 1; }
}
expect '^[^.]*$' 1 'Skipped:
  shell: no <samples> & "photos"
  gtest: two lines
  silent: no reason given
  off: switched off in the source

1 passed, 2 failed, 4 skipped'
expect 'good|off' 0 '1 passed, 0 failed, 1 skipped'
expect bad 1 '0 passed, 1 failed, 0 skipped'
expect 'shell|off' 1 '0 passed, 0 failed, 2 skipped'
expect nothing 1 '0 passed, 0 failed, 0 skipped'
expect many 0 'Skipped:
  many.A.b: too few
  many.A.c/0: no reason given

6 passed, 0 failed, 2 skipped'
expect none 1 '0 passed, 0 failed, 0 skipped'
expect 'many|none|wrong|leaks|good|bad' 1 'Skipped:
  many.A.b: too few
  many.A.c/0: no reason given

19 passed, 4 failed, 2 skipped'
