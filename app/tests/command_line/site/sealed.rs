//! Codes that only one site can open.

use serde_json::json;

use super::{MORNING, Street};
use crate::run::{File, Ran, demo};

const ORDER: &str = "orders/quillmere-doxy-1.toml";
/// The line of the demonstration order.
const LINE: &str = "sealing-key = { id = \"quillmere-demo\", x25519 = \"092d1a1954f18bcc948579aab5e63078b4f2fe5b531a3da35f7d7f21dbb4ff5d\" }";

fn serve(street: &Street, device: &str, order: &File, code: &str) -> Ran {
    let order = order.path();
    let wish = [
        "site", "serve", "--order", order, "--code", code, "--at", MORNING,
    ];
    street.on(device, &wish)
}

#[test]
fn the_site_whose_key_the_order_names_opens_the_code_and_no_other() {
    let street = Street::new();
    let key = street
        .on("a", &["site", "key", "--id", "hall"])
        .expect(0)
        .json();
    assert_eq!(key["outcome"], "made");
    let again = street
        .on("a", &["site", "key", "--id", "hall"])
        .expect(0)
        .json();
    assert_eq!(
        (&again["outcome"], &again["line"]),
        (&json!("known"), &key["line"])
    );
    let order = File::like(ORDER, &[(LINE, key["line"].as_str().unwrap())]);

    let household = demo("households/tarn-4.toml");
    let out = street.at("sealed.png");
    let written = street.on(
        "home",
        &[
            "code",
            "write",
            "--household",
            &household,
            "--order",
            order.path(),
            "--out",
            &out,
            "--names",
            "--seal",
            "--at",
            MORNING,
        ],
    );
    let written = written.expect(0).json();
    let code = written["text"].as_str().unwrap();

    let shown = serve(&street, "a", &order, code).expect(0).json();
    assert_eq!(shown["home"], written["household"]);
    assert_eq!(shown["people"].as_array().unwrap().len(), 4);

    assert_eq!(
        serve(&street, "b", &order, code).refusals(),
        ["site-key-missing"]
    );
    street.on("b", &["site", "key"]).expect(0);
    assert_eq!(
        serve(&street, "b", &order, code).refusals(),
        ["sealed-for-another"]
    );
    // A second tablet of the site has the first one's key.
    std::fs::copy(street.at("a/site.key"), street.at("b/site.key")).unwrap();
    serve(&street, "b", &order, code).expect(0);

    // One letter of what is inside was read as another one.
    let mut changed = code.to_owned();
    let at = changed.len() - 6;
    let other = if &changed[at..=at] == "A" { "B" } else { "A" };
    changed.replace_range(at..=at, other);
    assert_eq!(
        serve(&street, "a", &order, &changed).refusals(),
        ["damaged"]
    );
    street.on("a", &["site", "key", "--id", "a \"b"]).expect(2);
}

#[cfg(unix)]
#[test]
fn the_sites_key_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt;
    let street = Street::new();
    street.on("a", &["site", "key"]).expect(0);
    let key = street.at("a/site.key");
    let mode = std::fs::metadata(&key).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode, 0o600);
    std::fs::set_permissions(&key, std::fs::Permissions::from_mode(0o644)).unwrap();
    let refused = street.on("a", &["site", "key"]).refusals();
    assert_eq!(refused, ["device-key-exposed"]);
    std::fs::set_permissions(&key, std::fs::Permissions::from_mode(0o600)).unwrap();
    std::fs::write(&key, "no key").unwrap();
    let refused = street.on("a", &["site", "key"]).expect(3).json();
    assert_eq!(refused["reasons"][0]["code"], "site-key-damaged");
    // A new one would leave everything shut that was sealed for the old one.
    let text = refused["reasons"][0]["text"].as_str().unwrap();
    assert!(text.contains("copy it again"), "{text}");
}
