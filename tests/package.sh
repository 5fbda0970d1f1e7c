#!/usr/bin/env bash
# package.sh BUILD CMAKE CPACK: installs into a folder of its own and packs a .deb; looks at what is in both and runs it.
set -euo pipefail
build=$1 cmake=$2 cpack=$3
here=$(mktemp -d)
trap 'rm -rf "$here"' EXIT
wanted='usr/bin/rackwright usr/share/man/man1/rackwright.1 usr/share/bash-completion/completions/rackwright
  usr/share/zsh/vendor-completions/_rackwright usr/share/rackwright/scenarios/minimal.toml usr/share/doc/rackwright/README.md
  usr/share/doc/rackwright/tutorial.md'
has_all() {
  for file in $wanted; do
    [ -s "$1/$file" ] || { echo "$2 lacks $file"; exit 1; }
  done
}
works() {
  "$1/usr/bin/rackwright" --version | grep -Eq '^rackwright [0-9.]+ \(commit [^)]+\)$'
  "$1/usr/bin/rackwright" check "$1/usr/share/rackwright/scenarios/minimal.toml" --quiet >"$here/check.txt"
  grep -q 'places needed' "$here/check.txt"
}

"$cmake" --install "$build" --prefix "$here/installed/usr" >"$here/log" || { cat "$here/log"; exit 1; }
has_all "$here/installed" "the installation"
works "$here/installed"

(cd "$here" && "$cpack" --config "$build/CPackConfig.cmake" -B "$here/packed" >"$here/log" 2>&1) || { cat "$here/log"; exit 1; }
deb=$(find "$here/packed" -maxdepth 1 -name '*.deb')
[ -n "$deb" ] || { echo "no package was made"; cat "$here/log"; exit 1; }
mkdir "$here/unpacked"
dpkg-deb -x "$deb" "$here/unpacked"
has_all "$here/unpacked" "the package"
works "$here/unpacked"
[ "$(dpkg-deb -f "$deb" Package)" = rackwright ]
for library in libhdf5 libudunits2 libboost-program-options libfmt libtomlplusplus libc6; do
  dpkg-deb -f "$deb" Depends | grep -q "$library" || { echo "the package does not depend on $library"; exit 1; }
done
if find "$here/unpacked" -not -type l -perm -o+w | grep -q .; then echo "files anybody may write"; exit 1; fi
echo "installed and packed: $(basename "$deb")"
