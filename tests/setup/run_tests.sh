# Running the tests of a build folder and counting them. To be sourced by a bash script.

# run_tests FOLDER [CTEST-OPTION...]: runs them, names each skipped one with its reason, and closes with
# "N passed, N failed, N skipped". Fails if a test fails, or if there was none. Where one process runs several
# cases of GoogleTest, each case is counted; one that crashes counts as one failure.
run_tests() {
  local folder=$1 results status=0
  shift
  results=$PWD/$folder/test-results.xml
  rm -f "$results"
  ctest --test-dir "$folder" --output-on-failure -j2 --no-tests=error --test-output-size-passed 1000000 \
    --test-output-size-failed 1000000 --output-junit "$results" "$@" </dev/null || status=$?
  [ -f "$results" ] || : >"$results"
  awk '
    function plain(text) {
      gsub(/&lt;/, "<", text); gsub(/&gt;/, ">", text); gsub(/&quot;/, "\"", text); gsub(/&amp;/, "\\&", text)
      return text
    }
    function attribute(name) {
      return match($0, " " name "=\"[^\"]*\"") ? plain(substr($0, RSTART + length(name) + 3, RLENGTH - length(name) - 4)) : ""
    }
    function list_skipped(case_name) {
      list = list "  " case_name ": " (reason == "" ? "no reason given" : reason) "\n"
      reason = ""
    }
    /^\t<testcase / {
      name = attribute("name"); status = attribute("status"); cases = broken = ran = left_out = reason_open = 0; reason = last = ""
      if (status == "run" || status == "fail") ran = 1
      else if (status == "disabled") { ++skipped; left_out = 1; reason = "switched off in the source" }
    }
    /^\t\t<skipped message=/ {
      # Anything else that did not run, such as a missing executable, is a failure.
      if (attribute("message") ~ /^SKIP_/) { ++skipped; left_out = 1 } else ++failed
      next
    }
    # What GoogleTest says at its end, of all its cases.
    ran && /^\[  (PASSED |SKIPPED|FAILED )  ?\] [0-9]+ tests?[.,]/ {
      number = $0; sub(/^[^0-9]*/, "", number); number += 0
      if (/PASSED/) { passed += number; cases = 1 } else if (/SKIPPED/) skipped += number
      else { failed += number; broken = 1 }
      next
    }
    ran && /^\[  SKIPPED \] .* ms\)$/ { part = name; sub(/part[0-9]+$/, "", part); sub(/,$/, "", $4); list_skipped(part plain($4)) }
    /^\[  SKIPPED \]/ { reason_open = 0 }
    reason_open && NF { reason = reason (reason == "" ? "" : " ") plain($0) }
    (left_out || ran) && /: Skipped$/ { reason_open = 1 }
    left_out && !/^\t*<\// { line = $0; sub(/^\t\t<system-out>/, "", line); if (line != "" && line !~ /^\[/) last = plain(line) }
    /^\t<\/testcase>/ {
      if (left_out) {
        if (reason == "" && last !~ /: Skipped$/) reason = last
        list_skipped(name)
      }
      if (status == "run" && !cases) ++passed
      if (status == "fail" && !broken) ++failed
      ran = left_out = 0
    }
    END {
      if (list != "") printf "\nSkipped:\n%s", list
      printf "\n%d passed, %d failed, %d skipped\n", passed, failed, skipped
      exit failed > 0 || passed == 0
    }' "$results" || [ "$status" -ne 0 ] || status=1
  return "$status"
}
