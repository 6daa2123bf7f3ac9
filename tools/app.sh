# Sourced: build_app builds the field app into dist/, the core's WebAssembly module first.

build_app() {
    need run wasm || return 1
    command -v npm > /dev/null || need npm || return 1
    build wasm fallwright_wasm && app_packages && npm --prefix web run --silent build
}

# The packages as package-lock.json names them; nothing is fetched where they are there already.
app_packages() {
    local stamp=web/node_modules/.fallwright-lock
    cmp -s web/package-lock.json "$stamp" 2> /dev/null && return 0
    (cd web && npm ci --silent --no-audit --no-fund) && cp web/package-lock.json "$stamp"
}
