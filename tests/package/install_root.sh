#!/usr/bin/env bash
# The Debian package in a clean system: debootstrap makes one in a folder, the package is installed there with what it
# needs, and the demo is run there. Takes minutes, the network and root, so ./test leaves it out.
# Usage: tests/package/install_root.sh BUILD_FOLDER [ROOT_FOLDER]
# Packages come from where this machine's own come from.
set -euo pipefail
cd "$(dirname "$0")/../.."
build=$1
work=build/package
root=${2:-$work/root}
mkdir -p "$work"
started=$SECONDS

cpack -G DEB --config "$build/CPackConfig.cmake" -B "$work" > "$work/cpack.log"
deb=$(find "$work" -maxdepth 1 -name '*.deb' | head -n 1)
mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' | head -n 1)
release=$(. /etc/os-release && echo "$VERSION_CODENAME")
rm -rf "$root"
debootstrap --variant=minbase "$release" "$root" "$mirror" > "$work/debootstrap.log" || { tail -n 5 "$work/debootstrap.log" >&2; exit 1; }
echo "a clean $release: $((SECONDS - started)) s"

cp "$deb" "$root/tmp/fallwright.deb"
[ ! -f /etc/apt/apt.conf.d/proxy.conf ] || cp /etc/apt/apt.conf.d/proxy.conf "$root/etc/apt/apt.conf.d/"
cp /etc/resolv.conf "$root/etc/resolv.conf"
inside() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root ${http_proxy:+http_proxy=$http_proxy} "$@"; }
inside apt-get -qq update
inside env DEBIAN_FRONTEND=noninteractive apt-get -qq install -y --no-install-recommends /tmp/fallwright.deb > "$work/install.log" 2>&1 ||
    { tail -n 5 "$work/install.log" >&2; exit 1; }
echo "the package and what it needs: $((SECONDS - started)) s"

examples=/usr/share/doc/fallwright/examples
inside fallwright --version
inside fallwright evaluate "$examples/lane.book.jsonl" > "$work/inside.txt"
build/release/fallwright evaluate examples/lane.book.jsonl | cmp - "$work/inside.txt"
inside fallwright-paper export "$examples/lane.book.jsonl" --to /tmp/lane.xlsx
inside sh -c 'fallwright add /tmp/new.book.jsonl book title=clean && fallwright add /tmp/new.book.jsonl benchmark point=BM level=1 && fallwright levels /tmp/new.book.jsonl' > /dev/null
if [ -d dist ]; then inside test -f /usr/share/fallwright/app/index.html; fi
inside apt-get -qq remove -y fallwright > /dev/null 2>&1
if inside test -e /usr/bin/fallwright; then echo "removing it leaves it there" >&2; exit 1; fi
echo "the demo ran in a clean system: $((SECONDS - started)) s in all"
echo "1 passed, 0 failed"
