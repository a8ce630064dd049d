# The Debian packages that the scripts need, and how they get them. To be sourced by a bash script.

# To build and run the program.
build_packages=(g++ cmake ninja-build pkg-config
  libjpeg-dev libpng-dev libtiff-dev libheif-dev liblcms2-dev libexif-dev libraw-dev libeigen3-dev libceres-dev
  libcli11-dev libfmt-dev nlohmann-json3-dev libcairo2-dev libssl-dev fonts-dejavu-core libopencv-dev libopencv-contrib-dev libopencv-videoio-dev
  libimgui-dev libstb-dev libglfw3-dev libgl-dev libfreetype-dev)
# On top of them for the tests: dpkg-dev and file are what making the .deb takes, groff-base reads the man page; the last line is a screen for the window,
# drawn by software, and hands and eyes for it.
test_packages=(libgtest-dev dpkg-dev file groff-base zlib1g-dev
  xvfb xauth libgl1-mesa-dri xdotool imagemagick)

# quietly LOG COMMAND...: the command's output goes to LOG, and is shown only if the command fails.
quietly() {
  local log=$1 status=0
  shift
  "$@" </dev/null >>"$log" 2>&1 || status=$?
  if [ "$status" -ne 0 ]; then
    tail -n 60 "$log" >&2
    echo "This failed: $* (all of its output is in $log)" >&2
  fi
  return "$status"
}

# missing_packages PACKAGE...: those of them that are not installed.
missing_packages() {
  local package
  for package; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || echo "$package"
  done
}

# need_packages LOG PACKAGE...: installs what is missing; as root, or with sudo.
need_packages() {
  local log=$1 missing as_root=()
  shift
  mapfile -t missing < <(missing_packages "$@")
  [ "${#missing[@]}" -gt 0 ] || return 0
  if [ "$(id -u)" -ne 0 ]; then
    if ! sudo -n true 2>/dev/null && ! { command -v sudo >/dev/null && [ -t 0 ] && sudo -v; }; then
      echo "These Debian packages are missing, and installing them takes root or sudo: ${missing[*]}" >&2
      return 1
    fi
    as_root=(sudo)
  fi
  echo "Installing ${#missing[@]} Debian packages: ${missing[*]}"
  local apt=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o DPkg::Lock::Timeout=300)
  quietly "$log" "${apt[@]}" update && quietly "$log" "${apt[@]}" install --no-install-recommends "${missing[@]}"
}

# Sources of a folder are joined, so that the headers they share are read once. For the tests; a plain build compiles each by itself.
joined_sources=(-DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=32)

# build_into FOLDER LOG CMAKE-OPTION...: configures and builds everything.
build_into() {
  local folder=$1 log=$2 generator=(-G Ninja)
  shift 2
  if [ -f "$folder/CMakeCache.txt" ]; then generator=(); fi  # keep to the generator that the folder was made with
  quietly "$log" cmake -S . -B "$folder" "${generator[@]}" "$@" && quietly "$log" cmake --build "$folder" --parallel "$(nproc)"
}
