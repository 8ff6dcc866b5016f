#!/bin/sh
# An archive that a dealer can unpack and use without a Rust toolchain: the program, its manual,
# completions, the pages to read, the invented sale, and what its parts are licensed under.
#
#   ./dist.sh            builds the program and packs it
#   ./dist.sh BINARY     packs a program that was built already
set -eu
cd "$(dirname "$0")"
if [ $# -gt 0 ]; then
    binary=$1
else
    cargo build --release --locked
    binary=target/release/printseam
fi
host=$(rustc -vV | sed -n 's/^host: //p')
version=$("$binary" --version | sed -n 's/^printseam \([^ ]*\).*/\1/p')
name=printseam-$version-$host
# Made beside, so that a failure leaves no half of an archive.
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
to=$work/$name
mkdir -p "$to/completions"
cp "$binary" "$to/printseam"
cp -R README.md CHANGELOG.md LICENSE docs demo "$to/"
"$binary" generate man >"$to/printseam.1"
for shell in bash zsh fish; do
    "$binary" generate "$shell" >"$to/completions/printseam.$shell"
done
"$binary" generate settings >"$to/settings.ron"
# Name, version and licence of every crate inside.
cargo tree --locked --edges normal,build --prefix none --format '{p}	{l}' | sed 's/ (.*)	/	/; s/ (\*)$//' | sort -u >"$to/PARTS.txt"
cat >"$to/FIRST.txt" <<'END'
Unpack anywhere. Type ./printseam for the screens, ./printseam doctor to see where everything lives.
To have it at hand, copy printseam into a folder of your PATH, such as ~/.local/bin.
README.md says what it does; man ./printseam.1 is the manual.
END
mkdir -p target/dist
tar -C "$work" -czf "target/dist/$name.tar.gz" "$name"
(cd target/dist && { sha256sum "$name.tar.gz" 2>/dev/null || shasum -a 256 "$name.tar.gz"; } >"$name.tar.gz.sha256")
echo "target/dist/$name.tar.gz"
