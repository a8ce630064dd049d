#!/usr/bin/env bash
# Drives the real window with keys and clicks, in an X server of its own that draws by software, and looks at it.
# Arguments: the build's bin folder, and the source folder.
set -euo pipefail
bin=$1 source=$2

for tool in xvfb-run xdotool import convert; do
  command -v "$tool" >/dev/null || { echo "$tool is missing: the window is not tested. Install xvfb, xdotool, imagemagick and libgl1-mesa-dri."; exit 77; }
done
if [ -z "${HUEWRIGHT_OWN_SCREEN-}" ]; then
  exec env HUEWRIGHT_OWN_SCREEN=1 LIBGL_ALWAYS_SOFTWARE=1 xvfb-run -a -s "-screen 0 1280x800x24 -noreset" bash "$0" "$@"
fi

scratch=$(mktemp -d)
window=
trap '[ -z "$window" ] || kill -9 "$window" 2>/dev/null || true; rm -rf "$scratch"' EXIT
unset XDG_PICTURES_DIR XDG_CONFIG_HOME
export XDG_STATE_HOME=$scratch/state XDG_DATA_HOME=$scratch/data HOME=$scratch
kept=$XDG_STATE_HOME/huewright/sitting.json
samples=$source/sample-images
photo=$samples/on-the-mat.jpg
checks=0 failures=0
is() {  # what, found, wanted
  checks=$((checks + 1))
  if [ "$2" = "$3" ]; then echo "ok: $1"; else failures=$((failures + 1)); echo "NOT: $1: \"$2\" instead of \"$3\""; fi
}
between() {  # what, found, least, most
  is "$1 ($3 to $4: $2)" "$([ "$2" -ge "$3" ] && [ "$2" -le "$4" ] && echo yes)" yes
}
within() {  # seconds, command...: polls until it succeeds
  local end=$((SECONDS + $1))
  shift
  until "$@"; do
    [ "$SECONDS" -lt "$end" ] || return 1
    sleep 0.05
  done
}
soon() { is "$1" "$(within 8 kept_has "$2" && echo yes)" yes; }               # what, pattern in the kept sitting
yes_soon() { is "$1" "$(within 8 "${@:2}" && echo yes)" yes; }                # what, command...
kept_flat() { tr -d '\n ' <"$kept" 2>/dev/null; }
kept_has() { kept_flat | grep -qE "$1"; }
kept_part() {                                                                # photos, choices or series
  local -A next=([photos]=choices [choices]=series [series]=series_file)
  kept_flat | sed -E "s/.*\"$1\":(.*),\"${next[$1]}\":.*/\1/"
}
set_kept() {                                                                 # name, number, ...: of the window
  while [ $# -gt 0 ]; do sed -i -E "s/\"$1\": [0-9.]+/\"$1\": $2/" "$kept"; shift 2; done
}

# --- The window
window_is_there() { xdotool search --onlyvisible --name '^Huewright$' >/dev/null 2>&1; }
start_window() {
  "$bin/huewright-desk" "$@" >"$scratch/log" 2>&1 &
  window=$!
  disown "$window"
  xdotool mousemove 1279 799
  within 10 window_is_there || { echo "No window came up:"; cat "$scratch/log"; exit 1; }
}
open_window() { start_window "$@"; at_rest; }
kill_window() {
  kill -9 "$window" 2>/dev/null || true
  within 5 window_is_away || true
  window=
}
window_is_away() { ! kill -0 "$window" 2>/dev/null && ! window_is_there; }
shoot() { import -silent -window root "$scratch/shot.ppm"; }
still() {
  local now
  now=$(import -silent -window root rgb:- | md5sum)
  [ "$now" = "${seen-}" ] && return 0
  seen=$now
  return 1
}
at_rest() { seen=; within 10 still; }
press() { xdotool key --delay 120 "$1"; }                                   # for 60 ms, as a finger does
click_at() { xdotool mousemove "$1" "$2" mousedown 1; at_rest; xdotool mouseup 1; at_rest; xdotool mousemove 1279 799; }
write_in() {  # "x y" of a field, text
  # shellcheck disable=SC2086
  click_at $1
  xdotool key --delay 120 ctrl+a type --delay 12 "$2"
  xdotool key --delay 12 Return
  at_rest
}
cpu_ticks() { awk '{ print $14 + $15 }' "/proc/$window/stat"; }

# --- What the picture shows
surrounds=(48 119 190) sheets=(40 132 205) controls=(68 152 176)             # as theme.cpp has them: dark, mid, light
areas() {  # grey, least pixels: "y x width height" of every area of just this grey, in reading order
  convert "$scratch/shot.ppm" -alpha off -fill black +opaque "rgb($1,$1,$1)" -fill white -opaque "rgb($1,$1,$1)" -threshold 50% \
    -define connected-components:verbose=true -connected-components 4 null: |
    awk -v least="$2" '$4 >= least && $5 ~ /255|white/ { split($2, a, /[x+]/); print a[4], a[3], a[1], a[2] }' | sort -n -k1,1 -k2,2
}
sheet_is_open() { shoot; areas "${sheets[1]}" 60000 | head -n 1 | grep -q .; }
sheet_is_away() { ! sheet_is_open; }
in_sheet() {  # middles, "x y", of what can be pressed or filled in on the sheet, in reading order
  local top left width height
  shoot
  read -r top left width height < <(areas "${sheets[1]}" 60000)
  areas "${controls[1]}" 1500 | awk -v t="$top" -v l="$left" -v w="$width" -v h="$height" \
    '$1 > t && $1 + $4 < t + h && $2 > l && $2 + $3 < l + w { print int($2 + $3 / 2), int($1 + $4 / 2) }'
}
message_is_shown() { shoot; areas "${sheets[1]}" 15000 | awk '$3 > 1000 && $4 < 120 { found = 1 } END { exit !found }'; }
message_is_away() { ! message_is_shown; }
tallest_button() {  # surround: the height of the first button of the first row
  shoot
  tall=$(areas "${controls[$1]}" 1000 | awk 'NR == 1 { print $4 }')
}
has_colours() { shoot && [ "$(identify -format %k "$scratch/shot.ppm")" -ge "$1" ]; }
lively() { yes_soon "$1: the picture is not blank" has_colours "$2"; }          # what, least colours
corners() {  # surround
  shoot
  local found
  found=$(convert "$scratch/shot.ppm" \( -clone 0 -crop 1x1+1+1 \) \( -clone 0 -crop 1x1+1278+1 \) \( -clone 0 -crop 1x1+1+798 \) \( -clone 0 -crop 1x1+1278+798 \) \
    -delete 0 +repage +append -depth 8 rgb:- | od -An -v -w12 -tu1)
  [ "$(tr -s ' ' <<<"$found")" = "$(printf " ${surrounds[$1]}%.0s" {1..12})" ]
}
# The sRGB codes of the panels and the card as the command line judges them. Lab D50 to sRGB: CIE 15 and IEC 61966-2-1, the matrix from D50 by Bradford as published by B. Lindbloom, from memory.
declare -A judged
expected_codes() {  # options
  "$bin/huewright" judge "$photo" $1 --json | tr -d '\n ' | grep -oE '"(colour|card)":\{"lab":\[[^]]*\]' | sed 's/.*\[//; s/\]//' | sort -u | awk -F, '
    function f(t) { return t > 6 / 29 ? t ^ 3 : 3 * (6 / 29) ^ 2 * (t - 4 / 29) }
    function code(v) { v = v <= 0.0031308 ? 12.92 * v : 1.055 * v ^ (1 / 2.4) - 0.055; return v < 0 ? 0 : v > 1 ? 255 : int(255 * v + 0.5) }
    { y = ($1 + 16) / 116; X = 0.96422 * f(y + $2 / 500); Y = f(y); Z = 0.82521 * f(y - $3 / 200)
      print code(3.1338561 * X - 1.6168667 * Y - 0.4906146 * Z), code(-0.9787684 * X + 1.9161415 * Y + 0.0334540 * Z), code(0.0719453 * X - 0.2289914 * Y + 1.4052427 * Z) }'
}
has_fields_of() {  # "red green blue"...: for each, one flat colour within a code of it covers 5000 pixels or more
  shoot
  local histogram code
  histogram=$(convert "$scratch/shot.ppm" -alpha off -depth 8 -format %c histogram:info:- | tr '(),:' '    ' | awk '$1 >= 5000 { print $2, $3, $4 }')
  for code; do
    awk -v wanted="$code" 'BEGIN { split(wanted, w) } function near(a, c) { return a - c <= 1 && c - a <= 1 } near($1, w[1]) && near($2, w[2]) && near($3, w[3]) { found = 1 } END { exit !found }' <<<"$histogram" || return 1
  done
}
swatches() {  # what, options of judge: card and panels A, B, C
  [ -n "${judged[x$2]-}" ] || judged[x$2]=$(expected_codes "$2")
  local codes
  mapfile -t codes <<<"${judged[x$2]}"
  is "$1: card and panels have the colours that the command line judges ($(IFS=,; echo "${codes[*]// /-}"))" "${#codes[@]} $(within 8 has_fields_of "${codes[@]}" && echo yes)" "4 yes"
}

# --- Without a screen
status=0
env -u DISPLAY -u WAYLAND_DISPLAY "$bin/huewright-desk" >"$scratch/out" 2>"$scratch/err" || status=$?
is "without a screen it ends with exit code 5" "$status" 5
is "... and one sentence" "$(wc -l <"$scratch/err") $(grep -c '^No window can be opened here .*\.$' "$scratch/err") $(wc -c <"$scratch/out")" "1 1 0"

# --- First start
open_window
yes_soon "the first start shows the first steps" sheet_is_open
press Escape
yes_soon "Esc puts them away" sheet_is_away
soon "... for good" '"been_here":1'
press F11
yes_soon "F11 brings them back" sheet_is_open
read -r first < <(in_sheet)
# shellcheck disable=SC2086
click_at $first
soon "their first button opens the sample photo" '"photos":\[\{[^]]*on-the-mat\.jpg'
yes_soon "... and puts them away" sheet_is_away
at_rest
swatches "the sample photo" ""
kill_window

# --- A bench day
rm -rf "$XDG_STATE_HOME"
open_window "$photo"
soon "a photo named at the start is opened" '"photos":\[\{[^]]*on-the-mat\.jpg'
at_rest
yes_soon "... and the first steps do not cover it" sheet_is_away
press e
yes_soon "E opens how it was sprayed" sheet_is_open
# The fields stand in reading order: three mixes, coats, strips, carrier.
mapfile -t field < <(in_sheet)
for entry in 0:1 1:5 2:1 3:4 4:1 5:2 6:4 8:5; do
  write_in "${field[${entry%:*}]}" "${entry#*:}"
done
soon "the mixes, coats and carrier that were typed are taken" '"mixes":\[\[1\.0,5\.0\],\[1\.0,4\.0\],\[1\.0,2\.0\]\],"coats":4\.0,"steps":\[\],"carrier":5\.0'
soon "... and Enter in a field keeps no reading" '"series":null'
press Escape
yes_soon "Esc puts the sheet away" sheet_is_away
at_rest
swatches "the photo with its mixes" "--mix 1:5 --mix 1:4 --mix 1:2 --coats 4"
press Return
soon "Enter keeps the three readings" '"panels":\[\{[^]]*\]?[^]]*"weak":5\.0.*"weak":4\.0.*"weak":2\.0.*"series_file"'
series_kept=$(kept_part series)
for page in 2 3 4; do
  press "F$page"
  soon "F$page turns to page $page" "\"page\":$page\.0"
  at_rest
  lively "page $page" 40
done
xdotool key --delay 1 F1
soon "F1, tapped for less than a frame, turns back" '"page":1\.0'
press ctrl+z
soon "Ctrl+Z takes the readings back" '"series":null'
press ctrl+shift+z
soon "Ctrl+Shift+Z brings them again" '"series":\{'
is "... the same" "$(kept_part series)" "$series_kept"

# --- Idle
at_rest
sleep 3
before=$(cpu_ticks)
sleep 2
after=$(cpu_ticks)
between "at rest its processor time grows by less than 0.05 s in 2 s, in hundredths" "$(((after - before) * 100 / $(getconf CLK_TCK)))" 0 4

# --- Killed
before=$(kept_part photos)$(kept_part choices)$(kept_part series)
kill_window
start_window
kill_window  # while it looks at the photo
open_window
is "killed twice in mid-work, photo, mixes and series are back" "$(kept_part photos)$(kept_part choices)$(kept_part series)" "$before"
swatches "the sitting taken up again" "--mix 1:5 --mix 1:4 --mix 1:2 --coats 4"

# --- A file that is no picture
kill_window
open_window "$samples/README.md"
yes_soon "a file that is no picture is told of in the window" message_is_shown
is "... and changes nothing" "$(kept_part photos)$(kept_part choices)$(kept_part series)" "$before"
press BackSpace
yes_soon "Backspace puts the message away" message_is_away
press F2
soon "... and the window goes on" '"page":2\.0'
press F1
soon "... and back" '"page":1\.0'
kill_window

# --- Every size of type and every surround
for text in 1 2; do
  set_kept text "$text" surround 1 page 1
  open_window
  lively "type ${text}x" 500
  tallest_button 1
  [ "$text" = 1 ] && tall_at_1=$tall
  [ "$text" = 2 ] && between "type 2x: buttons are twice as tall" "$tall" "$((2 * tall_at_1 - 2))" "$((2 * tall_at_1 + 2))"
  for step in 1: 0:bracketleft 1:bracketright 2:bracketright; do
    surround=${step%:*} key=${step#*:}
    [ -z "$key" ] || press "$key"
    yes_soon "type ${text}x${key:+, $key}: the surround's grey is ${surrounds[surround]} in all corners" corners "$surround"
    swatches "... and" "--mix 1:5 --mix 1:4 --mix 1:2 --coats 4"
  done
  kill_window
done

# --- A film in place of a camera, a still of it, a folder that is followed
rm -rf "$XDG_STATE_HOME"
film=$scratch/film
mkdir "$film" "$scratch/in"
for i in 0 1 2; do convert "$photo" -seed "$i" -attenuate 0.1 +noise Gaussian -depth 8 "$film/f_00$i.png"; done
for i in 3 4 5 6 7 8 9; do ln -s "f_00$((i % 3)).png" "$film/f_00$i.png"; done
open_window
press Escape
soon "the first steps are away" '"been_here":1'
kill_window
sed -i -E "s|\"camera\": \"[^\"]*\"|\"camera\": \"$film/f_%03d.png\"|; s|\"followed\": \"[^\"]*\"|\"followed\": \"$scratch/in\"|" "$kept"
open_window
press F5
soon "F5 turns to the live page" '"page":5\.0'
press s
at_rest
lively "the film's last picture is shown" 500
press space
soon "Space takes a still, which is the photo that is judged" '"photos":\[\{[^]]*huewright-stills/still-001\.png","role":"first"'
is "... and has the last frame's pixels" "$(compare -metric AE "$film/f_000.png" "$scratch/huewright-stills/still-001.png" null: 2>&1)" 0
press ctrl+z
soon "Ctrl+Z takes that back" '"photos":\[\]'
press d
at_rest
press ctrl+Return
cp "$photo" "$scratch/in/IMG_1.jpg"
verdict_is_there() { [ -s "$scratch/in/IMG_1.jpg.huewright.txt" ]; }
yes_soon "a photo that comes into the followed folder is judged" verdict_is_there
is "... as the command judges it" "$(head -n 1 "$scratch/in/IMG_1.jpg.huewright.txt")" "$("$bin/huewright" judge "$photo" | head -n 1)"
at_rest
before=$(cpu_ticks)
sleep 2
after=$(cpu_ticks)
between "with a folder followed and no camera running its processor time grows by less than 0.1 s in 2 s, in hundredths" "$(((after - before) * 100 / $(getconf CLK_TCK)))" 0 9
kill_window

echo "$checks checks, $failures failed."
[ "$failures" -eq 0 ]
