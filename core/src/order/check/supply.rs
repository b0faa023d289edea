//! What is handed out: one package number means one product, and packs of one's own have a size.

use std::collections::BTreeMap;

use crate::order::model::Order;
use crate::order::problem::Problem;
use crate::order::supply::HandOut;

pub(super) fn check(order: &Order) -> Vec<Problem> {
    let mut problems = Vec::new();
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for (index, product) in order.products.iter().enumerate() {
        let numbers = product.gtins.iter().map(|gtin| gtin.as_str());
        for number in numbers.chain(product.ndcs.iter().map(|ndc| ndc.as_str())) {
            if seen
                .insert(number, index)
                .is_some_and(|other| other != index)
            {
                let text = format!("The package number “{number}” stands for two products.");
                let place = format!("product {}", index + 1);
                problems.push(Problem::error("package-number-twice", place, text));
            }
        }
    }
    let without_size = order
        .main_product()
        .is_some_and(|product| product.pack_size.is_none());
    if order.medicine.hand_out == HandOut::PerPerson && without_size {
        let text = "Each person gets packs, but the product does not say how much is in one.";
        problems.push(Problem::warning("no-pack-size", "medicine.hand-out", text));
    }
    problems
}
