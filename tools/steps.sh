# Sourced by ./test: the steps, in the order they run. Each is a function step_NAME that prints its runner's own
# output and summary; tools/count.awk reads the counts from that.

# name | fast or slow | what it shows
STEPS='
repo        | fast | layering, sizes, words, documents of the tree; the checks themselves can fail
format      | fast | clang-format changes nothing
release     | fast | the command line and the case runner build with the product'"'"'s flags
symbols     | fast | the core prints, reads, waits for and ends nothing
cases       | fast | every case file holds; requests and answers are kept for parity
api         | fast | schemas, examples and generated types agree with the answers
docs        | fast | commands in the documents run and say what is written
demo        | fast | the demo books are what their generator makes
unit        | slow | unit and property tests under address and undefined-behaviour sanitizers
properties  | slow | numbered invariants of the whole, on random books
compile     | slow | forbidden mixes of units do not compile
adjust      | slow | 500 random networks against SciPy, null spaces against an SVD
drain       | slow | states, depths, critical depth and falls of random pipes, and pipes that follow random roads, against SciPy
earthwork   | slow | volumes against exact integrals over the triangles of SciPy; planes, ponds, flatness against NumPy
paper       | slow | records as PDF taken apart by poppler: every word, every label, sheets, fonts; what must be refused
record      | fast | drawings and records of the demo books are the approved ones
verdict     | slow | verdicts and joint probabilities against a million draws outside the core
evenness    | slow | roughness, gaps and their uncertainty against integration, hulls and draws outside the core
simulation  | slow | 100 books whose truth is known: intervals, chi-square, false alarms, blunders found
xlsx        | slow | workbooks calculated anew by LibreOffice agree with the answers to their last digit; text stays text
serve       | fast | the app'"'"'s server by curl: types, headers, compression, nothing outside its folder, signals
package     | slow | what is installed works there; manual page and completions are what the commands say; a Debian package
fuzz        | slow | every parser under libFuzzer with sanitizers, 30 s each
exchange    | slow | LandXML, CSV and GeoJSON read by other programs, there and back; projections against PROJ; hostile files
durability  | slow | system calls of add, kills, parallel adds, a full disk
wasm        | slow | the WebAssembly module builds, its loader survives what a browser does to it
parity      | slow | WebAssembly answers with the bytes of the native build; a large book opens
app         | slow | the field app: types, engine, store, entries
browser     | slow | the field app in Chromium: a day at work, doors, offline, crashes, two windows, a full store, joining, access
tidy        | slow | clang-tidy on the change
'

all_steps() { awk -F'|' 'NF == 3 { gsub(/ /, "", $1); print $1 }' <<< "$STEPS"; }
fast_steps() { awk -F'|' 'NF == 3 && $2 ~ /fast/ { gsub(/ /, "", $1); print $1 }' <<< "$STEPS"; }
list_steps() { awk 'NF' <<< "$STEPS"; }
is_step() { all_steps | grep -qx -- "$1"; }

python=/usr/bin/python3

# A command without a summary of its own is one test.
one() {
    if "$@"; then echo "1 passed, 0 failed"; else echo "failed: $*"; echo "0 passed, 1 failed"; return 1; fi
}

