#!/usr/bin/env bash
# Builds everything with warnings as errors and runs every test, on Debian 12 and later.
# Options are handed on to ctest: tests/all.sh -R photo runs only the tests with "photo" in their names.
set -euo pipefail
cd "$(dirname "$0")/.."
. tests/setup/packages.sh
. tests/setup/run_tests.sh

log=build-tests/log.txt
mkdir -p build-tests
: >"$log"
need_packages "$log" "${build_packages[@]}" "${test_packages[@]}"
echo "Building the program and its tests"
build_into build-tests "$log" -DCMAKE_BUILD_TYPE=Release "${joined_sources[@]}" -DHUEWRIGHT_TESTS=ON -DHUEWRIGHT_DEVELOPER=ON
run_tests build-tests "$@"
