//! A line before several servers: how long people wait at a dispensing site.
//!
//! Erlang's C formula: arrivals at random, service of random length, people who wait until they are served.
//! A line to which more people come than can be served never ends; it is named unstable and gets no figures.
//! Floats are right here: nobody swallows an estimate.

use crate::units::Lapse;

/// What a line comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Servers that would be busy all the time if nobody waited, in erlang.
    pub load: f64,
    /// None where the line grows without end.
    pub waiting: Option<Waiting>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Waiting {
    /// That somebody who comes has to wait.
    pub probability: f64,
    /// Of everybody, those who need not wait included.
    pub mean_seconds: f64,
    /// People who stand and wait, on average.
    pub length: f64,
}

/// The line before `servers` who take `service` for each of `per_hour` people.
///
/// None without a server, without a time, or for a number of people that is negative or no number.
pub fn line(servers: u32, service: Lapse, per_hour: f64) -> Option<Line> {
    let seconds = service.as_secs_f64();
    if servers == 0 || seconds <= 0.0 || !per_hour.is_finite() || per_hour < 0.0 {
        return None;
    }
    // Multiplied first: a line that is just full must not seem a little free.
    let load = per_hour * seconds / 3_600.0;
    let free = f64::from(servers) - load;
    let waiting = (free > 0.0).then(|| {
        let probability = erlang_c(servers, load);
        Waiting {
            probability,
            mean_seconds: probability * seconds / free,
            length: probability * load / free,
        }
    });
    Some(Line { load, waiting })
}

/// Erlang's C from his B, which grows server by server without a large number in it.
fn erlang_c(servers: u32, load: f64) -> f64 {
    let mut blocked = 1.0;
    for server in 1..=servers {
        blocked = load * blocked / (f64::from(server) + load * blocked);
    }
    let busy = load / f64::from(servers);
    blocked / (1.0 - busy * (1.0 - blocked))
}
