//! Our messages through a library that was not written for them, and messages as that library would also write them.

use coset::{CborSerializable, CoseSign1, CoseSign1Builder, Header, HeaderBuilder};
use coset::{TaggedCborSerializable, iana};
use hearthdose_core::exchange::{MARK, Message, Scan, base45, write};

use crate::samples::{household, messages, secret};

fn bytes_of(text: &str) -> Vec<u8> {
    let inner = text.strip_prefix(MARK).unwrap().strip_suffix('Z').unwrap();
    base45::decode(inner).unwrap()
}

fn text_of(bytes: &[u8]) -> String {
    format!("{MARK}{}Z", base45::encode(bytes))
}

#[test]
fn another_library_reads_the_same() {
    for (name, message) in messages() {
        let bytes = bytes_of(&write(&message, &secret()).unwrap());
        let read = CoseSign1::from_tagged_slice(&bytes).unwrap();
        let header = &read.protected.header;
        assert_eq!(
            header.alg,
            Some(coset::Algorithm::Assigned(iana::Algorithm::EdDSA)),
            "{name}"
        );
        assert_eq!(header.key_id, secret().public().id());
        assert!(read.unprotected.is_empty());
        let payload = read.payload.clone().unwrap();
        // The signer's key stands behind the array's head, the kind, and the head of 32 bytes.
        assert_eq!(payload[0], 0x83);
        assert_eq!(payload[4..36], secret().public().0);
        let signed = read.tbs_data(MARK.as_bytes());
        assert_eq!(read.signature, secret().sign(&signed), "{name}");
    }
}

/// The same payload, rightly signed, in other clothes.
#[test]
fn only_one_spelling_is_read() {
    let text = write(&Message::Household(household(1)), &secret()).unwrap();
    let bytes = bytes_of(&text);
    let read = CoseSign1::from_tagged_slice(&bytes).unwrap();
    let payload = read.payload.clone().unwrap();
    let id = secret().public().id().to_vec();
    let sign = |protected: Header, unprotected: Header, payload: &[u8]| {
        CoseSign1Builder::new()
            .protected(protected)
            .unprotected(unprotected)
            .payload(payload.to_vec())
            .create_signature(MARK.as_bytes(), |data| secret().sign(data).to_vec())
            .build()
    };
    let header = || {
        HeaderBuilder::new()
            .algorithm(iana::Algorithm::EdDSA)
            .key_id(id.clone())
    };
    let same = sign(header().build(), Header::default(), &payload);
    assert_eq!(same.clone().to_tagged_vec().unwrap(), bytes);
    let as_before = |bytes: &[u8]| matches!(Scan::read(&text_of(bytes)), Scan::Message(_));
    assert!(as_before(&bytes));

    let extra_protected = header()
        .content_format(iana::CoapContentFormat::OctetStream)
        .build();
    let extra_unprotected = HeaderBuilder::new().key_id(id.clone()).build();
    let other_id = HeaderBuilder::new()
        .algorithm(iana::Algorithm::EdDSA)
        .key_id(vec![0; 4])
        .build();
    let no_id = HeaderBuilder::new()
        .algorithm(iana::Algorithm::EdDSA)
        .build();
    let no_algorithm = HeaderBuilder::new().key_id(id.clone()).build();
    let other_algorithm = HeaderBuilder::new()
        .algorithm(iana::Algorithm::ES256)
        .key_id(id.clone())
        .build();
    for protected in [
        extra_protected,
        other_id,
        no_id,
        no_algorithm,
        other_algorithm,
    ] {
        let wrong = sign(protected, Header::default(), &payload);
        assert!(!as_before(&wrong.to_tagged_vec().unwrap()));
    }
    let wrong = sign(header().build(), extra_unprotected, &payload);
    assert!(!as_before(&wrong.to_tagged_vec().unwrap()));
    // Without its tag, and under another: COSE_Mac0.
    assert!(!as_before(&same.to_vec().unwrap()));
    let mut tagged = bytes.clone();
    tagged[0] = 0xd1;
    assert!(!as_before(&tagged));
    // The same array with a longer head, and of indefinite length.
    assert_eq!(bytes[..2], [0xd2, 0x84]);
    assert!(!as_before(&[&[0xd2, 0x98, 0x04], &bytes[2..]].concat()));
    assert!(!as_before(&[&[0xd2, 0x9f], &bytes[2..], &[0xff]].concat()));
    assert!(!as_before(&[&bytes[..], &[0x00]].concat()));
    // Payloads of another spelling, rightly signed: a longer whole number, an unused lot, one item more.
    let resigned = |payload: &[u8]| {
        let message = sign(header().build(), Header::default(), payload);
        message.to_tagged_vec().unwrap()
    };
    let kind = &payload[..2];
    assert_eq!(kind, [0x83, 0x01]);
    assert!(!as_before(&resigned(
        &[&[0x83, 0x18, 0x01], &payload[2..]].concat()
    )));
    assert!(!as_before(&resigned(
        &[&[0x84], &payload[1..], &[0x00]].concat()
    )));
    let lots = find(&payload, b"\x81\x67QD4471A");
    let with_unused = [
        &payload[..lots],
        b"\x82\x67QD4471A\x61X",
        &payload[lots + 9..],
    ]
    .concat();
    assert!(!as_before(&resigned(&with_unused)));
    // A kind from a later version is no damage.
    let later = resigned(&[&[0x83, 0x09], &payload[2..]].concat());
    assert_eq!(Scan::read(&text_of(&later)), Scan::Newer);
}

fn find(all: &[u8], part: &[u8]) -> usize {
    all.windows(part.len())
        .position(|window| window == part)
        .unwrap()
}

/// Signed for something else with the same key: another external data is another signature.
#[test]
fn a_signature_holds_for_this_format_alone() {
    let bytes = bytes_of(&write(&Message::Household(household(1)), &secret()).unwrap());
    let mut read = CoseSign1::from_tagged_slice(&bytes).unwrap();
    let signed = read.tbs_data(b"");
    read.signature = secret().sign(&signed).to_vec();
    let elsewhere = read.to_tagged_vec().unwrap();
    assert_eq!(Scan::read(&text_of(&elsewhere)), Scan::SignatureWrong);
}
