//! Numbers as they are typed on the pad, digit by digit.
//!
//! What was typed stays as it was typed: nothing is rounded and no unit is guessed.

use serde::{Deserialize, Serialize};

/// A few numbers on one screen, and which of them the next key goes to.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Typing {
    values: Vec<String>,
    /// Most signs of each number.
    most: Vec<usize>,
    active: usize,
}

impl Typing {
    pub fn of(most: &[usize]) -> Typing {
        Typing {
            values: vec![String::new(); most.len()],
            most: most.to_vec(),
            active: 0,
        }
    }

    pub fn get(&self, index: usize) -> &str {
        self.values.get(index).map_or("", String::as_str)
    }

    pub fn is_active(&self, index: usize) -> bool {
        self.active == index
    }

    /// The next key goes to this number.
    pub fn choose(&mut self, index: usize) {
        self.active = index.min(self.values.len().saturating_sub(1));
    }

    /// A press on the pad, or on a line to type into; false when it was neither.
    pub fn press(&mut self, id: &str) -> bool {
        if let Some(key) = id.strip_prefix("key:") {
            self.key(key);
            return true;
        }
        let index = id.strip_prefix("field:").and_then(|at| at.parse().ok());
        if let Some(index) = index {
            self.choose(index);
        }
        index.is_some()
    }

    /// One key: a digit, `.`, or `back`. A number that is full passes on to the next one.
    pub fn key(&mut self, key: &str) {
        let most = self.most.get(self.active).copied().unwrap_or(0);
        let Some(value) = self.values.get_mut(self.active) else {
            return;
        };
        match key {
            "back" if value.is_empty() => self.active = self.active.saturating_sub(1),
            "back" => {
                value.pop();
            }
            "." if value.contains('.') || value.len() + 1 >= most => {}
            "." if value.is_empty() => value.push_str("0."),
            "." => value.push('.'),
            digit if digit.len() == 1 && digit.chars().all(|c| c.is_ascii_digit()) => {
                if value.len() < most {
                    value.push_str(digit);
                }
                if value.len() >= most && self.active + 1 < self.values.len() && most > 1 {
                    self.active += 1;
                }
            }
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Typing;

    #[test]
    fn digits_fill_one_number_after_the_other() {
        let mut typing = Typing::of(&[2, 2, 4]);
        for key in ["0", "4", "1", "9", "2", "0", "2", "8", "7"] {
            typing.key(key);
        }
        assert_eq!(
            [typing.get(0), typing.get(1), typing.get(2)],
            ["04", "19", "2028"]
        );
    }

    #[test]
    fn a_number_has_one_point_and_a_zero_before_it() {
        let mut typing = Typing::of(&[6]);
        for key in [".", "5", ".", "x", "25"] {
            typing.key(key);
        }
        assert_eq!(typing.get(0), "0.5");
        for _ in 0..5 {
            typing.key("back");
        }
        assert_eq!(typing.get(0), "");
    }
}
