//! What an order may leave unsaid, and the fingerprint of what it says.

use hearthdose_core::order::{CheckedOrder, WaterRule, check_bytes, parse};
use hearthdose_core::units::Volume;

use crate::{errors, order, read, set, text, warnings};

/// What an order may leave unsaid, with the defaults that the module states.
#[test]
fn the_stated_defaults_hold() {
    let mut short = text("quillmere-doxy-1");
    for line in [
        "least-gap = \"8 h\"\n",
        "skip-if-next-within = \"6 h\"\n",
        "first-dose = \"now\"\n",
        "first-gap = \"8 h\"\n",
        "margin = \"15 min\"\n",
        "stale-weight = { under-two-years = \"14 d\", older = \"60 d\" }\n",
        "[water]\nrule = \"tap\"\n",
        "languages = [\"en\", \"es\"]\n",
        "keep-where = \"room\"\n",
    ] {
        assert!(short.contains(line), "{line}");
        short = short.replace(line, "");
    }
    let (short, full) = (
        parse(short.as_bytes()).expect("readable"),
        order("quillmere-doxy-1"),
    );
    assert_eq!(short.medicine, full.medicine);
    assert_eq!(short.recipe, full.recipe);
    assert_eq!(short.languages, full.languages);
    assert_eq!(short.water, WaterRule::Tap);
}

/// A liquid needs no recipe; it is then measured to the tenth of a millilitre.
#[test]
fn a_liquid_goes_without_recipe() {
    let liquid = text("quillmere-ciprofloxacin-1").replace(
        "[recipe]\nproduct = \"liquid-250\"\nstep = \"0.5 mL\"\n",
        "",
    );
    let order = CheckedOrder::from_bytes(liquid.as_bytes()).expect("a usable order");
    assert!(order.recipe.is_none());
    assert_eq!(order.step(), Some(Volume::microlitres(100)));
}

/// A chart that prints only upper limits means the same people.
#[test]
fn rows_with_upper_limits_only_are_read_as_a_chart() {
    let mut upper = text("quillmere-iodide-1");
    for line in [
        "over-age = \"1 mo\"\n",
        "over-age = \"3 y\"\n",
        "over-age = \"12 y\"\n",
        "over-age = \"18 y\"\n",
    ] {
        upper = upper.replace(line, "");
    }
    let order = parse(upper.as_bytes()).expect("readable");
    assert_eq!(order.rows, crate::order("quillmere-iodide-1").rows);
    let problems = check_bytes(upper.as_bytes(), &[]);
    assert_eq!(errors(&problems), set(&[]));
    assert!(warnings(&problems).contains("row-start-assumed at row 2"));
}

/// Every fingerprint is that of the exact bytes; the short one shows 80 bits.
#[test]
fn the_fingerprint_is_of_the_exact_bytes() {
    let bytes = read("orders", "quillmere-doxy-1");
    let order = parse(&bytes).expect("readable");
    let mut longer = bytes.clone();
    longer.push(b'\n');
    assert_ne!(
        parse(&longer).expect("readable").fingerprint,
        order.fingerprint
    );
    assert_eq!(order.fingerprint.short().replace(' ', "").len(), 20);
    assert!(
        order
            .fingerprint
            .to_string()
            .starts_with(&order.fingerprint.short().replace(' ', ""))
    );
}
