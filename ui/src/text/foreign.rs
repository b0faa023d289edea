//! Words that are shown in another language, because an order does not have them in the language of the screen.
//!
//! Nothing is mixed silently: whatever is shown so is remembered here, and the screen or the paper says it.

use hearthdose_core::order::Order;

use super::Words;

impl Words {
    /// A text that is in `language` only; a mark or a number is in every language.
    pub fn only_in<'a>(&self, language: &str, text: &'a str) -> &'a str {
        if language != self.language.code() && text.contains(char::is_alphabetic) {
            self.foreign.borrow_mut().insert(language.to_owned());
        }
        text
    }

    /// The sentence about everything that was shown in another language since the last time this was asked; none where nothing was.
    pub fn foreign(&self) -> Option<String> {
        let languages = std::mem::take(&mut *self.foreign.borrow_mut());
        let names: Vec<String> = languages
            .iter()
            .map(|code| {
                self.say(match code.as_str() {
                    "en" => "language-en",
                    "es" => "language-es",
                    _ => "language-other",
                })
            })
            .collect();
        let values = [("language", self.list(&names).into())];
        (!names.is_empty()).then(|| self.say_with("strip-foreign", &values))
    }

    /// The same about all the words of an order that a paper may say.
    pub fn foreign_in(&self, order: &Order) -> Option<String> {
        self.foreign();
        self.title(order);
        self.medicine(order);
        for entry in &order.medicine.apart {
            self.named(order, &entry.what, &entry.words);
        }
        if let Some(recipe) = &order.recipe {
            for vehicle in &recipe.vehicles {
                self.named(order, &vehicle.name, &vehicle.words);
            }
            if let Some(fluid) = &recipe.second_fluid {
                self.named(order, &fluid.name, &fluid.words);
            }
        }
        for question in &order.questions {
            self.of_order(&question.then);
        }
        for caution in &order.cautions {
            self.of_order(&caution.text);
        }
        for contact in &order.contacts {
            self.named(order, &contact.name, &contact.words);
            self.of_order(&contact.hours);
        }
        self.foreign()
    }
}
