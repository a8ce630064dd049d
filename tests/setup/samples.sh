# How the sample photos are judged. To be sourced by a bash script that runs in the project's folder.

# sample_options FILE: the options of judge for a sample photo, from the table in sample-images/README.md.
sample_options() {
  awk -F '|' -v file="$1" '
    index($2, "`" file "`") {
      gsub(/`|^ +| +$/, "", $8)
      printf "%s --grey-y 0.19", $8
      n = split($4, mixes, ",")
      for (i = 1; i <= n; ++i) { gsub(/ /, "", mixes[i]); printf " --mix %s", mixes[i] }
      gsub(/ /, "", $5)
      printf " --coats %s --card-kind same\n", $5
      found = 1
    }
    END { exit !found }' sample-images/README.md
}
