#!/usr/bin/env bash
# Lays a sysroot that Android's programs can be linked against, and nothing else: `make.sh FOLDER`.
# Each list in symbols names functions of one system library and the API level that brought them;
# a stub library exports them, so a program that uses any other does not link.
# The headers are musl's for ARM64, from Debian; bionic-fix.h holds the differences that matter here.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
out=$1
api=26
libraries=$out/usr/lib/aarch64-linux-android/$api
mkdir -p "$libraries"

compile() { clang "--target=aarch64-linux-android$api" -fPIC -O2 -Wall "$@"; }

for list in "$here"/symbols/*.txt; do
    library=$(basename "$list" .txt)
    awk '/^[^#]/ { print ".globl " $1 "\n.type " $1 ",%function\n" $1 ": ret" }' "$list" |
        compile -nostdlib -shared -fuse-ld=lld "-Wl,-soname,$library.so" -x assembler - -o "$libraries/$library.so"
done
compile -ffreestanding -c "$here/crtbegin_so.c" -o "$libraries/crtbegin_so.o"
compile -c -x c /dev/null -o "$libraries/crtend_so.o"
compile -ffreestanding -c "$here/unwind.c" -o "$out/unwind.o"
rm -f "$libraries/libunwind.a"
llvm-ar rcs "$libraries/libunwind.a" "$out/unwind.o"

# Fetched into a folder of its own: what is installed here stays as it is.
headers=$out/usr/include
if [ ! -e "$headers/stdio.h" ]; then
    apt=$(mktemp -d)
    trap 'rm -rf "$apt"' EXIT
    mkdir -p "$apt"/{lists,cache/archives}/partial "$headers"
    options=(-qq -o APT::Architecture=arm64 -o APT::Architectures=arm64 -o "Dir::State::lists=$apt/lists"
        -o "Dir::Cache=$apt/cache" -o APT::Sandbox::User= -o Acquire::Languages=none)
    apt-get "${options[@]}" update
    (cd "$apt" && apt-get "${options[@]}" download musl-dev && dpkg-deb -x musl-dev_*.deb musl)
    cp -r "$apt"/musl/usr/include/aarch64-linux-musl/. "$headers"
fi
