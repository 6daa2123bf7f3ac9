#!/usr/bin/env bash
# The app's server as a browser and a stranger meet it, by curl.
# Usage: tests/server/run.sh PATH/TO/fallwright     (its verb serve starts fallwright-serve beside it)
set -uo pipefail
fallwright=$(realpath "$1")
work=$(mktemp -d)
server=
passed=0
failed=0
trap '[ -z "$server" ] || kill "$server" 2> /dev/null; rm -rf "$work"' EXIT

check() { # WHAT COMMAND...: the command holds
    local what=$1
    shift
    if "$@"; then passed=$((passed + 1)); else failed=$((failed + 1)); echo "FAILED $what"; fi
}
is() { [ "$1" = "$2" ] || { echo "  '$1' is not '$2'"; return 1; }; }
has() { grep -qiF -- "$2" <<< "$1" || { echo "  '$2' is not in '$1'"; return 1; }; }
lacks() { ! grep -qiF -- "$2" <<< "$1" || { echo "  '$2' is in '$1'"; return 1; }; }

app=$work/app
mkdir -p "$app/assets" "$app/.git" "$work/outside"
echo '<!doctype html><title>app</title>' > "$app/index.html"
echo 'console.log(1);' > "$app/assets/main-a1B2c3D4.js"
echo 'console.log(2);' > "$app/assets/plain.js"
printf '\0asm\1\0\0\0' > "$app/core.wasm"
echo '{}' > "$app/app.webmanifest"
echo 'self' > "$app/sw.js"
: > "$app/empty.css"
gzip -k -9 "$app/assets/main-a1B2c3D4.js"
brotli -k "$app/assets/main-a1B2c3D4.js"
echo secret > "$work/outside/secret.txt"
echo secret > "$app/.git/config"
ln -s ../outside/secret.txt "$app/link.txt"
ln -s ../outside "$app/folder"

start() { # ARGUMENTS...: starts it and takes its address from what it says
    "$fallwright" serve "$@" > "$work/said" 2> "$work/warned" &
    server=$!
    local i
    for i in $(seq 100); do
        address=$(grep -o 'http://[^ "]*' "$work/said") && return 0
        kill -0 "$server" 2> /dev/null || return 1
        sleep 0.1
    done
    return 1
}
status_of() { curl -s -o "$work/body" -w '%{http_code}' --path-as-is "$@"; }
headers_of() { curl -s -o "$work/body" -D - --path-as-is "$@"; }

check "it starts and says its address" start --app "$app" --port 0
check "on loopback" has "$address" http://127.0.0.1:
lines=$(wc -l < "$work/warned")
check "without a warning" is "$lines" 0

head=$(headers_of "$address")
check "the first page" has "$head" '200'
check "its bytes" cmp -s "$work/body" "$app/index.html"
check "text/html" has "$head" 'content-type: text/html; charset=utf-8'
for policy in "default-src 'self'" "script-src 'self' 'wasm-unsafe-eval'" "worker-src 'self'" "object-src 'none'" "frame-ancestors 'none'"; do
    check "policy: $policy" has "$head" "$policy"
done
check "no inline, no eval" lacks "$head" "'unsafe-"
check "nosniff" has "$head" 'x-content-type-options: nosniff'
check "no referrer" has "$head" 'referrer-policy: no-referrer'
check "the first page is asked for again" has "$head" 'cache-control: no-cache'
check "the worker of the app too" has "$(headers_of "$address"sw.js)" 'cache-control: no-cache'
check "a name without a hash too" has "$(headers_of "$address"assets/plain.js)" 'cache-control: no-cache'
check "a hashed name is kept" has "$(headers_of "$address"assets/main-a1B2c3D4.js)" 'immutable'
check "wasm" has "$(headers_of "$address"core.wasm)" 'content-type: application/wasm'
check "its bytes" cmp -s "$work/body" "$app/core.wasm"
check "manifest" has "$(headers_of "$address"app.webmanifest)" 'content-type: application/manifest+json'
check "script" has "$(headers_of "$address"sw.js)" 'content-type: text/javascript'
check "an empty file" has "$(headers_of "$address"empty.css)" 'content-length: 0'
check "a query changes nothing" is "$(status_of "$address?x=1")" 200
check "HEAD" is "$(curl -s -I -o "$work/body" -w '%{http_code}' "$address")" 200

