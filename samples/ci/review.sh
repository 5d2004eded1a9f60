#!/bin/sh
# Checks the library and tells what changed in meaning since a revision. Usage: review.sh BASE [FOLDER]
set -u
base="${1:?Say which revision to compare with, such as origin/main}"
folder="${2:-.}"
misce="${MISCE:-misce}"

# A working folder that is used again must not show the review of another change.
rm -f misce-report.sarif misce-junit.xml misce-review.html misce-review.md

$misce format --check "$folder" || echo "Some files are not in the canonical layout; run: misce format $folder"

$misce check --quiet --report-only --format sarif --output misce-report.sarif "$folder"
$misce check --quiet --report-only --format junit --output misce-junit.xml "$folder"
$misce check "$folder"
status=$?

# A change in meaning gives status 1 here, and that is no fault: a reviewer decides. Status 2 is one.
$misce compare --format html --output misce-review.html "$base" "$folder"
$misce compare --format markdown --output misce-review.md "$base" "$folder"
compared=$?
if [ "$compared" -ge 2 ]; then
  echo "Not everything could be compared with $base." >&2
  status=2
fi
if [ -f misce-review.md ]; then cat misce-review.md; fi
exit "$status"
