#!/usr/bin/env bash
# Makes the .deb, reads what it says about itself, unpacks it and uses what is in it.
# Arguments: the build folder, and cmake.
set -euo pipefail
. tests/setup/installed.sh
build=$1 cpack=$(dirname "$2")/cpack
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
[ -f sample-images/too-strong.jpg ] || { echo "There are no sample photos in this tree."; exit 77; }
for tool in dpkg-deb dpkg-shlibdeps file; do
  command -v "$tool" >/dev/null || { echo "Making a .deb takes $tool, which is not installed."; exit 77; }
done

"$cpack" -G DEB --config "$build/CPackConfig.cmake" -B "$scratch" >"$scratch/log" 2>&1 || { cat "$scratch/log"; exit 1; }
deb=$(echo "$scratch"/huewright_*_"$(dpkg --print-architecture)".deb)
[ -f "$deb" ] || broken "there is no .deb for this machine's architecture"
for field in Package:huewright Section:graphics 'Maintainer:Huewright maintainers <maintainers@example.org>'; do
  [ "$(dpkg-deb -f "$deb" "${field%%:*}")" = "${field#*:}" ] || broken "the .deb's ${field%%:*} is \"$(dpkg-deb -f "$deb" "${field%%:*}")\""
done
needs=$(dpkg-deb -f "$deb" Depends)
for library in libc6 libjpeg libpng libtiff libheif liblcms2 libexif libraw libssl libgoogle-glog libglfw3; do
  [[ $needs == *$library* ]] || broken "the .deb does not ask for $library: $needs"
done
# Whoever judges photos alone does without OpenCV's videoio, which brings some 200 packages.
[[ $needs != *videoio* ]] || broken "the .deb cannot be installed without OpenCV's videoio: $needs"
wishes=$(dpkg-deb -f "$deb" Recommends)
[[ $wishes == *fonts-dejavu-core* ]] || broken "the .deb does not recommend the window's type: $wishes"
if [ -e "$build/lib/huewright/huewright-frames.so" ]; then
  [[ $wishes == *libopencv-videoio* ]] || broken "the .deb does not recommend OpenCV's videoio: $wishes"
fi
[[ $wishes != *libc6* ]] || broken "the .deb recommends what it needs anyway: $wishes"
[[ $needs != *-dev* ]] || broken "the .deb asks for what only building takes: $needs"
owners=$(dpkg-deb -c "$deb" | awk '$2 != "root/root" || $1 ~ /^.....w|^........w/')
[ -z "$owners" ] || broken "files of the .deb that others than root could write: $owners"

dpkg-deb -x "$deb" "$scratch/unpacked"
check_installed "$scratch/unpacked/usr"