script=$address'assets/main-a1B2c3D4.js'
head=$(headers_of -H 'Accept-Encoding: gzip, deflate, br' "$script")
check "brotli where there is one" has "$head" 'content-encoding: br'
check "that says so" has "$head" 'vary: accept-encoding'
check "its bytes" cmp -s "$work/body" "$app/assets/main-a1B2c3D4.js.br"
check "gzip" has "$(headers_of -H 'Accept-Encoding: gzip' "$script")" 'content-encoding: gzip'
check "its bytes" cmp -s "$work/body" "$app/assets/main-a1B2c3D4.js.gz"
check "refused by weight" lacks "$(headers_of -H 'Accept-Encoding: br;q=0, gzip;q=0' "$script")" content-encoding
check "plain where nothing is said" lacks "$(headers_of "$script")" content-encoding
check "nothing is compressed on the way" lacks "$(headers_of -H 'Accept-Encoding: gzip, br' "$address")" content-encoding
tag=$(headers_of "$script" | tr -d '\r' | sed -n 's/^etag: //Ip')
check "what is there already is not sent again" is "$(status_of -H "If-None-Match: $tag" "$script")" 304
check "another tag is" is "$(status_of -H 'If-None-Match: "0"' "$script")" 200

for path in ../outside/secret.txt %2e%2e/outside/secret.txt ..%2foutside%2fsecret.txt assets/../../outside/secret.txt \
    assets/%2e%2e/%2e%2e/outside/secret.txt '..\outside\secret.txt' '%5c..%5coutside' link.txt folder/secret.txt .git/config \
    /etc/passwd //etc/passwd index.html%00.js assets assets/ folder nothing.js index.html/ 'index.html::$DATA' ./index.html; do
    check "no file: $path" is "$(status_of "$address$path")" 404
    check "nothing told: $path" lacks "$(cat "$work/body")" secret
done
check "that carries the policy as well" has "$(headers_of "$address"nothing)" 'content-security-policy'
for method in POST PUT DELETE OPTIONS PATCH; do
    check "$method" is "$(status_of -X "$method" -d x=1 "$address")" 405
done
check "a large body is not taken" test "$(head -c 100000 /dev/zero | status_of -X POST --data-binary @- "$address")" -ge 400
port=${address##*:}
port=${port%/}
"$fallwright" serve --app "$app" --port "$port" > /dev/null 2> "$work/busy"
check "a port that is taken: exit 2" is $? 2
check "and the cure" has "$(cat "$work/busy")" '--port 0'
check "still there" is "$(status_of "$address")" 200
kill -TERM "$server"
wait "$server"
check "SIGTERM ends it well" is $? 0
check "gone" is "$(status_of "$address")" 000

check "again" start --app "$app" --port 0 --json
check "says JSON" has "$(cat "$work/said")" '{"address":"http://127.0.0.1:'
kill -INT "$server"
wait "$server"
check "SIGINT ends it well" is $? 0
check "open to the network when asked" start --app "$app" --port 0 --listen 0.0.0.0
check "said so" has "$(cat "$work/warned")" 'over the network'
kill -TERM "$server"
wait "$server"
server=

"$fallwright" serve --app "$work/outside" > "$work/said" 2>&1
check "no app there: exit 2" is $? 2
check "one line" is "$(wc -l < "$work/said")" 1
check "and the cure" has "$(cat "$work/said")" 'name the folder of a built app'
mkdir -p "$work/bare/bin"
cp "$(dirname "$fallwright")"/fallwright{,-serve} "$work/bare/bin"
"$work/bare/bin/fallwright" serve > "$work/said" 2>&1
check "none built: exit 2" is $? 2
check "and the cure" has "$(cat "$work/said")" './run app --build'
mkdir -p "$work/bare/share/fallwright"
cp -r "$app" "$work/bare/share/fallwright/app"
fallwright=$work/bare/bin/fallwright
check "an installed app is found" start --port 0
check "and served" is "$(status_of "$address")" 200
kill -TERM "$server"
wait "$server"
server=
rm "$work/bare/bin/fallwright-serve"
"$fallwright" serve > "$work/said" 2>&1
check "the program beside is missing: exit 2" is $? 2
check "said so" has "$(cat "$work/said")" 'fallwright-serve'

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