step_repo() {
    local status=0
    $python tools/repo/selftest.py || status=1
    $python tools/check_repo.py layers sizes words sections evidence || status=1
    return $status
}
step_format() { tools/format.sh --check; }
step_release() { build release product run_cases; }
step_symbols() { build release fallwright && $python tools/check_repo.py symbols; }
step_cases() {
    build release run_cases || return 1
    rm -rf build/test/emitted
    local status=0
    ctest --test-dir build/release -R '^cases.(runner|second_way)' --output-on-failure || status=1
    # cases/import is run by the unit tests; every other folder holds case files or makes the runner complain.
    find cases -mindepth 1 -maxdepth 1 -type d ! -name import ! -empty -print0 | sort -z |
        xargs -0 build/release/tests/cases/run_cases --emit build/test/emitted || status=1
    return $status
}
step_api() {
    build release fallwright run_cases || return 1
    [ -d build/test/emitted ] || step_cases > /dev/null
    tools/api/check build/release/fallwright build/test/emitted
}
step_docs() { build release fallwright && $python tools/check_docs.py build/release/fallwright; }
step_demo() {
    local status=0 demo=tools/demo
    build release fallwright || return 1
    one $python $demo/make_demo.py --check || status=1
    one $python $demo/car_park.py --check || status=1
    one $python $demo/check_books.py || status=1
    build/release/fallwright evaluate examples/lane.book.jsonl --json > build/test/lane.json || status=1
    one $python $demo/solve_demo.py build/test/lane.json || status=1
    return $status
}
step_unit() {
    build asan unit_tests || return 1
    local halves=() status=0 half
    for half in 0 1; do
        GTEST_TOTAL_SHARDS=2 GTEST_SHARD_INDEX=$half GTEST_BRIEF=1 UBSAN_OPTIONS=print_stacktrace=1 RC_PARAMS="${RC_PARAMS:-seed=20260504}" \
            build/asan/tests/unit_tests > "build/test/unit-$half.log" 2>&1 &
        halves+=($!)
    done
    for half in 0 1; do
        wait "${halves[$half]}" || status=1
        cat "build/test/unit-$half.log"
    done
    return $status
}
step_properties() {
    build asan fallwright_properties || return 1
    GTEST_BRIEF=1 UBSAN_OPTIONS=print_stacktrace=1 build/asan/tests/properties/fallwright_properties
}
step_compile() { configure asan && ctest --test-dir build/asan -R '^compile_fail' -j2 --output-on-failure; }
step_adjust() {
    local status=0 programs=build/release/tests/adjust
    build release adjust_programs || return 1
    one $programs/certified cases/published/*.reg || status=1
    $python tests/adjust/compare.py $programs/adjust_border || status=1
    return $status
}
step_earthwork() {
    build release earthwork_border fallwright &&
        $python tests/earthwork/compare.py build/release/tests/earthwork/earthwork_border build/release/fallwright
}
step_drain() {
    build release fallwright && $python tests/drain/compare.py build/release/fallwright && $python tests/drain/follow.py build/release/fallwright
}
step_record() {
    local status=0
    build release draw_figures fallwright || return 1
    $python tests/record/check_figures.py build/release/tests/record/draw_figures || status=1
    $python tests/record/check_records.py build/release/fallwright || status=1
    return $status
}
step_paper() {
    build release fallwright fallwright-paper && $python tests/paper/check.py build/release/fallwright \
        examples/{lane,feet,car-park,knocked,two-benchmarks,checked}.book.jsonl
}
step_verdict() {
    local status=0
    build release fallwright || return 1
    $python tools/lattice.py --check || status=1
    $python tests/verdict/simulate.py build/release/fallwright || status=1
    return $status
}
step_evenness() { build release fallwright && $python tests/evenness/compare.py build/release/fallwright; }
step_exchange() { build release fallwright && $python tests/exchange/compare.py build/release/fallwright; }
step_simulation() { build release fallwright && tests/simulation/run build/release/fallwright; }
step_xlsx() {
    build release fallwright fallwright-paper &&
        $python tests/xlsx/compare.py build/release/fallwright-paper build/release/fallwright examples/two-benchmarks.book.jsonl \
            $(find examples -name '*.book.jsonl' ! -name 'two-benchmarks*' | sort)
}
step_serve() { build release fallwright fallwright-serve && tests/server/run.sh build/release/fallwright; }
step_package() {
    local status=0
    build release product && build_app || return 1
    $python tools/man_page.py build/release/fallwright --check || status=1
    tests/package/run.sh build/release || status=1
    return $status
}
step_fuzz() {
    build release run_cases && build asan fuzz_targets || return 1
    [ -d build/test/emitted ] || step_cases > /dev/null
    fuzz/run build/asan/fuzz build/test/emitted 30
}
step_durability() {
    local status=0
    build asan crash_points && build release fallwright || return 1
    GTEST_BRIEF=1 build/asan/tests/durability/crash_points || status=1
    tests/durability/run.sh build/release/fallwright add {book} {entry} || status=1
    return $status
}
step_wasm() {
    build wasm fallwright_wasm || return 1
    local module=build/wasm/shells/wasm/fallwright.wasm
    echo "module: $(stat -c %s $module) bytes, $(gzip -9 -c $module | wc -c) gzipped"
    FALLWRIGHT_WASM=$module node --test shells/wasm/loader_test.mjs
}
step_parity() {
    build release fallwright run_cases && build wasm fallwright_wasm || return 1
    [ -d build/test/emitted ] || step_cases > /dev/null
    node tests/parity/parity.mjs --wasm build/wasm/shells/wasm/fallwright.wasm --native build/release/fallwright \
        --emitted build/test/emitted --work build/test examples/*.book.jsonl
}
step_app() {
    need wasm && build wasm fallwright_wasm && app_packages || return 1
    local status=0
    one npm --prefix web run --silent check || status=1
    npm --prefix web run --silent unit -- --reporter=tap-flat > build/test/unit.tap || status=1
    grep '^not ok' build/test/unit.tap
    awk '/^ok/ { good += 1 } /^not ok/ { bad += 1 } END { print good + 0 " passed, " bad + 0 " failed" }' build/test/unit.tap
    return $status
}
step_browser() {
    need browser && build release fallwright && build_app || return 1
    FALLWRIGHT="$PWD/build/release/fallwright" node --test --test-concurrency=2 web/tests/browser/*.test.mjs
}
step_tidy() { configure asan && $python tools/tidy.py; }

# Runs one step, its output to the terminal and into build/test/NAME.log, and adds its counts to the totals.
run_step() {
    local name=$1 start=$SECONDS status passed failed
    printf '\n== %s: %s\n' "$name" "$(awk -F'|' -v n="$name" '$1 ~ "^" n " *$" { sub(/^ /, "", $3); print $3 }' <<< "$STEPS")"
    "step_$name" 2>&1 | tee "build/test/$name.log"
    status=${PIPESTATUS[0]}
    read -r passed failed < <(awk -f tools/count.awk "build/test/$name.log")
    # A step that ends well without counting is one test; one that ends badly has failed, whatever it counted.
    [ "$status" -eq 0 ] && [ $((passed + failed)) -eq 0 ] && passed=1
    [ "$status" -ne 0 ] && [ "$failed" -eq 0 ] && failed=1
    [ "$failed" -ne 0 ] && [ "$status" -eq 0 ] && echo "$name counts $failed failed but ended as if all were well"
    total_passed=$((total_passed + passed))
    total_failed=$((total_failed + failed))
    report+=("$(printf '%-11s %6d passed %4d failed %5d s' "$name" "$passed" "$failed" $((SECONDS - start)))")
}
