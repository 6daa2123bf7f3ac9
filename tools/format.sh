#!/usr/bin/env bash
# tools/format.sh           formats every C++ file in place
# tools/format.sh --check   names the files that it would change, ends with "N passed, N failed"
set -uo pipefail
cd "$(dirname "$0")/.."
mapfile -t files < <(git ls-files --cached --others --exclude-standard -- '*.h' '*.cpp')
if [ "${1:-}" != --check ]; then
    clang-format -i "${files[@]}"
    exit
fi
failed=0
for file in "${files[@]}"; do
    clang-format "$file" | cmp -s - "$file" || { echo "$file: tools/format.sh changes it"; failed=$((failed + 1)); }
done
echo "$((${#files[@]} - failed)) passed, $failed failed"
[ "$failed" -eq 0 ]
