# Sourced: need LIST... installs the Debian packages of tools/packages/LIST.txt that are missing. Where all are
# there, one look at the package database is all that happens (30 ms), and no network is asked.

need() {
    local list packages=() missing=()
    for list in "$@"; do
        mapfile -t -O "${#packages[@]}" packages < <(grep -v '^#' "tools/packages/$list.txt")
    done
    mapfile -t missing < <(missing_of "${packages[@]}")
    [ ${#missing[@]} -eq 0 ] && return 0
    echo "Installing: ${missing[*]}"
    as_root apt-get -qq -o Acquire::Retries=3 update
    as_root env DEBIAN_FRONTEND=noninteractive \
        apt-get -qq -o Acquire::Retries=3 -o Dpkg::Use-Pty=0 install -y --no-install-recommends "${missing[@]}" \
        > build/install.log 2>&1 || { tail -n 20 build/install.log >&2; return 1; }
}

missing_of() {
    if ! command -v dpkg-query > /dev/null; then
        echo "This is no Debian: $* must be installed by hand; going on without a look." >&2
        return 0
    fi
    # dpkg-query says nothing about packages it has never heard of, so what is there is taken off the list.
    dpkg-query -W -f '${Package} ${db:Status-Status}\n' "$@" 2> /dev/null |
        awk -v wanted="$*" '$2 == "installed" { there[$1] = 1 }
            END { n = split(wanted, name, " "); for (i = 1; i <= n; ++i) if (!there[name[i]]) print name[i] }'
}

as_root() {
    if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi
}
