#!/usr/bin/env bash
# Measures error, coverage and advice on simulated scenes whose truth is known, and prints the tables that docs/uncertainty.md quotes.
# Takes an hour and a quarter on two cores; not part of the tests.
#   tests/figures.sh mix [SEED [SEEDS_PER_CELL]]  the tint model's closed loop alone: some minutes
#   tests/figures.sh [SEED [TRIALS_PER_CELL]]    without a seed, one is drawn, so that no run repeats the one the program was tuned on
set -euo pipefail
cd "$(dirname "$0")/.."
. tests/setup/packages.sh

only=
if [ "${1:-}" = mix ]; then
  only=mix
  shift
fi
seed=${1:-$(od -An -N4 -tu4 /dev/urandom | tr -d ' ')}
trials=${2:-400}
log=build-figures/log.txt
mkdir -p build-figures
: >"$log"
need_packages "$log" "${build_packages[@]}"
echo "Building"
quietly "$log" cmake -S . -B build-figures -G Ninja -DCMAKE_BUILD_TYPE=Release -DHUEWRIGHT_FIGURES=ON
quietly "$log" cmake --build build-figures --parallel "$(nproc)" --target judge_figures mat_figures chart_figures coverage_figures mix_figures
if [ "$only" = mix ]; then
  echo
  exec build-figures/tests/figures/mix_figures "${2:-300}" "$seed"
fi
for light in even uneven numbers; do
  echo
  build-figures/tests/figures/judge_figures "$trials" "$seed" "$light"
done
echo
build-figures/tests/figures/mat_figures finder "$((trials < 300 ? trials : 300))" "$seed"
for what in falloff flake veil steps; do
  echo
  build-figures/tests/figures/mat_figures "$what" "$trials" "$seed"
done
echo
build-figures/tests/figures/chart_figures finder "$((trials < 300 ? trials : 300))" "$seed"
echo
build-figures/tests/figures/chart_figures colour "$((trials < 100 ? trials : 100))" "$seed"
for world in first second; do
  echo
  build-figures/tests/figures/coverage_figures "$trials" "$seed" "$world"
done
echo
build-figures/tests/figures/mix_figures "$((trials < 300 ? trials : 300))" "$seed"
