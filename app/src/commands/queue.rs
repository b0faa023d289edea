//! `queue`: how long a line gets, and how long people wait in it.

use hearthdose_core::queue;
use hearthdose_core::units::parse_lapse;
use serde::Serialize;

use crate::answer::{Answer, Exit, Stop};
use crate::arguments::Queue;

#[derive(Serialize)]
struct Document {
    stable: bool,
    load_erlang: f64,
    wait_probability: Option<f64>,
    mean_wait_s: Option<f64>,
    queue_length: Option<f64>,
}

/// More servers than any site has; a slip of the finger beyond it.
const MOST_SERVERS: u32 = 100_000;

pub fn run(asked: &Queue) -> Result<Answer, Stop> {
    let service = parse_lapse(&asked.service)
        .map_err(|error| Stop::unusable(format!("--service: {error}")))?;
    let unusable = "give at least one server, a service time, and people per hour as a number";
    let line = Some(asked.servers)
        .filter(|servers| *servers <= MOST_SERVERS)
        .and_then(|servers| queue::line(servers, service, asked.per_hour))
        .ok_or_else(|| Stop::unusable(unusable))?;
    let waiting = line.waiting;
    let document = Document {
        stable: waiting.is_some(),
        load_erlang: line.load,
        wait_probability: waiting.map(|w| w.probability),
        mean_wait_s: waiting.map(|w| w.mean_seconds),
        queue_length: waiting.map(|w| w.length),
    };
    let text = match waiting {
        Some(w) => format!(
            "{:.0} of 100 people wait; on average {:.0} s, with {:.1} in the line.\n",
            w.probability * 100.0,
            w.mean_seconds,
            w.length
        ),
        None => {
            "More people come than can be served: this line never ends. Add servers.\n".to_owned()
        }
    };
    Answer::new(Exit::Done, &document, text)
}
