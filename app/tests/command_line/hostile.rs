//! Damaged files: always an answer with a known exit code, never a panic.

use crate::run::{File, demo, hearthdose, hearthdose_reading};

/// A small generator, so that every run tries the same damage.
struct Damage(u64);

impl Damage {
    fn next(&mut self, below: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % u64::try_from(below).unwrap()).unwrap()
    }

    /// The bytes cut short, changed, doubled or with a number grown.
    fn done_to(&mut self, bytes: &[u8]) -> Vec<u8> {
        let mut bytes = bytes.to_vec();
        for _ in 0..=self.next(3) {
            let at = self.next(bytes.len().max(1));
            match self.next(5) {
                0 => bytes.truncate(at),
                1 => bytes
                    .iter_mut()
                    .skip(at)
                    .take(1)
                    .for_each(|byte| *byte ^= 1 << (self.0 % 8)),
                2 => bytes.splice(at..at, *b"999999999999").for_each(drop),
                3 => {
                    let end = (at + self.next(200)).min(bytes.len());
                    bytes.drain(at..end);
                }
                _ => {
                    let digits: Vec<usize> = (0..bytes.len())
                        .filter(|index| bytes[*index].is_ascii_digit())
                        .collect();
                    if !digits.is_empty() {
                        bytes[digits[self.next(digits.len())]] =
                            b'0' + u8::try_from(self.next(10)).unwrap();
                    }
                }
            }
        }
        bytes
    }
}

#[test]
fn damaged_orders_and_households() {
    let order = std::fs::read(demo("orders/quillmere-doxy-1.toml")).unwrap();
    let household = std::fs::read(demo("households/ferrow-9.toml")).unwrap();
    let (whole_order, whole_household) = (
        demo("orders/quillmere-doxy-1.toml"),
        demo("households/ferrow-9.toml"),
    );
    let mut damage = Damage(0x2031_0403);
    for _ in 0..150 {
        let (bad_order, bad_household) = (
            File::with(damage.done_to(&order)),
            File::with(damage.done_to(&household)),
        );
        for arguments in [
            &["order", "check", bad_order.path(), "--json"][..],
            &[
                "dose",
                "--order",
                bad_order.path(),
                "--weight",
                "31 lb 4 oz",
                "--clear",
                "--json",
            ],
            &[
                "plan",
                "--order",
                bad_order.path(),
                "--household",
                &whole_household,
                "--days",
                "3",
                "--json",
            ],
            &[
                "plan",
                "--order",
                &whole_order,
                "--household",
                bad_household.path(),
                "--days",
                "3",
                "--json",
            ],
        ] {
            let code = hearthdose(arguments).code;
            assert!([0, 2, 3, 4].contains(&code), "{arguments:?}: {code}");
        }
    }
}

#[test]
fn damaged_plans() {
    let mut damage = Damage(7);
    for name in [
        "two-rounds",
        "night-from-the-morning-bowl",
        "split-in-scarcity",
    ] {
        let plan = std::fs::read(demo(&format!("plans/{name}.json"))).unwrap();
        for _ in 0..60 {
            let input = damage.done_to(&plan);
            let code = hearthdose_reading(&["plan", "--stdin"], &input).code;
            assert!(
                [0, 2, 3].contains(&code),
                "{}: {code}",
                String::from_utf8_lossy(&input)
            );
        }
    }
}
