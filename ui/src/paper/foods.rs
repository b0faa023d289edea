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
        let words = self.words;
        let Some(recipe) = &self.home.order.recipe else {
            return Vec::new();
        };
        // Foods that are prepared alike for the same people stand in one line.
        let mut lines: Vec<(String, Vec<String>, Vec<String>)> = Vec::new();
        for vehicle in &recipe.vehicles {
            let names = self.names_for(vehicle);
            if names.is_empty() {
                continue;
            }
            let how = self.how_much(vehicle);
            let food = words
                .named(self.home.order, &vehicle.name, &vehicle.words)
                .to_owned();
            match lines
                .iter_mut()
                .find(|(other, _, whom)| *other == how && *whom == names)
            {
                Some((_, foods, _)) => foods.push(food),
                None => lines.push((how, vec![food], names)),
            }
        }
        let line = |(how, foods, names): (String, Vec<String>, Vec<String>)| {
            let values = [
                ("food", upper_first(&words.either(&foods)).into()),
                ("how", lower_first(&how).into()),
                ("names", words.list(&names).into()),
            ];
            words.say_with("paper-food", &values)
        };
        lines.into_iter().map(line).collect()
    }

    fn names_for(&self, vehicle: &Vehicle) -> Vec<String> {
        let seats = 0..self.home.seats.len();
        seats
            .filter(|seat| self.takes_mixture(*seat) && self.suits_throughout(*seat, vehicle))
            .map(|seat| self.seat_name(seat))
            .collect()
    }

    fn how_much(&self, vehicle: &Vehicle) -> String {
        let words = self.words;
        let measure = self.home.measure;
        let least = words.volume(vehicle.at_least, measure);
        match vehicle.sugar {
            None => words.say_with("food-detail", &[("amount", least.into())]),
            Some(sugar) => {
                let sugar = words.volume(sugar, measure);
                words.say_with(
                    "food-detail-sugar",
                    &[("amount", least.into()), ("sugar", sugar.into())],
                )
            }
        }
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
