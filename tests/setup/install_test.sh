#!/usr/bin/env bash
# Installs the built program, moves the installation elsewhere, and uses it there.
# Arguments: the build folder, and cmake.
set -euo pipefail
. tests/setup/installed.sh
build=$1 cmake=$2
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
[ -f sample-images/too-strong.jpg ] || { echo "There are no sample photos in this tree."; exit 77; }

"$cmake" --install "$build" --prefix "$scratch/first" >"$scratch/log" || { cat "$scratch/log"; exit 1; }
mv "$scratch/first" "$scratch/second place"
check_installed "$scratch/second place"

# Staged for a package, as the prefix of the installation is not where the files are put.
DESTDIR=$scratch/stage "$cmake" --install "$build" --prefix /usr >"$scratch/log" || { cat "$scratch/log"; exit 1; }
check_installed "$scratch/stage/usr"
