//! Every code that reading and checking can give, in one table.

/// Code and meaning, sorted by code. Warnings are marked; a code that can be either says when.
pub const CODES: &[(&str, &str)] = &[
    (
        "allergen-everywhere",
        "warning: every food or drink contains the same allergen",
    ),
    (
        "amount-off-step",
        "a row's amount is no whole number of steps",
    ),
    ("amount-over-bowl", "a row needs more than a full bowl"),
    ("amount-zero", "a row gives nothing"),
    ("bowl-off-step", "a full bowl is no whole number of steps"),
    (
        "course-not-whole-rounds",
        "warning: the course is no whole number of doses",
    ),
    (
        "date-before-issue",
        "a notice's day was over when it was issued, or ends before it begins",
    ),
    (
        "days-zero",
        "supply, course, renewal or people counted as zero",
    ),
    ("dose-falls", "bigger people get less"),
    (
        "dose-jump",
        "warning: a row gives 1.5 times the row before, or more",
    ),
    ("duplicate-key", "one key or language is used twice"),
    ("empty-field", "a text is empty"),
    (
        "expires-before-issue",
        "the order expires before it was issued",
    ),
    (
        "first-gap-over-interval",
        "the gap after the first dose is longer than the interval",
    ),
    ("gap", "people whom no row and no rule serves"),
    (
        "group-without-question",
        "most-doses names the key of a question that is not asked",
    ),
    (
        "gtin-wrong",
        "a package number of a wrong length or with a wrong check digit",
    ),
    (
        "honey-before-one-year",
        "honey without an age of one year or more",
    ),
    ("instead-cycle", "`instead` leads back to the same order"),
    (
        "instead-not-here",
        "warning: the order named by `instead` is not among those at hand",
    ),
    (
        "instead-other-event",
        "warning: the order named by `instead` is for another event",
    ),
    (
        "instead-same-class",
        "the order for the allergic belongs to the same class",
    ),
    (
        "instead-without-stop",
        "warning: a question that only cautions names another order",
    ),
    (
        "interval-does-not-fit-day",
        "the interval neither divides the day nor is whole days",
    ),
    ("interval-zero", "no time between doses"),
    (
        "keep-under-interval",
        "warning: a mixture never keeps until the next round",
    ),
    (
        "least-gap-over-interval",
        "the least gap is longer than the interval",
    ),
    (
        "liquid-with-recipe",
        "warning: tablets, water or soak given for a ready-made liquid",
    ),
    (
        "margin-over-keep",
        "nothing is left of the keeping time after soak and margin",
    ),
    (
        "mass-not-exact",
        "a row's mass is no whole number of micrograms",
    ),
    (
        "mg-differs",
        "the printed mass is not amount times strength",
    ),
    ("mg-over-maximum", "a row gives more than the largest dose"),
    (
        "missing-contact",
        "no contact for emergencies or for questions",
    ),
    ("missing-field", "something that must be given is missing"),
    (
        "missing-step-contact",
        "warning: no contact for poison advice or refills",
    ),
    ("missing-words", "words missing in a declared language"),
    (
        "misspelled-field",
        "a field is a slip or two away from a known one",
    ),
    ("mixed-limits", "weights and ages in one chart"),
    (
        "name-not-translated",
        "warning: a name or opening hours are missing in a language",
    ),
    ("ndc-wrong", "a drug code that cannot be read"),
    ("newer-format", "made for a newer version of the program"),
    (
        "no-adult-from",
        "warning: no age from which the last row applies",
    ),
    ("no-adult-row", "the last row has an upper limit"),
    (
        "no-emergency-caution",
        "warning: no caution about emergencies",
    ),
    (
        "no-lightest",
        "no lightest weight; an error where the first row must be checked against a tolerance, else a warning",
    ),
    ("no-lots", "a notice about lots names none"),
    (
        "no-max-dose",
        "warning: the last row's heaviest person cannot be checked",
    ),
    ("no-order", "a notice names no order"),
    (
        "no-pack-size",
        "warning: packs for each person, but no size of a pack",
    ),
    (
        "no-per-kg",
        "warning: the chart cannot be checked against mg/kg",
    ),
    ("no-product", "the order names no product"),
    ("no-recipe", "tablets without a recipe"),
    (
        "no-room-apart",
        "warning: something to be taken apart has no room between doses",
    ),
    ("no-rows", "the chart has no rows"),
    ("no-rule-between-rows", "printed gaps, but no rule for them"),
    ("no-source", "warning: no source of chart and recipe"),
    (
        "no-tolerance",
        "warning: mg/kg is given without an allowed distance",
    ),
    (
        "no-whole-tablet-row",
        "warning: whole tablets are allowed, but no row is whole tablets",
    ),
    ("no-youngest", "warning: no lower limit of age"),
    ("not-a-date", "a date that cannot be read"),
    (
        "not-an-instant",
        "a date and time without offset, or unreadable",
    ),
    (
        "not-crushable",
        "the recipe crushes a product that is not marked crushable",
    ),
    ("not-shorter", "a notice to shorten does not shorten"),
    (
        "nothing-below-first-row",
        "warning: people below the first row are not mentioned",
    ),
    (
        "nothing-on-label",
        "warning: no words to look for on the package",
    ),
    (
        "odd-id",
        "an id with other than letters, digits, hyphens, dots, underscores",
    ),
    ("odd-language", "no language code"),
    (
        "odd-step",
        "warning: a step that no spoon or syringe measures",
    ),
    ("other-issuer", "a notice names somebody else's order"),
    ("overlap", "people whom two rows serve"),
    (
        "package-number-twice",
        "one package number for two products",
    ),
    ("per-kg-unused", "warning: mg/kg beside a chart by age"),
    ("per-kg-zero", "mg/kg is zero"),
    (
        "phone-looks-invented",
        "warning: a number reserved for fiction in a real order",
    ),
    ("phone-without-digits", "a telephone number without digits"),
    ("quantity-comma", "a comma in a number"),
    ("quantity-empty", "an empty quantity"),
    ("quantity-negative", "a quantity below zero"),
    ("quantity-not-a-number", "no number with a unit"),
    (
        "quantity-not-exact",
        "a quantity too fine to be held exactly",
    ),
    (
        "quantity-not-positive",
        "a quantity of zero that must be more",
    ),
    (
        "quantity-odd-mixture",
        "units mixed in a way that can be misread",
    ),
    ("quantity-too-fine", "more than six decimals"),
    ("quantity-too-large", "a quantity beyond any dose"),
    ("quantity-unknown-unit", "a unit that is not known there"),
    ("quantity-without-unit", "a number without unit"),
    (
        "question-leads-nowhere",
        "a stop or hold without words and without another order",
    ),
    (
        "question-without-words",
        "warning: an answer that shows no words of its own",
    ),
    (
        "recipe-zero",
        "an amount, count or time of the recipe is zero",
    ),
    ("revision-zero", "revisions are counted from 1"),
    (
        "row-far-above",
        "warning: even a row's heaviest person gets half as much again as mg/kg asks",
    ),
    (
        "row-never-used",
        "warning: a row that ends below the lightest weight served",
    ),
    (
        "row-start-assumed",
        "warning: a row without lower limit begins where the one before ends",
    ),
    ("row-upside-down", "a row that ends before it begins"),
    (
        "rows-out-of-order",
        "a lighter or younger row after a heavier or older one",
    ),
    ("rule-needs-per-kg", "the rule “enough” without mg/kg"),
    (
        "sealing-key-wrong",
        "a sealing key that is none, or that anybody could unseal",
    ),
    (
        "skip-window-over-interval",
        "every late dose would be skipped",
    ),
    (
        "soak-over-keep",
        "the soak takes as long as the mixture keeps",
    ),
    (
        "spare-without-plan",
        "spare tablets beside packs for each person",
    ),
    (
        "strength-form",
        "a tablet with a volume in its strength, or a liquid without",
    ),
    (
        "supply-over-course",
        "more days handed out than the course has",
    ),
    (
        "tolerance",
        "a row too far from mg/kg, without a written reason",
    ),
    (
        "tolerance-with-reason",
        "warning: a row too far from mg/kg, with a written reason",
    ),
    (
        "topic-not-asked",
        "warning: nobody asks about allergy, other medicines, pregnancy or kidneys",
    ),
    ("two-limits", "more than one limit on one side"),
    ("unknown-choice", "a word that is not among those allowed"),
    (
        "unknown-field",
        "warning: a field this version does not know",
    ),
    ("unknown-group", "a group of people that cannot be read"),
    (
        "unknown-product",
        "the recipe names a product that is not listed",
    ),
    ("unknown-zone", "no such time zone"),
    ("unreadable-file", "not text, not TOML, or cut short"),
    ("vehicle-ages", "a food or drink that suits nobody by age"),
    (
        "weight-beside-weight",
        "or-weight-from in a chart by weight",
    ),
    ("withdraws-itself", "the order withdraws itself"),
    (
        "wrong-type",
        "text instead of a number, a number instead of a table, and the like",
    ),
];

#[cfg(test)]
mod tests {
    use super::CODES;

    #[test]
    fn the_table_is_sorted_and_has_each_code_once() {
        let codes: Vec<&str> = CODES.iter().map(|(code, _)| *code).collect();
        let mut sorted = codes.clone();
        sorted.sort_unstable();
        sorted.dedup();
        assert_eq!(codes, sorted);
    }
}
