//! `site receive`: packs that came in, typed or as the package's code has them.
//!
//! What a package does not say for certain is not filled in: lot and expiry must be there.

use std::path::PathBuf;

use hearthdose_core::order::{CheckedOrder, Product};
use hearthdose_core::package;
use hearthdose_core::record::{LotName, SiteEvent};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use serde::Serialize;

use super::refused;
use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::site::Receive;
use crate::input;
use crate::site::record::{SiteRecord, at_site, moment};

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    product: String,
    lot: String,
    expiry: String,
    packs: u32,
    /// Tablets, or millilitres, in one pack.
    each: u32,
    gtin: Option<String>,
    /// Packs of the lot by the sum, after these.
    on_shelf: i64,
    /// What is odd and was taken all the same.
    problems: Vec<Reason>,
}

/// The words on a package.
struct Printed {
    lot: String,
    expiry: Date,
    gtin: Option<String>,
    problems: Vec<Reason>,
}

pub fn run(asked: &Receive, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let order = input::order(&asked.order)?;
    let now = moment(&asked.at)?;
    let mut printed = match &asked.package {
        Some(text) => of_code(text, now.wall)?,
        None => typed(asked)?,
    };
    let product = product(&order, asked.product.as_deref(), printed.gtin.as_deref())?;
    let each = product.pack_size.filter(|size| *size > 0).ok_or_else(|| {
        let text = format!(
            "the order does not say how much is in a pack of {}",
            product.key
        );
        refused("pack-size-unknown", text)
    })?;
    let is_printable = printed.lot.len() <= 20 && printed.lot.bytes().all(|b| b.is_ascii_graphic());
    if printed.lot.is_empty() || !is_printable {
        let text = "a lot has 1 to 20 printed letters and digits, without spaces";
        return Err(refused("lot-unreadable", text));
    }
    let mut record = SiteRecord::open(data)?;
    let lot = LotName {
        product: product.key.clone(),
        lot: printed.lot.clone(),
    };
    let event = SiteEvent::LotReceived {
        lot: lot.clone(),
        expiry: printed.expiry,
        packs: asked.packs,
        each,
        gtin: printed.gtin.clone(),
    };
    record.write(&now, Some(&order), vec![at_site(event)])?;
    let stock = record.stock()?;
    let known = stock.lot(&lot);
    if known.is_some_and(|known| known.unlike) {
        let text = "other packs of this lot were entered with another expiry or size; the earliest and the smallest count";
        printed.problems.push(Reason::new("lot-unlike", text));
    }
    if printed.expiry < day(&order, now.wall) {
        let text = format!(
            "the lot expired on {}; nothing of it goes out",
            printed.expiry
        );
        printed.problems.push(Reason::new("lot-expired", text));
    }
    let document = Document {
        outcome: "received",
        product: product.key.clone(),
        lot: printed.lot,
        expiry: printed.expiry.to_string(),
        packs: asked.packs,
        each,
        gtin: printed.gtin,
        on_shelf: known.map_or(0, |known| known.packs()),
        problems: printed.problems,
    };
    let text = format!(
        "received: {} packs of {each}, {} lot {}, use by {}; {} packs of it are here\n",
        document.packs, document.product, document.lot, document.expiry, document.on_shelf
    );
    let notes = document.problems.iter();
    let notes = notes
        .map(|problem| format!("{} ({})", problem.text, problem.code))
        .collect();
    let mut answer = Answer::new(Exit::Done, &document, text)?;
    answer.notes = notes;
    Ok(answer)
}

fn typed(asked: &Receive) -> Result<Printed, Stop> {
    let (Some(lot), Some(expires)) = (&asked.lot, &asked.expires) else {
        return Err(Stop::unusable("give --lot and --expires, or --package"));
    };
    let expiry = expires.parse().map_err(|_| {
        Stop::unusable(format!(
            "expires: “{expires}” is no day; write it as 2032-02-29"
        ))
    })?;
    if let Some(gtin) = &asked.gtin
        && !package::check_digit_is_right(gtin)
    {
        let text = format!("the check digit of the product number {gtin} is wrong");
        return Err(refused("gtin-check-digit", text));
    }
    Ok(Printed {
        lot: lot.trim().to_owned(),
        expiry,
        gtin: asked.gtin.clone(),
        problems: Vec::new(),
    })
}

fn of_code(text: &str, now: Timestamp) -> Result<Printed, Stop> {
    let read = package::read(text, TimeZone::UTC.to_datetime(now).year());
    let problems: Vec<Reason> = read
        .problems
        .iter()
        .map(|problem| Reason::new(problem.code, problem.text.clone()))
        .collect();
    match (read.lot, read.expiry, read.gtin_valid) {
        (Some(lot), Some(expiry), Some(true) | None) => Ok(Printed {
            lot,
            expiry,
            gtin: read.gtin,
            problems,
        }),
        (lot, expiry, _) => {
            let mut reasons = problems;
            if lot.is_none() {
                let text = "the package's code gives no lot that can be used; type it";
                reasons.push(Reason::new("lot-missing", text));
            }
            if expiry.is_none() {
                let text = "the package's code gives no expiry that can be used; type it";
                reasons.push(Reason::new("expiry-missing", text));
            }
            Err(Stop::refused(reasons))
        }
    }
}

/// The product that was named, else the one with this product number, else the order's own.
fn product<'a>(
    order: &'a CheckedOrder,
    named: Option<&str>,
    gtin: Option<&str>,
) -> Result<&'a Product, Stop> {
    let has = |product: &Product, digits: &str| {
        let plain = |text: &str| text.trim_start_matches('0').to_owned();
        let mut numbers = product.gtins.iter();
        numbers.any(|number| plain(&number.to_string()) == plain(digits))
    };
    let unknown = |text: String| refused("product-unknown", text);
    let found = match (named, gtin) {
        (Some(key), _) => order
            .product(key)
            .ok_or_else(|| unknown(format!("the order has no product “{key}”")))?,
        (None, Some(digits)) => order
            .products
            .iter()
            .find(|product| has(product, digits))
            .or_else(|| order.main_product())
            .ok_or_else(|| unknown("the order has several products: name one".to_owned()))?,
        (None, None) => order
            .main_product()
            .ok_or_else(|| unknown("the order has several products: name one".to_owned()))?,
    };
    if let Some(digits) = gtin
        && !found.gtins.is_empty()
        && !has(found, digits)
    {
        let text = format!(
            "product number {digits} is none that the order names for {}",
            found.key
        );
        return Err(refused("gtin-not-of-order", text));
    }
    Ok(found)
}

fn day(order: &CheckedOrder, at: Timestamp) -> Date {
    let zone = hearthdose_core::schedule::zone(&order.time_zone).unwrap_or(TimeZone::UTC);
    zone.to_datetime(at).date()
}
