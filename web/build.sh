#!/usr/bin/env bash
# Makes the page: web/out, a folder of static files for any https server, or for web/serve.sh.
#   web/build.sh          small, as it is given to others
#   web/build.sh --dev    fast to build, for working on it
# What is missing for it, a compiler for the target and wasm-bindgen, is laid under target/.
set -euo pipefail
cd "$(dirname "$0")/.."
target=${CARGO_TARGET_DIR:-$PWD/target}
tools=${PRINTSEAM_WEB_TOOLS:-$target/web-tools}

triple=wasm32-unknown-unknown
if ! [ -d "$(rustc --print sysroot)/lib/rustlib/$triple" ]; then
    if command -v rustup >/dev/null && rustup target add $triple >/dev/null 2>&1; then
        :
    else
        [ -f "$tools/rust/done" ] || bash web/wasm-toolchain.sh "$tools/rust"
        # shellcheck disable=SC1091
        source "$tools/rust/env"
    fi
fi

# Of the very version the library was locked to: the two agree on a format nobody else knows.
version=$(sed -n '/^name = "wasm-bindgen"$/{n;s/version = "\(.*\)"/\1/p}' Cargo.lock)
bindgen=$tools/wasm-bindgen-$version/bin/wasm-bindgen
if ! [ -x "$bindgen" ]; then
    # In the machine's own compiler, and without what it needs to run tests in remote browsers.
    (unset RUSTC LD_LIBRARY_PATH
     cargo install wasm-bindgen-cli --version "$version" --no-default-features --root "$tools/wasm-bindgen-$version")
fi

profile=web
quick=()
if [ "${1:-}" = --dev ]; then
    profile=dev
    # The library is large: not to optimise it saves two thirds of the time.
    quick=(--config profile.dev.package.printseam.opt-level=0)
fi
CARGO_TARGET_DIR="$target/web" cargo build -p printseam-web --lib --target $triple --profile $profile "${quick[@]}"
folder=${profile/dev/debug}
rm -rf web/out && mkdir web/out
"$bindgen" --target web --no-typescript --remove-name-section --out-dir web/out "$target/web/$triple/$folder/printseam_web.wasm"
cp web/page/* web/out/

# The files the page keeps, and a version that changes with any of them.
cd web/out
files=$(printf '"%s", ' ./ *.html *.css *.js *.svg *.wasm *.webmanifest | sed 's/"keep.js", //; s/, $//')
hash=$(cat ./* | sha256sum | cut -c1-16)
sed -i "s|\"@VERSION@\"|\"printseam-$hash\"|; s|\"@FILES@\"|$files|" keep.js
for file in *; do printf '%9d bytes, %8d compressed  %s\n' "$(wc -c < "$file")" "$(gzip -9 -c "$file" | wc -c)" "$file"; done
echo "$(cat ./* | wc -c) bytes in all, $(for f in *; do gzip -9 -c "$f"; done | wc -c) compressed"
