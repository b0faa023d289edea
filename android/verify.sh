#!/usr/bin/env bash
# Judges target/android/hearthdose.apk, or the one named, by tools that share no code with the packager:
# binutils' kind of tools for the library, Python's own zip reader for the places in the package, aapt and apksigner for the rest.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
apk=$(realpath "${1:-$here/../target/android/hearthdose.apk}")
box=$(mktemp -d)
trap 'rm -rf "$box"' EXIT
library=lib/arm64-v8a/libhearthdose_android.so

bad=0
fails() { echo "FAILS: $*"; bad=1; }
holds() { # WHAT PATTERN FILE
    if grep -Eq "$2" "$3"; then echo "ok: $1"; else fails "$1"; fi
}

unzip -q "$apk" "$library" -d "$box"
so=$box/$library
llvm-readelf -h -d -l --wide "$so" >"$box/elf"
holds 'machine AArch64' 'Machine:.*AArch64' "$box/elf"
holds 'a shared object' 'Type:.*DYN' "$box/elf"

# Needed: system libraries of the lists only, each of those that are used, and no other.
sed -n 's/.*(NEEDED).*\[\(.*\)\]/\1/p' "$box/elf" | sort >"$box/needed"
echo "needs $(tr '\n' ' ' <"$box/needed")"
for name in libc.so libm.so libdl.so liblog.so libandroid.so; do holds "needs $name" "^$name\$" "$box/needed"; done
while read -r name; do
    [ -e "$here/sysroot/symbols/${name%.so}.txt" ] || fails "needs $name, which is on no list"
done <"$box/needed"

llvm-nm -D --defined-only "$so" | awk '{ print $3 }' | sort >"$box/exports"
holds 'exports ANativeActivity_onCreate' '^ANativeActivity_onCreate$' "$box/exports"
holds 'exports android_main' '^android_main$' "$box/exports"

# Undefined: on a list, at a level that the manifest's least system has; what is weak may be missing there.
aapt2 dump badging "$apk" >"$box/badging"
level=$(sed -n "s/^sdkVersion:'\([0-9]*\)'/\1/p" "$box/badging")
cat "$here"/sysroot/symbols/*.txt | sort >"$box/known"
llvm-nm -D --undefined-only "$so" | awk '{ print $1, $2 }' >"$box/undefined"
count=0
while read -r kind name; do
    count=$((count + 1))
    name=${name%%@*}
    since=$(awk -v name="$name" '$1 == name { print $2; exit }' "$box/known")
    if [ -z "$since" ]; then
        fails "$name is on no list"
    elif [ "$since" -gt "$level" ] && [ "$kind" != w ]; then
        fails "$name came with level $since, the package promises $level"
    fi
done <"$box/undefined"
echo "ok: $count undefined symbols looked up at level $level"

awk '$1 == "LOAD" { print $NF }' "$box/elf" | sort -u >"$box/aligns"
if [ "$(cat "$box/aligns")" = 0x4000 ]; then echo 'ok: segments lie on 16 KiB'; else fails "segments: $(cat "$box/aligns")"; fi

python3 - "$apk" "$library" <<'PYTHON' || bad=1
import struct, sys, zipfile
path, library = sys.argv[1:]
with zipfile.ZipFile(path) as package, open(path, "rb") as raw:
    assert package.testzip() is None, "a damaged entry"
    entry = package.getinfo(library)
    assert entry.compress_type == zipfile.ZIP_STORED, "the library is packed"
    raw.seek(entry.header_offset)
    name, extra = struct.unpack("<26xHH", raw.read(30))
    at = entry.header_offset + 30 + name + extra
    assert at % 16384 == 0, f"the library begins at {at}"
    names = set(package.namelist())
    assert not any(name.endswith(".dex") for name in names), "Java in the package"
    assert {name for name in names if name.startswith("lib/")} == {library}
print("ok: the library is stored on 16 KiB, and nothing in the package is damaged")
PYTHON
zipalign -c 4 "$apk" && echo 'ok: zipalign' || fails zipalign

version=$(sed -n '/^\[workspace.package\]/,/^\[/s/^version = "\(.*\)"/\1/p' "$here/../Cargo.toml")
holds "version $version" "versionName='${version//./\\.}'" "$box/badging"
holds 'native activity to launch' "launchable-activity: name='android.app.NativeActivity'" "$box/badging"
holds 'label' "application-label:'Hearthdose'" "$box/badging"
holds 'icon' "application: label='Hearthdose' icon='res/.+'" "$box/badging"
holds 'code for arm64-v8a' "native-code: 'arm64-v8a'" "$box/badging"
holds 'system 26 or newer' "sdkVersion:'26'" "$box/badging"
sed -n "s/^uses-permission: name='\([^']*\)'.*/\1/p" "$box/badging" >"$box/permissions"
if [ "$(cat "$box/permissions")" = com.android.alarm.permission.SET_ALARM ]; then
    echo 'ok: the permission to set an alarm and no other'
else
    fails "permissions: $(cat "$box/permissions")"
fi
aapt2 dump xmltree --file AndroidManifest.xml "$apk" >"$box/manifest"
holds 'no backup' 'allowBackup.*=false' "$box/manifest"
if grep -q 'debuggable.*=true' "$box/manifest"; then fails 'it can be debugged'; fi

apksigner verify --verbose --min-sdk-version 26 "$apk" >"$box/signed" || fails 'the signature'
holds 'signed by scheme v2' '^Verified using v2 scheme.*true' "$box/signed"
holds 'signed by scheme v3' '^Verified using v3 scheme.*true' "$box/signed"

size=$(stat -c %s "$apk")
if [ "$size" -lt 15000000 ]; then echo "ok: $size bytes"; else fails "$size bytes are too many"; fi
exit "$bad"
