#!/bin/sh
# Runs a compiler on a file that it must refuse, and every error must be the one that the file itself names:
#   must_fail.sh FILE COMPILER [ARGUMENT...]
set -u
file=$1
shift
reason=$(sed -n 's|^// must fail with: ||p' "$file")
if [ -z "$reason" ]; then
  echo "$file does not say why it must fail."
  exit 1
fi
if output=$(LC_ALL=C "$@" "$file" 2>&1); then
  echo "$file compiled, and must not."
  exit 1
fi
echo "$output"
errors=$(echo "$output" | grep -c 'error:')
right=$(echo "$output" | grep 'error:' | grep -c -E -e "$reason")
if [ "$errors" -eq 0 ] || [ "$errors" -ne "$right" ]; then
  echo "$file failed for another reason than $reason."
  exit 1
fi
