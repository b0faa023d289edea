//! The bare batch plan as JSON: what comes in, what goes out.

use hearthdose_core::mixture::batch;
use serde::{Deserialize, Serialize};

/// A bare plan as it is asked for. Whole numbers may be anything here; the command says what is wrong with them.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Asked {
    /// Half teaspoons in one bowl.
    pub capacity: i64,
    /// Rounds that a bowl may serve, its own included.
    pub keep_rounds: i64,
    #[serde(default)]
    pub split: bool,
    /// The doses of each round in half teaspoons.
    pub rounds: Vec<Vec<i64>>,
}

#[derive(Debug, Serialize)]
pub struct Document {
    pub bowls: Vec<Bowl>,
    pub count: usize,
    pub lower_bound: usize,
    pub proven: bool,
}

#[derive(Debug, Serialize)]
pub struct Bowl {
    pub round: usize,
    pub takes: Vec<Take>,
}

#[derive(Debug, Serialize)]
pub struct Take {
    pub round: usize,
    /// Index within the round's list.
    pub dose: usize,
    pub half_tsp: u32,
}

impl From<batch::Plan> for Document {
    fn from(plan: batch::Plan) -> Document {
        let take = |take: &batch::Take| Take {
            round: take.round,
            dose: take.dose,
            half_tsp: take.amount,
        };
        let bowl = |bowl: &batch::Bowl| Bowl {
            round: bowl.round,
            takes: bowl.takes.iter().map(take).collect(),
        };
        Document {
            bowls: plan.bowls.iter().map(bowl).collect(),
            count: plan.count,
            lower_bound: plan.lower_bound,
            proven: plan.proven,
        }
    }
}
