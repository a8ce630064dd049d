#!/usr/bin/env bash
# Makes the pictures of docs/desk.md anew: tests/setup/desk_shots.sh build/bin
# Takes xvfb, xdotool, imagemagick and libgl1-mesa-dri; look at the pictures before you commit them.
set -euo pipefail
if [ -z "${HUEWRIGHT_OWN_SCREEN-}" ]; then
  exec env HUEWRIGHT_OWN_SCREEN=1 LIBGL_ALWAYS_SOFTWARE=1 xvfb-run -a -s "-screen 0 1280x800x24 -noreset" bash "$0" "$@"
fi
bin=$(cd "$1" && pwd)
cd "$(dirname "$0")/../.."
samples=$PWD/sample-images pictures=$PWD/docs/pictures

scratch=$(mktemp -d)
window=
trap '[ -z "$window" ] || kill "$window" 2>/dev/null || true; rm -rf "$scratch"' EXIT
export XDG_STATE_HOME=$scratch XDG_DATA_HOME=$scratch/data HOME=$scratch
kept=$scratch/huewright/sitting.json
mkdir -p "$scratch/huewright"

settle() {  # until the picture has been the same for a second and a half: the verdict comes some time after the photo
  local last= now same=0
  for ((i = 0; i < 100 && same < 3; ++i)); do
    now=$(import -silent -window root rgb:- | md5sum)
    if [ "$now" = "$last" ]; then same=$((same + 1)); else same=0; fi
    last=$now
    sleep 0.5
  done
}
film=$scratch/film
make_film() {  # the sample photo as a camera would show it: noise that is new in each frame, eight of them over and over for 20 s
  mkdir -p "$film"
  local i
  for ((i = 0; i < 8; ++i)); do convert "$samples/on-the-mat.jpg" -seed "$i" -attenuate 0.12 +noise Gaussian -depth 8 "$film/$(printf 'f_%03d.png' "$i")"; done
  for ((i = 8; i < 600; ++i)); do ln -s "$(printf 'f_%03d.png' "$((i % 8))")" "$film/$(printf 'f_%03d.png' "$i")"; done
}
begin() {  # photos, mixes, coats, series file or "", chart photos, page: a sitting with that in it
  local series=null
  [ -z "$4" ] || series=$(cat "$4")
  cat >"$kept" <<END
{"format": 1, "photos": [$1], "choices": {"mixes": [$2], "coats": $3, "steps": [], "carrier": 5, "stage": "cleared", "card_kind": "same", "card_lab": null,
 "tolerance": 1.0, "grey_y": 0.19, "kept_grey": true, "encoding": "auto", "use_chart": true, "profile": null},
 "series": $series, "series_file": "$4", "series_saved": true, "tints": null, "part_coats": null, "chart_photos": [$5], "chart_encoding": "auto", "recent": [],
 "window": {"been_here": 1, "width": 1280, "height": 800, "text": 1, "surround": 1, "page": $6}, "camera": "$film/f_%03d.png", "followed": "$scratch/in", "stills": "/home/painter/Pictures/huewright-stills"}
END
  show
}
show() {
  "$bin/huewright-desk" >"$scratch/log" 2>&1 &
  window=$!
  xdotool mousemove 1279 799
  settle
}
press() { for key; do xdotool key "$key"; settle; done; }
keep() {  # name: takes the picture, in as many colours as keep it under 250 kB, and closes the window
  local file=$pictures/desk-$1.png colours
  import -silent -window root "$scratch/shot.png"
  kill "$window"
  wait "$window" 2>/dev/null || true
  window=
  for colours in 256 128 64; do
    convert "$scratch/shot.png" -alpha off +dither -colors "$colours" -strip -define png:exclude-chunks=date,time "PNG8:$file"
    [ "$(stat -c %s "$file")" -gt 250000 ] || break
  done
  echo "$file: $(stat -c %s "$file") bytes"
}
photo() { printf '{"id": %s, "file": "%s", "role": "%s", "by_hand": %s}' "$1" "$samples/$2" "${3:-first}" "${4:-null}"; }

on_the_mat=$(photo 1 on-the-mat.jpg)
three='[1, 5], [1, 4], [1, 2]'

show
keep first

begin "$on_the_mat" "$three" 4 "" "" 1
keep panel

by_hand='{"panels": [[142, 112, 463, 112, 463, 508, 142, 508]], "card": [578, 125, 808, 125, 808, 356, 578, 356], "greys": [[614, 454, 771, 454, 771, 541, 614, 541]], "black": null}'
begin "$(photo 1 too-strong.jpg first "$by_hand")" '[1, 2]' 4 "" "" 1
press d m
xdotool mousemove 280 250
settle
keep hand

begin "$on_the_mat" "$three" 4 "" "" 1
press e
keep sprayed

begin "" "" null "$samples/teal-series.json" "" 2
keep mixes

begin "" "" null "$samples/teal-series.json" "" 2
press p
keep pour

begin "" "" null "" "\"$samples/with-chart.jpg\"" 3
keep camera

begin "$(photo 1 there.jpg first '{"panels": [[149, 110, 465, 110, 465, 510, 149, 510]], "card": [579, 126, 807, 126, 807, 355, 579, 355], "greys": [[614, 453, 770, 453, 770, 542, 614, 542]], "black": null}')" '[1, 3]' 4 "" "" 4
keep room

# Live: photos have come into the folder, and the camera has run for a while. The picture never rests, so it is waited for by the clock.
make_film
mkdir "$scratch/in"
cp "$samples/on-the-mat.jpg" "$scratch/in/IMG_0412.jpg"
begin "" "$three" 4 "" "" 5
press k d ctrl+Return
sleep 3
xdotool key --delay 120 s
sleep 8
keep live

rm -rf "$scratch/in"
begin "" "$three" 4 "" "" 5
xdotool key --delay 120 s F4
sleep 8
keep booth
