#!/bin/sh
# Builds the benchmarks (Release) and prints lines "name ratio aim": how long something takes here over how long the same takes
# elsewhere, both measured in turns in one run; where nobody does the same, names end in -ms and the time itself is printed, in
# milliseconds; and the program's peak memory in MB. Nothing is asserted.
#   tests/bench/ratios.sh [BUILD-FOLDER]
# The photo: a baseline JPEG of 4000 x 3000 pixels (4:2:0, quality 90), made on the spot; panel and card of 700 x 700 and a grey
# patch of 350 x 350 pixels, between rows 1150 and 1850; the same again with a chart of 24 patches between rows 2050 and 2850.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
build=${1:-$root/build-bench}
jobs=${JOBS:-2}

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM

quietly() {
  "$@" >"$work/log" 2>&1 || { cat "$work/log" >&2; exit 1; }
}
quietly cmake -S "$root" -B "$build" -DCMAKE_BUILD_TYPE=Release -DHUEWRIGHT_BENCH=ON -DHUEWRIGHT_SANITIZE=OFF
quietly cmake --build "$build" -j "$jobs" --target huewright bench_photo imread_only peak_memory ratios live_bench
if [ -n "$(find "$build" -name libdesk.a)" ]; then quietly cmake --build "$build" -j "$jobs" --target desk_bench; fi

words=$("$build/tests/bench/bench_photo" "$work/photo.jpg" "$work/chart.jpg")
echo "# $(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -n 1), $(nproc) processors; photos of $(wc -c <"$work/photo.jpg") and $(wc -c <"$work/chart.jpg") bytes"
"$build/tests/bench/ratios" "$work/photo.jpg" "$work/chart.jpg"
# $words is split on purpose: no word in it holds a space but the folder's, which mktemp chose.
echo "# largest resident memory of huewright judge on that photo, MB"
printf '%-28s %8s %6s\n' peak-memory-mb "$("$build/tests/bench/peak_memory" "$build/bin/huewright" $words)" 80
"$build/tests/bench/live_bench"
if [ -x "$build/tests/bench/desk_bench" ]; then
  echo "# the window without a screen: milliseconds of this thread"
  "$build/tests/bench/desk_bench" "$work/photo.jpg"
fi
