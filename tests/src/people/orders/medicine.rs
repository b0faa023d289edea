//! The product and the recipe: tablets in a bowl, tablets in a bowl with a second fluid, or a ready-made liquid.

use super::{milligram_text, thousandths};
use crate::people::dice::Dice;

/// Volumes in microlitres, masses in micrograms.
pub struct Stuff {
    kind: Kind,
    pub step: i64,
    /// Most steps of one dose.
    pub most: i64,
    pub per_step: i64,
}

enum Kind {
    Tablets {
        strength: i64,
        count: i64,
        water: i64,
        second: i64,
    },
    Liquid {
        mass: i64,
        volume: i64,
        recipe: bool,
    },
}

impl Stuff {
    /// Drawn until a step holds a whole number of micrograms and a bowl a whole number of steps.
    pub fn random(dice: &mut Dice) -> Stuff {
        loop {
            let found = if dice.percent(70) {
                Stuff::tablets(dice)
            } else {
                Stuff::liquid(dice)
            };
            if let Some(found) = found {
                return found;
            }
        }
    }

    fn tablets(dice: &mut Dice) -> Option<Stuff> {
        let strength = 1000 * dice.pick(&[50, 65, 75, 100, 100, 120, 130, 150, 200, 500]);
        let count = dice.between(1, 3);
        let water = dice.pick(&[10_000, 15_000, 20_000, 20_000, 25_000, 40_000]);
        let second = dice.pick(&[0, 0, 0, 10_000, 20_000]);
        let step = dice.pick(&[1_250, 2_500, 2_500, 5_000, 500, 1_000]);
        let (mass, bowl) = (strength * count, water + second);
        let fits = bowl % step == 0 && (mass * step) % bowl == 0;
        let kind = Kind::Tablets {
            strength,
            count,
            water,
            second,
        };
        fits.then(|| Stuff {
            kind,
            step,
            most: bowl / step,
            per_step: mass * step / bowl,
        })
    }

    fn liquid(dice: &mut Dice) -> Option<Stuff> {
        let mass = 1000 * dice.pick(&[25, 50, 65, 125, 250, 400]);
        let volume = dice.pick(&[1_000, 5_000, 5_000, 2_500]);
        let recipe = dice.percent(70);
        let step = if recipe {
            dice.pick(&[100, 500, 1_000, 1_250, 2_500])
        } else {
            100
        };
        let kind = Kind::Liquid {
            mass,
            volume,
            recipe,
        };
        ((mass * step) % volume == 0).then(|| Stuff {
            kind,
            step,
            most: 60,
            per_step: mass * step / volume,
        })
    }

    pub fn toml(&self, dice: &mut Dice) -> String {
        let whole = dice.percent(75);
        let product = "[[product]]\nkey = \"it\"\nlabel-says = [\"it\"]";
        let step = volume_text(dice, self.step);
        match self.kind {
            Kind::Tablets {
                strength,
                count,
                water,
                second,
            } => {
                let strength = milligram_text(strength);
                let water = volume_text(dice, water);
                let fluid = if second > 0 {
                    let amount = volume_text(dice, second);
                    format!("[recipe.second-fluid]\nname = \"syrup\"\namount = \"{amount}\"\n")
                } else {
                    String::new()
                };
                format!(
                    "{product}\nform = \"tablet\"\nstrength = \"{strength}\"\ncrushable = true\nwhole-if-row-allows = {whole}\n\
                     [recipe]\nproduct = \"it\"\ntablets = {count}\nwater = \"{water}\"\nsoak = \"5 min\"\nstep = \"{step}\"\nkeep = \"24 h\"\n{fluid}"
                )
            }
            Kind::Liquid {
                mass,
                volume,
                recipe,
            } => {
                let (mass, volume) = (milligram_text(mass), format!("{} mL", thousandths(volume)));
                let volume = if volume == "1 mL" && dice.percent(50) {
                    "mL"
                } else {
                    &volume
                };
                let recipe = if recipe {
                    format!("[recipe]\nproduct = \"it\"\nstep = \"{step}\"\n")
                } else {
                    String::new()
                };
                format!(
                    "{product}\nform = \"liquid\"\nstrength = \"{mass} / {volume}\"\nwhole-if-row-allows = {whole}\n{recipe}"
                )
            }
        }
    }
}

/// A volume in teaspoons where it is a number of quarters, or in millilitres.
pub fn volume_text(dice: &mut Dice, microlitres: i64) -> String {
    let quarters = microlitres / 1_250;
    if microlitres % 1_250 != 0 || dice.percent(30) {
        return format!("{} mL", thousandths(microlitres));
    }
    let (whole, part) = (quarters / 4, quarters % 4);
    let signs = ["", "¼", "½", "¾"];
    let slashes = ["", "1/4", "1/2", "3/4"];
    let index = usize::try_from(part).expect("a quarter");
    let number = match (whole, part, dice.below(3)) {
        (_, 0, _) => whole.to_string(),
        (_, _, 0) => thousandths(250 * quarters),
        (0, _, 1) => signs[index].to_owned(),
        (_, _, 1) => format!("{whole}{}", signs[index]),
        (0, _, _) => slashes[index].to_owned(),
        _ => format!("{whole} {}", slashes[index]),
    };
    let unit = dice.pick(&["tsp", "tsp", "teaspoons"]);
    format!("{number} {unit}")
}
