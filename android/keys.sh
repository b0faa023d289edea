#!/usr/bin/env bash
# Proves that a package is signed with the key that was asked for: `bash android/keys.sh`, after package.sh.
# Two packages with one key have one certificate, the key's own; so the later can replace the earlier on a phone.
# The package that was there before is there again afterwards.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
apk=$here/../target/android/hearthdose.apk
box=$(mktemp -d)
trap 'mv -f "$box/before.apk" "$apk"; rm -rf "$box"' EXIT
cp "$apk" "$box/before.apk"

export HEARTHDOSE_KEYSTORE=$box/own.p12 HEARTHDOSE_KEYSTORE_PASS=not-a-secret HEARTHDOSE_KEY_ALIAS=second
for alias in first second; do
    keytool -genkeypair -keystore "$HEARTHDOSE_KEYSTORE" -storetype PKCS12 -storepass:env HEARTHDOSE_KEYSTORE_PASS \
        -alias "$alias" -keyalg EC -groupname secp256r1 -dname "CN=$alias" -validity 10000 2>/dev/null
done
# The certificate as the key store tells it, and as a package does: hexadecimal, small, without marks between.
keytool -list -v -keystore "$HEARTHDOSE_KEYSTORE" -storepass:env HEARTHDOSE_KEYSTORE_PASS -alias second |
    sed -n 's/^.*SHA256: *//p' | head -n 1 | tr -d ': ' | tr A-F a-f >"$box/wanted"
[ "$(wc -c <"$box/wanted")" = 65 ] || { echo 'FAILS: the key has no certificate'; exit 1; }

for turn in one two; do
    bash "$here/package.sh" >"$box/said" 2>&1 || { cat "$box/said"; exit 1; }
    if grep -q 'thrown away' "$box/said"; then echo 'FAILS: signed with a key that is thrown away'; exit 1; fi
    bash "$here/verify.sh" >"$box/judged" || { cat "$box/judged"; exit 1; }
    apksigner verify --print-certs "$apk" | sed -n 's/^Signer #[0-9]* certificate SHA-256 digest: //p' >"$box/$turn"
    cmp "$box/wanted" "$box/$turn" || { echo "FAILS: package $turn has another certificate"; exit 1; }
done
echo 'ok: two packages with one key have its certificate, and no other'

before=$(sha256sum <"$apk")
if HEARTHDOSE_KEYSTORE_PASS=wrong bash "$here/package.sh" >/dev/null 2>&1; then
    echo 'FAILS: signed with a wrong password'
    exit 1
fi
[ "$(sha256sum <"$apk")" = "$before" ] || { echo 'FAILS: a package came of a wrong password'; exit 1; }
echo 'ok: a wrong password signs nothing'
