//! Every amount there can be, written again by hand and compared.

use hearthdose_core::units::{Mass, Volume, parse_lapse, show};

use super::keeps_the_rules;

/// Hundredths as somebody would write them on a label.
fn by_hand(hundredths: u64) -> String {
    let mut whole = (hundredths / 100).to_string();
    if whole.len() > 3 {
        whole.insert(whole.len() - 3, ',');
    }
    match hundredths % 100 {
        0 => whole,
        part if part % 10 == 0 => format!("{whole}.{}", part / 10),
        part => format!("{whole}.{part:02}"),
    }
}

#[test]
fn every_volume_from_0_05_to_40_ml() {
    for hundredths in (5..=4_000).step_by(5) {
        let volume = Volume::microlitres(hundredths * 10);
        let millilitres = by_hand(hundredths);
        assert_eq!(volume.millilitres(), millilitres);
        assert_eq!(volume.to_string(), format!("{millilitres} mL"));
        let spoons = show::spoon_text(volume);
        keeps_the_rules(&spoons);
        let quarters = hundredths % 125 == 0;
        assert_eq!(spoons.contains("teaspoon"), quarters, "{spoons}");
        assert!(spoons.contains(&format!("{millilitres} mL")), "{spoons}");
        keeps_the_rules(&volume.to_string());
    }
}

#[test]
fn every_quarter_teaspoon_up_to_a_bowl() {
    const WRITTEN: [&str; 32] = [
        "¼", "½", "¾", "1", "1¼", "1½", "1¾", "2", "2¼", "2½", "2¾", "3", "3¼", "3½", "3¾", "4",
        "4¼", "4½", "4¾", "5", "5¼", "5½", "5¾", "6", "6¼", "6½", "6¾", "7", "7¼", "7½", "7¾", "8",
    ];
    const MILLILITRES: [&str; 8] = ["1.25", "2.5", "3.75", "5", "6.25", "7.5", "8.75", "10"];
    for (quarters, written) in (1u64..).zip(WRITTEN) {
        let volume = Volume::microlitres(1_250 * quarters);
        assert_eq!(show::teaspoon_number(volume).as_deref(), Some(written));
        let word = if quarters <= 4 {
            "teaspoon"
        } else {
            "teaspoons"
        };
        let text = show::spoon_text(volume);
        assert!(text.starts_with(&format!("{written} {word} (")), "{text}");
        keeps_the_rules(&text);
    }
    for (quarters, millilitres) in (1u64..).zip(MILLILITRES) {
        assert_eq!(
            Volume::microlitres(1_250 * quarters).millilitres(),
            millilitres
        );
    }
    // Between quarters there is no spoon.
    for microlitres in [1, 1_249, 1_251, 4_400, 16_000] {
        assert_eq!(
            show::teaspoon_number(Volume::microlitres(microlitres)),
            None
        );
    }
}

#[test]
fn every_mass_up_to_5_g() {
    for hundredths in (5..=500_000).step_by(5) {
        let mass = Mass::micrograms(hundredths * 10);
        assert_eq!(mass.to_string(), format!("{} mg", by_hand(hundredths)));
    }
    for milligrams in 1..=5_000 {
        keeps_the_rules(&Mass::micrograms(milligrams * 1_000).to_string());
        keeps_the_rules(&Mass::micrograms(milligrams).to_string());
    }
    for (micrograms, written) in [
        (1, "0.001 mg"),
        (500, "0.5 mg"),
        (8_125, "8.125 mg"),
        (16_250, "16.25 mg"),
        (1_000_000, "1,000 mg"),
        (12_345_678_900, "12,345,678.9 mg"),
    ] {
        assert_eq!(Mass::micrograms(micrograms).to_string(), written);
    }
}

#[test]
fn every_length_of_time_in_words() {
    for (typed, words) in [
        ("1 min", "1 minute"),
        ("5 min", "5 minutes"),
        ("90 min", "1 hour 30 minutes"),
        ("12 h", "12 hours"),
        ("24 h", "24 hours"),
        ("7 d", "7 days"),
        ("45 s", "45 seconds"),
        ("0 min", "no time"),
    ] {
        let lapse = parse_lapse(typed).expect("a length of time");
        assert_eq!(show::lapse_text(lapse), words);
    }
    for minutes in 1..=20_000 {
        let lapse = parse_lapse(&format!("{minutes} min")).expect("a length of time");
        keeps_the_rules(&show::lapse_text(lapse));
    }
}
