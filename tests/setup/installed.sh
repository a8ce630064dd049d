# What an installed Huewright must be able to do. To be sourced by a bash script that runs in the project's folder.
. tests/setup/samples.sh

broken() { echo "$*" >&2; exit 1; }

# check_installed PREFIX: everything is in its place under PREFIX, and works from there.
check_installed() {
  local prefix=$1 doc=$1/share/doc/huewright file program options said
  for file in LICENSE README.md copyright sample-images/README.md sample-images/too-strong.jpg; do
    [ -s "$doc/$file" ] || broken "share/doc/huewright/$file was not installed"
  done
  [ ! -e "$doc/sample-images/demo.sh" ] || broken "the demo, which needs the source, was installed"
  cmp calib/standards.json "$prefix/share/huewright/calib/standards.json" || broken "the program's data was not installed as it is"

  for file in on-the-mat.jpg with-chart.jpg teal-series.json; do
    cmp "sample-images/$file" "$prefix/share/huewright/samples/$file" || broken "the sample job's $file was not installed as it is"
  done

  # The program, run from elsewhere and by another name, must find its own data.
  options=$(sample_options too-strong.jpg) || broken "sample-images/README.md no longer tells how to judge too-strong.jpg"
  mkdir -p "$prefix/elsewhere"
  ln -s "../bin/huewright" "$prefix/elsewhere/hw"
  # shellcheck disable=SC2086  # the options are words
  said=$(cd / && env -u HUEWRIGHT_DATA PATH= "$prefix/elsewhere/hw" judge "$doc/sample-images/too-strong.jpg" $options --json) \
    || broken "the installed program cannot judge its sample photo"
  grep -q '"de00"' <<<"$said" || broken "the installed program judged its sample photo without a colour difference: $said"
  rm -r "$prefix/elsewhere"
  if command -v readelf >/dev/null && readelf -d "$prefix/bin/huewright" | grep -qE 'RPATH|RUNPATH'; then
    broken "the installed program looks for libraries where it was built"
  fi

  # The module for cameras, where it was built: the only file that is linked with OpenCV's videoio.
  file=$prefix/lib/huewright/huewright-frames.so
  if command -v readelf >/dev/null; then
    for program in "$prefix"/bin/*; do
      ! readelf -d "$program" | grep -q 'libopencv_videoio' || broken "$program is linked with OpenCV's videoio"
    done
    if [ -e "$file" ]; then
      readelf -d "$file" | grep -q 'libopencv_videoio' || broken "the module for cameras is not linked with OpenCV's videoio"
      ! readelf -d "$file" | grep -qE 'RPATH|RUNPATH' || broken "the module for cameras looks for libraries where it was built"
    fi
  fi

  # The window, where it was built.
  if [ -e "$prefix/bin/huewright-desk" ]; then
    grep -q '^Exec=huewright-desk %F$' "$prefix/share/applications/huewright-desk.desktop" || broken "the window has no desktop entry"
    said=$(env -u DISPLAY -u WAYLAND_DISPLAY "$prefix/bin/huewright-desk" 2>&1) && broken "the window opened without a display"
    [[ $said == "No window can be opened here"* ]] || broken "without a display the window says: $said"
  fi

  local page=$prefix/share/man/man1/huewright.1.gz completion=$prefix/share/bash-completion/completions/huewright
  said=$(gzip -dc "$page") || broken "the man page was not installed"
  for file in '^\.TH HUEWRIGHT 1' '^\.SH NAME' '^\.SH "COMMAND judge"' '^\.SH "EXIT STATUS"'; do
    grep -q "$file" <<<"$said" || broken "the man page has no line like $file"
  done
  if command -v groff >/dev/null; then
    said=$(groff -man -Tutf8 -ww -z <(gzip -dc "$page") 2>&1) || broken "groff cannot set the man page: $said"
    [ -z "$said" ] || broken "groff warns about the man page: $said"
  fi

  bash -n "$completion" || broken "the completion is not a bash script"
  said=$(bash --norc --noprofile -c '
    . "$1"
    function=$(complete -p huewright | sed "s/.* -F \([^ ]*\) .*/\1/")
    COMP_WORDS=(huewright jud) COMP_CWORD=1
    "$function" huewright jud huewright && echo "${COMPREPLY[*]}"
    COMP_WORDS=(huewright judge --card-k) COMP_CWORD=2
    "$function" huewright --card-k judge && echo "${COMPREPLY[*]}"' bash "$completion")
  [ "$said" = $'judge\n--card-kind' ] || broken "the completion answers \"$said\" instead of judge and --card-kind"
}
