//! What a frame costs on a phone of 1080 by 2400: the pixels that are drawn, for all that happens often.
//!
//! `bash tests/cost` counts the instructions of the same things; see DEVELOPERS.md.

#[path = "phone/device.rs"]
#[allow(dead_code)]
mod device;
#[path = "phone/often.rs"]
mod often;
#[path = "layout/tree.rs"]
#[allow(dead_code)]
mod tree;

use std::collections::BTreeMap;

use device::Device;
use hearthdose_tests::kitchen::World;

const WHOLE: u64 = often::SIZE.0 as u64 * often::SIZE.1 as u64;

/// Typing, counting down and scrolling draw what changed and no more.
#[test]
fn little_is_drawn_for_little() {
    let world = World::new("phone-cost");
    let mut device = Device::new(often::SIZE, often::SCALE);
    let mut drawn = BTreeMap::new();
    often::all(&mut device, &world, &mut |name, device, doing| {
        device.shown();
        let before = device.phone.pixels_drawn();
        doing(device);
        let pixels = device.phone.pixels_drawn() - before;
        let share = pixels * 100 / WHOLE;
        println!("{name}: {pixels} pixels, {share} % of a frame");
        drawn.insert(name, pixels);
    });
    assert!(drawn[often::START] >= WHOLE);
    assert_eq!(drawn[often::WHOLE_FRAME], WHOLE);
    assert_eq!(drawn[often::REST], 0);
    for (name, most) in [
        (often::FIRST_LETTER, WHOLE / 2),
        (often::LETTER, WHOLE / 10),
        (often::SOAK, WHOLE / 3),
        (often::FIRST_DIGIT, WHOLE),
        (often::DIGIT, WHOLE / 2),
    ] {
        assert!((1..=most).contains(&drawn[name]), "{name}");
    }

    // Of the scrolling, what stands still above and below is left alone.
    let scroll_area = tree::read(device.table().window())
        .texts
        .iter()
        .filter(|text| text.bounds.scroll.is_some())
        .map(|text| text.bounds.seen)
        .next()
        .expect("a page that scrolls");
    let shown = device.shown();
    assert!((5..=14).contains(&shown.len()), "{} frames", shown.len());
    for patch in shown {
        let (top, bottom) = (patch.top as f32, patch.bottom as f32);
        assert!(top >= scroll_area.top * often::SCALE - 2.0, "{patch:?}");
        assert!(
            bottom <= scroll_area.bottom * often::SCALE + 2.0,
            "{patch:?}"
        );
    }
    assert!(drawn[often::SCROLL] > 0);
}
