#!/usr/bin/env bash
# run.sh COMMAND...   drives a command that adds an entry through all scripts of this folder; {book} and {entry} in it
# are filled in:      tests/durability/run.sh build/release/fallwright add {book} {entry}
# Ends with the sum, "N passed, N failed", of all scripts; a script that breaks down counts as one failed.
set -uo pipefail
cd "$(dirname "$0")"
[ $# -gt 0 ] || { sed -n '2,4s/^# //p' run.sh >&2; exit 2; }
command -v strace > /dev/null || { echo "strace is missing: apt-get install strace" >&2; exit 2; }
case "$1" in
    */*) command=$(cd "$OLDPWD" && realpath "$1") ;;
    *) command=$1 ;;
esac
shift
passed=0
failed=0
for script in system_calls odd_files full_disk parallel_adds kill_adders; do
    echo "-- $script"
    output=$(/usr/bin/python3 "$script.py" -- "$command" "$@" 2>&1) && status=0 || status=$?
    grep -v '^[0-9]* passed, [0-9]* failed$' <<< "$output"
    read -r well badly < <(awk '/^[0-9]+ passed, [0-9]+ failed$/ { well = $1; badly = $3 } END { print well + 0, badly + 0 }' <<< "$output")
    [ "$status" -ne 0 ] && [ "$badly" -eq 0 ] && badly=1
    passed=$((passed + well))
    failed=$((failed + badly))
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
