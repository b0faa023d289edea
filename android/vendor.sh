#!/usr/bin/env bash
# Type-checks the program over Slint's own Android backend (feature `vendor`): `bash android/vendor.sh`.
#
# That backend brings Skia and a Java helper. Nothing but Rust is compiled here, and nothing is linked: Skia's bindings
# come as they were written beforehand (as for its documentation); the C compiler, the JDK and the SDK are stand-ins.
# Debian's compiler, as in package.sh, because it brings the source of the standard library.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
box=$(mktemp -d)
trap 'rm -rf "$box"' EXIT

mkdir -p "$box/java/bin"
cat >"$box/java/bin/javac" <<'STAND_IN'
#!/bin/sh
[ "$1" != -version ] || echo 'javac 17.0.0'
STAND_IN
cat >"$box/java/bin/java" <<'STAND_IN'
#!/bin/sh
while [ $# -gt 1 ]; do [ "$1" != --output ] || : >"$2/classes.dex"; shift; done
STAND_IN
cat >"$box/cc" <<'STAND_IN'
#!/bin/sh
case $1 in -E) echo clang ;; '-?') exit 1 ;; esac
while [ $# -gt 1 ]; do [ "$1" != -o ] || : >"$2"; shift; done
STAND_IN
chmod +x "$box"/java/bin/* "$box/cc"
: >"$box/empty.jar"

export DOCS_RS=1 JAVA_HOME=$box/java ANDROID_JAR=$box/empty.jar ANDROID_D8_JAR=$box/empty.jar
export CC_aarch64_linux_android=$box/cc AR_aarch64_linux_android=llvm-ar
export RUSTC=/usr/bin/rustc RUSTC_BOOTSTRAP=1 CARGO_INCREMENTAL=0 CARGO_PROFILE_DEV_PANIC=abort
export CARGO_TARGET_DIR=${CARGO_TARGET_DIR:-$PWD/target}/android-vendor
/usr/bin/cargo check --locked -p hearthdose-android --features vendor \
    -Zbuild-std=std,panic_abort --target aarch64-linux-android
echo 'ok: the program type-checks over the vendor backend; it was not linked'
