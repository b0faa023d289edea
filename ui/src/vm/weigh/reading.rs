//! The two readings of a scale by themselves, where nobody's record is open, as at a site.

use hearthdose_core::household::Manner;
use hearthdose_core::units::WeightUnit;

use super::{Step, Weigh, unit_of};

impl Weigh {
    /// Before the first reading of a site's scale.
    pub(in crate::vm) fn at_site(name: &str, unit: WeightUnit) -> Weigh {
        Weigh {
            step: Step::Read(0),
            ..Weigh::of(name, unit)
        }
    }

    /// 0 the first time on the scale, 1 the second.
    pub(in crate::vm) fn turn(&self) -> usize {
        match self.step {
            Step::Read(turn) => turn,
            _ => 0,
        }
    }

    pub(in crate::vm) fn name(&self) -> &str {
        &self.name
    }

    pub(in crate::vm) fn unit(&self) -> WeightUnit {
        self.unit
    }

    pub(in crate::vm) fn manner(&self) -> Manner {
        self.manner
    }

    /// A press that is about the readings; false when it is not.
    pub(in crate::vm) fn press_reading(&mut self, id: &str) -> bool {
        let turn = self.turn();
        if self
            .turns
            .get_mut(turn)
            .is_some_and(|typing| typing.press(id))
        {
            return true;
        }
        match id {
            "scale-other" => {
                self.manner = match self.manner {
                    Manner::Together => Manner::Alone,
                    _ => Manner::Together,
                };
                self.clear();
            }
            "next" if turn == 0 && self.of_turn(0).is_some() => self.step = Step::Read(1),
            "weigh-again" => {
                self.clear();
                self.step = Step::Read(0);
            }
            _ => match unit_of(id) {
                Some(unit) if turn == 0 => {
                    if unit != self.unit {
                        self.unit = unit;
                        self.clear();
                    }
                }
                _ => return false,
            },
        }
        true
    }

    /// From the second reading back to the first; false where that is on the screen.
    pub(in crate::vm) fn back_to_first(&mut self) -> bool {
        let is_second = self.turn() == 1;
        self.step = Step::Read(0);
        is_second
    }
}
