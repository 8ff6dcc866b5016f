#!/usr/bin/env bash
# A rustc that can target wasm32-unknown-unknown, from Debian's packages alone, laid under $1. build.sh calls
# it where neither rustup nor the system has that target. Afterwards: source $1/env && cargo build --target …
set -euo pipefail
home=${1:?a folder to lay it in}
mkdir -p "$home/debs" && cd "$home/debs"
apt-get update -qq
# The newest packaged compiler and the linker of its LLVM.
std=$(apt-cache depends libstd-rust-web-dev | sed -n 's/.*Depends: \(libstd-rust-web-[0-9.]*\)$/\1/p' | head -1)
llvm=$(apt-cache depends "$std" | sed -n 's/.*Depends: libllvm\([0-9]*\)$/\1/p' | head -1)
: "${std:?no packaged compiler for the target}" "${llvm:?no LLVM for the packaged compiler}"
apt-get install -y -qq "lld-$llvm" >/dev/null
apt-get download -q rustc-web libstd-rust-web-dev "$std" rust-web-src rust-web-llvm "libllvm$llvm"
for package in *.deb; do dpkg -x "$package" "$home/root"; done
cat > "$home/env" <<END
export LD_LIBRARY_PATH=$home/root/usr/lib/x86_64-linux-gnu:$home/root/usr/lib
export RUSTC=$home/root/usr/bin/rustc
export CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER=$(command -v "wasm-ld-$llvm")
END
# shellcheck disable=SC1091
source "$home/env"
# The standard library for the target, built once and laid with the compiler: building it with each project
# clashes on the name `core`.
mkdir -p "$home/std/src" && cd "$home/std"
printf '[package]\nname = "onlystd"\nversion = "0.1.0"\nedition = "2021"\n[workspace]\n' > Cargo.toml
echo '#![no_std]' > src/lib.rs
RUSTC_BOOTSTRAP=1 cargo build --release --target wasm32-unknown-unknown -Zbuild-std=std,panic_abort,panic_unwind
lib=$home/root/usr/lib/rustlib/wasm32-unknown-unknown/lib
mkdir -p "$lib" && cp target/wasm32-unknown-unknown/release/deps/*.rlib "$lib/" && rm -f "$lib"/libonlystd*
touch "$home/done"
"$RUSTC" --version
