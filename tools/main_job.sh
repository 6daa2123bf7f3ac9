#!/usr/bin/env bash
# The main job on the demo book, as a person does it: the whole story on one screen, then the details of each step.
# Usage: tools/main_job.sh PATH/TO/fallwright
set -euo pipefail
cd "$(dirname "$0")/.."
fallwright=$1
book=examples/lane.book.jsonl

show() {
    printf '\n$ fallwright %s\n' "$*"
    "$fallwright" "$@"
}

# In short first; then the fall that is there, misclosures, the booked page, levels.
show evaluate "$book"
# The fall is decided: what to set, what the staff must read, what was laid.
show dial "$book" --line D1 --setup S3
show setout "$book" --line D1 --setup S3 --every 6
show check "$book"
# What the levels are for: cover, capacity, trench of the drain; the car park's earth, its tarmac and where water stands.
show drain "$book"
show evaluate examples/car-park.book.jsonl
# What leaves the site: the record to read, print and sign.
mkdir -p build/report
show report "$book" --html build/report/lane.html --pdf build/report/lane.pdf
