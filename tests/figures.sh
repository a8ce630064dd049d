#!/usr/bin/env bash
# Measures error, coverage and advice on simulated scenes whose truth is known, and prints the tables that docs/uncertainty.md quotes.
# All of it takes some hours on two cores; not part of the tests.
#   tests/figures.sh [WHAT [SEED [TRIALS_PER_CELL]]]
# WHAT: judge, mat, chart, coverage, ranking, trust, mix, live, soak (a day of a live camera, as fast as it goes), or all (the default). Without a seed one is drawn, so that no run repeats the one the program was tuned on.
set -euo pipefail
cd "$(dirname "$0")/.."
. tests/setup/packages.sh

all=(judge mat chart coverage ranking trust mix live soak)
what=${1:-all}
seed=${2:-$(od -An -N4 -tu4 /dev/urandom | tr -d ' ')}
trials=${3:-400}
if [ "$what" != all ]; then
  case " ${all[*]} " in
    *" $what "*) all=("$what") ;;
    *) echo "There are no figures called \"$what\". Ask for one of: ${all[*]}, all" >&2; exit 2 ;;
  esac
fi
at_most() { echo $((trials < $1 ? trials : $1)); }
figures=build-figures/tests/figures

judge() {
  for light in even uneven numbers; do
    echo
    "$figures/judge_figures" "$trials" "$seed" "$light"
  done
}
mat() {
  "$figures/mat_figures" finder "$(at_most 300)" "$seed"
  for part in falloff flake veil steps; do
    echo
    "$figures/mat_figures" "$part" "$trials" "$seed"
  done
}
chart() {
  "$figures/chart_figures" finder "$(at_most 300)" "$seed"
  echo
  "$figures/chart_figures" colour "$(at_most 100)" "$seed"
}
coverage() {
  for world in first second; do
    echo
    "$figures/coverage_figures" "$trials" "$seed" "$world"
  done
}
ranking() { "$figures/ranking_figures" "$((5 * trials))" "$seed"; }
mix() { "$figures/mix_figures" "$(at_most 300)" "$seed"; }
live() { "$figures/live_figures" noise "$(at_most 60)" "$seed"; }
soak() { "$figures/live_figures" soak 24 "$seed"; }
trust() { "$figures/trust_figures" "$(at_most 250)" "$seed"; }

log=build-figures/log.txt
mkdir -p build-figures
: >"$log"
need_packages "$log" "${build_packages[@]}"
targets=("${all[@]/%/_figures}")
targets=("${targets[@]/soak_figures/live_figures}")
echo "Building"
quietly "$log" cmake -S . -B build-figures -G Ninja -DCMAKE_BUILD_TYPE=Release -DHUEWRIGHT_FIGURES=ON
quietly "$log" cmake --build build-figures --parallel "$(nproc)" --target "${targets[@]}"
for part in "${all[@]}"; do
  echo
  "$part"
done
