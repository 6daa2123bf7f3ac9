#!/usr/bin/env bash
# The main job on the demo book, as a person does it: what stands in the book, what follows from it.
# Usage: tools/main_job.sh PATH/TO/fallwright
set -euo pipefail
cd "$(dirname "$0")/.."
fallwright=$1
book=examples/lane.book.jsonl

show() {
    printf '\n$ fallwright %s\n' "$*"
    "$fallwright" "$@"
}

show evaluate "$book"
