#!/usr/bin/env bash
# Builds Huewright on Debian 12 or later and judges a sample photo.
set -euo pipefail
cd "$(dirname "$0")/.."
. tests/setup/packages.sh
. tests/setup/samples.sh

log=build/log.txt
mkdir -p build
: >"$log"
need_packages "$log" "${build_packages[@]}"
if [ -x build/bin/huewright ]; then again=; else again=" (a minute or two, the first time)"; fi
echo "Building Huewright in $PWD/build$again"
build_into build "$log" -DCMAKE_BUILD_TYPE=Release -DHUEWRIGHT_TESTS=OFF -DHUEWRIGHT_BENCH=OFF

# command_for FILE [OPTION]: the whole command for a sample photo, in lines that fit a terminal.
command_for() {
  local options
  options=$(sample_options "$1")
  printf '  build/bin/huewright judge sample-images/%s \\\n    %s%s\n' \
    "$1" "$(sed 's/ --grey-y/ \\\n    --grey-y/' <<<"$options")" "${2:+ $2}"
}

try=$(command_for too-strong.jpg)
printf '\nHere is a photo of a panel beside the wanted colour, with too much of the strong tint in it. This command judges it:\n\n%s\n\n' "$try"
bash -c "$try"

cat <<END

What to try next, in $PWD:

a panel that matches
$(command_for there.jpg)

four panels, ranked against one card
$(command_for four-panels.jpg)

a photo on the printed mat, no places needed
$(command_for on-the-mat.jpg)

the first photo again, as JSON for other programs
$(command_for too-strong.jpg --json)

all options
  build/bin/huewright judge --help
END
