//! Which food or drink hides the taste for whom, through the whole course.

use hearthdose_core::dose::DoseForm;
use hearthdose_core::mixture::suits;
use hearthdose_core::order::Vehicle;

use super::home::Sheet;

impl Sheet<'_> {
    /// "Apple juice: at least 3 teaspoons (15 mL), with 4 teaspoons (20 mL) of sugar. For Bram and Pim."
    ///
    /// Somebody is named only where the food suits on the first and on the last day.
    pub(super) fn foods(&self) -> Vec<String> {
        let Some(recipe) = &self.home.order.recipe else {
            return Vec::new();
        };
        let foods = recipe.vehicles.iter();
        foods.filter_map(|vehicle| self.food(vehicle)).collect()
    }

    fn food(&self, vehicle: &Vehicle) -> Option<String> {
        let words = self.words;
        let seats = 0..self.home.seats.len();
        let names: Vec<String> = seats
            .filter(|seat| self.takes_mixture(*seat) && self.suits_throughout(*seat, vehicle))
            .map(|seat| self.seat_name(seat))
            .collect();
        if names.is_empty() {
            return None;
        }
        let measure = self.home.measure;
        let least = words.volume(vehicle.at_least, measure);
        let how = match vehicle.sugar {
            None => words.say_with("food-detail", &[("amount", least.into())]),
            Some(sugar) => {
                let sugar = words.volume(sugar, measure);
                words.say_with(
                    "food-detail-sugar",
                    &[("amount", least.into()), ("sugar", sugar.into())],
                )
            }
        };
        let values = [
            ("food", words.named(&vehicle.name, &vehicle.words).into()),
            ("how", lower_first(&how).into()),
            ("names", words.list(&names).into()),
        ];
        Some(upper_first(&words.say_with("paper-food", &values)))
    }

    pub(super) fn takes_mixture(&self, seat: usize) -> bool {
        self.takes(seat, DoseForm::Mixture)
    }

    pub(super) fn takes(&self, seat: usize, form: DoseForm) -> bool {
        let mut doses = self.rounds().flat_map(|(_, round)| &round.doses);
        doses.any(|planned| planned.seat == seat && planned.dose.form == form)
    }

    fn suits_throughout(&self, seat: usize, vehicle: &Vehicle) -> bool {
        let Some(person) = self.home.seats.get(seat).map(|seat| &seat.person) else {
            return false;
        };
        let own = self
            .rounds()
            .filter(|(_, round)| round.doses.iter().any(|planned| planned.seat == seat));
        let days: Vec<_> = own.map(|(_, round)| round.day).collect();
        let ends = [days.first(), days.last()];
        ends.into_iter().all(|day| {
            day.is_some_and(|day| suits(vehicle, person.age_on(*day), &person.food_allergies))
        })
    }
}

pub(super) fn upper_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_lowercase().chain(letters).collect()
    })
}
