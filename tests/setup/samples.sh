# How the sample photos are judged. To be sourced by a bash script that runs in the project's folder.

# sample_options FILE: the options of judge for a sample photo, from the table in sample-images/README.md. Fails for a second shot, which is not
# judged alone.
sample_options() {
  awk -F '|' -v file="$1" '
    index($2, "`" file "`") {
      if ($8 ~ /second shot/) exit
      gsub(/\([^)]*\)|`/, "", $8)     # what stands in brackets is for people
      gsub(/^ +| +$/, "", $8)
      printf "%s%s--grey-y 0.19", $8, ($8 == "" ? "" : " ")
      n = split($4, mixes, ",")
      for (i = 1; i <= n; ++i) { gsub(/ /, "", mixes[i]); printf " --mix %s", mixes[i] }
      gsub(/ /, "", $5)
      if ($8 !~ /--steps/) printf " --coats %s", $5
      printf " --card-kind same\n"
      found = 1
    }
    END { exit !found }' sample-images/README.md
}
