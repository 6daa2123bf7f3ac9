# Sourced: build PRESET TARGET... configures once and builds, quietly where nothing is to be done.

build() {
    local preset=$1
    shift
    configure "$preset" || return 1
    local quiet=()
    [ -t 1 ] || quiet=(env 'NINJA_STATUS=[%f/%t %es] ')
    "${quiet[@]}" cmake --build --preset "$preset" --target "$@"
}

configure() {
    local preset=$1 launcher=()
    [ -f "build/$preset/build.ninja" ] && return 0
    if [ "$preset" != wasm ] && command -v ccache > /dev/null; then
        launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
    fi
    cmake --preset "$preset" "${launcher[@]}" > "build/$preset.log" 2>&1 || {
        cat "build/$preset.log" >&2
        return 1
    }
}
