#!/usr/bin/env bash
# From a clean checkout to a signed, aligned target/android/hearthdose.apk: `bash android/package.sh`.
#
# It needs the Debian packages that .ci/run names for it and nothing of a vendor; it links against stubs (see sysroot/make.sh).
# With ANDROID_NDK_HOME set, Google's NDK compiles C and links instead; that is what a release should use.
#
# The key that signs comes from the environment, never from the tree:
#   HEARTHDOSE_KEYSTORE       a PKCS #12 file; without it a key is made for this one package and thrown away
#   HEARTHDOSE_KEYSTORE_PASS  its password
#   HEARTHDOSE_KEY_ALIAS      the key in it, where it holds several
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
cd "$here/.."
umask 022

triple=aarch64-linux-android
api=26
out=$PWD/target/android
build=${CARGO_TARGET_DIR:-$PWD/target}/android-build
mkdir -p "$out" "$build"
box=$(mktemp -d)
trap 'rm -rf "$box"' EXIT

version=$(sed -n '/^\[workspace.package\]/,/^\[/s/^version = "\(.*\)"/\1/p' Cargo.toml)
IFS=. read -r major minor patch <<<"${version%%-*}"
code=$((major * 1000000 + minor * 1000 + patch))

# Debian's compiler, because it brings the source of the standard library; the first in PATH need not be it.
cargo=/usr/bin/cargo
export RUSTC=/usr/bin/rustc RUSTC_BOOTSTRAP=1 CARGO_TARGET_DIR=$build CARGO_INCREMENTAL=0
"$RUSTC" --version

if [ -n "${ANDROID_NDK_HOME:-}" ]; then
    tools=$(echo "$ANDROID_NDK_HOME"/toolchains/llvm/prebuilt/*/bin)
    clang=$tools/$triple$api-clang
    ar=$tools/llvm-ar
    flags=(-Clink-arg=-Wl,--no-undefined)
    cflags=()
else
    sysroot=$build/sysroot
    "$here/sysroot/make.sh" "$sysroot"
    clang=clang
    ar=llvm-ar
    flags=("-Clink-arg=--target=$triple$api" "-Clink-arg=--sysroot=$sysroot" -Clink-arg=-fuse-ld=lld -Clink-arg=-Wl,--no-undefined)
    cflags=("--target=$triple$api" -nostdlibinc -isystem "$sysroot/usr/include" -include "$here/sysroot/bionic-fix.h"
        -DSQLITE_HOMEGROWN_RECURSIVE_MUTEX)
fi
# Nothing unwinds, so no tables for it; packed relocations are known from level 23 on.
flags+=(-Cforce-unwind-tables=no -Clink-arg=-Wl,--pack-dyn-relocs=android,--icf=all,-O2)
flags+=(-Clink-arg=-Wl,-z,max-page-size=16384 "--remap-path-prefix=$PWD=." "--remap-path-prefix=$HOME=~")
export CARGO_TARGET_AARCH64_LINUX_ANDROID_LINKER=$clang
export CARGO_ENCODED_RUSTFLAGS=$(IFS=$'\x1f'; echo "${flags[*]}")
export CC_aarch64_linux_android=$clang AR_aarch64_linux_android=$ar CFLAGS_aarch64_linux_android="${cflags[*]}"
# A phone has no folder for temporary files that SQLite would find.
export LIBSQLITE3_FLAGS=-DSQLITE_TEMP_STORE=3

"$cargo" rustc --locked -p hearthdose-android --lib --crate-type cdylib --profile android \
    -Zbuild-std=std,panic_abort --target "$triple"

library=lib/arm64-v8a/libhearthdose_android.so
mkdir -p "$box/$(dirname "$library")"
cp "$build/$triple/android/libhearthdose_android.so" "$box/$library"

# Icon and colours of our own; the drawing is the program's sign.
"$here/icon.sh" ui/drawings/covered-bowl.svg "$box/res"
cp -r "$here/res/." "$box/res"
aapt2 compile --dir "$box/res" -o "$box/res.zip"
resources=/usr/share/android-framework-res/framework-res.apk
aapt2 link --manifest "$here/AndroidManifest.xml" -I "$resources" -o "$box/package.apk" \
    --min-sdk-version "$api" --target-sdk-version 35 --version-name "$version" --version-code "$code" "$box/res.zip"
# Stored, not packed: the system maps the library straight out of the package.
(cd "$box" && zip -q -X -0 package.apk "$library")
zipalign -f 16384 "$box/package.apk" "$box/aligned.apk"

if [ -n "${HEARTHDOSE_KEYSTORE:-}" ]; then
    store=$HEARTHDOSE_KEYSTORE
    : "${HEARTHDOSE_KEYSTORE_PASS:?must be set with HEARTHDOSE_KEYSTORE}"
else
    echo "signed with a key that is thrown away: a later package cannot replace this one on a phone"
    store=$box/throw-away.p12
    HEARTHDOSE_KEYSTORE_PASS=$(od -An -N16 -tx1 /dev/urandom | tr -d ' \n')
    export HEARTHDOSE_KEYSTORE_PASS
    keytool -genkeypair -keystore "$store" -storetype PKCS12 -storepass:env HEARTHDOSE_KEYSTORE_PASS -alias throw-away \
        -keyalg EC -groupname secp256r1 -dname 'CN=Hearthdose throw-away' -validity 10000
fi
export HEARTHDOSE_KEYSTORE_PASS
alias=()
[ -z "${HEARTHDOSE_KEY_ALIAS:-}" ] || alias=(--ks-key-alias "$HEARTHDOSE_KEY_ALIAS")
apksigner sign --ks "$store" --ks-pass env:HEARTHDOSE_KEYSTORE_PASS "${alias[@]}" --min-sdk-version "$api" \
    --v4-signing-enabled false --out "$box/signed.apk" "$box/aligned.apk"
mv "$box/signed.apk" "$out/hearthdose.apk"
echo "$out/hearthdose.apk: $(stat -c %s "$out/hearthdose.apk") bytes"
