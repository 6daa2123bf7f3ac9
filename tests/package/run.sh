#!/usr/bin/env bash
# What is installed works from where it is installed, and the Debian package has it all.
# Usage: tests/package/run.sh BUILD_FOLDER     (of the release preset, everything built)
set -uo pipefail
cd "$(dirname "$0")/../.."
build=$1
work=build/package
prefix=$(pwd)/$work/prefix
rm -rf "$work"
mkdir -p "$work"
passed=0
failed=0
check() { # WHAT COMMAND...: the command holds
    local what=$1
    shift
    if "$@"; then passed=$((passed + 1)); else failed=$((failed + 1)); echo "FAILED $what"; fi
}
has() { grep -qF -- "$2" <<< "$1" || { echo "  '$2' is not in: $(head -c 400 <<< "$1")"; return 1; }; }
quiet() { "$@" > "$work/said" 2>&1 || { cat "$work/said"; return 1; }; }

check "cmake --install" quiet cmake --install "$build" --prefix "$prefix" --strip
for file in bin/fallwright bin/fallwright-paper bin/fallwright-serve share/man/man1/fallwright.1 \
    share/bash-completion/completions/fallwright share/doc/fallwright/copyright share/doc/fallwright/examples/lane.book.jsonl; do
    check "$file is installed" test -f "$prefix/$file"
done
book=$prefix/share/doc/fallwright/examples/lane.book.jsonl
check "the installed command does the main job" has "$("$prefix/bin/fallwright" check "$book" 2>&1)" '18 stations judged'
check "the programs beside it are found" quiet "$prefix/bin/fallwright-paper" export "$book" --to "$work/lane.xlsx"
check "and write" test -s "$work/lane.xlsx"

# As a shell with the completions asks.
completed() { # WORD...: what the last one may become
    bash -c 'source "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _fallwright; echo "${COMPREPLY[*]}"' \
        complete "$prefix/share/bash-completion/completions/fallwright" "$@"
}
check "commands are completed" has "$(completed fallwright seto)" setout
check "options too" has "$(completed fallwright setout --ev)" --every
check "those of that command only" test -z "$(completed fallwright staff --ev)"
check "and files" has "$(completed fallwright levels examples/lan)" examples/lane.book.jsonl
rendered=$(MANWIDTH=100 man --warnings -l "$prefix/share/man/man1/fallwright.1" 2> "$work/warnings" | col -b)
check "the manual page shows every command" has "$rendered" 'setout'
check "without a warning" test ! -s "$work/warnings"

check "cpack makes a package" quiet cpack -G DEB --config "$build/CPackConfig.cmake" -B "$work"
deb=$(find "$work" -maxdepth 1 -name '*.deb')
check "of one file" test -f "$deb"
content=$(dpkg-deb --contents "$deb")
for file in ./usr/bin/fallwright ./usr/bin/fallwright-paper ./usr/bin/fallwright-serve ./usr/share/man/man1/fallwright.1 \
    ./usr/share/bash-completion/completions/fallwright ./usr/share/doc/fallwright/copyright; do
    check "$file is in it" has "$content" "$file"
done
check "the app is in it" has "$content" ./usr/share/fallwright/app/index.html
# Unpacked, the server finds the app at its place beside it and gives it out.
dpkg-deb --extract "$deb" "$work/unpacked"
"$work/unpacked/usr/bin/fallwright" serve --port 0 --json > "$work/address" 2>&1 &
server=$!
for _ in $(seq 50); do [ -s "$work/address" ] && break; sleep 0.1; done
address=$(sed -n 's/.*"address": *"\([^"]*\)".*/\1/p' "$work/address")
check "its first page comes from there" quiet curl --silent --fail --output "$work/index.html" "${address}index.html"
check "and is the one built" cmp -s dist/index.html "$work/index.html"
kill "$server"
wait "$server" 2> /dev/null
about=$(dpkg-deb --field "$deb")
check "its version" has "$about" "Version: $("$prefix/bin/fallwright" --version | cut -d' ' -f2)"
check "it names the libraries it needs" has "$about" libxlsxwriter
check "nothing belongs to who built it" test -z "$(awk '$2 != "root/root"' <<< "$content")"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
