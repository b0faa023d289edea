//! Tablets that were used: swallowed, dissolved, spilt or dropped (G12).

use hearthdose_core::dose::DoseForm;
use hearthdose_core::prep::{Outcome, StepEvent, Tool, Wrong};
use hearthdose_core::record::{Event, fold};

use crate::facts::person;
use crate::{ROUND, both, bowl, giving, mixing, noted, people, plan, step};

fn wrong(what: Wrong) -> Event {
    step(StepEvent::WentWrong { what })
}

/// Ana swallows two tablets whole; one fall costs two more, however often it happens.
#[test]
fn a_dropped_whole_tablet_is_used_up() {
    let mut plan = plan(ROUND, 1);
    plan.bowls.clear();
    plan.takes.truncate(1);
    plan.takes[0].form = DoseForm::Tablets;
    plan.takes[0].bowl = None;
    plan.takes[0].tablets = Some(2);
    let dropped = || {
        wrong(Wrong::DoseDropped {
            person: person(1),
            instead: bowl(9),
        })
    };
    let begun = Event::RoundBegun {
        plan: Box::new(plan),
    };
    let outcome = |outcome| {
        step(StepEvent::Outcome {
            person: person(1),
            outcome,
        })
    };
    let given = step(StepEvent::Given { person: person(1) });
    let label = step(StepEvent::Label { matches: true });
    for (after, result, used) in [
        (vec![], Outcome::All, 2),
        (vec![dropped()], Outcome::All, 4),
        (vec![given.clone(), dropped()], Outcome::All, 4),
        (vec![dropped(), dropped()], Outcome::WouldNotTake, 4),
    ] {
        let mut events = vec![(0, begun.clone()), (1, label.clone())];
        events.extend((2..).zip(after));
        events.push((20, given.clone()));
        events.push((21, outcome(result)));
        let state = fold(&both(&people(), &noted(1, 0, events)));
        assert_eq!((state.all_tablets().used, state.misfits.len()), (used, 0));
    }
    // Not before the bottle was opened.
    let early = noted(1, 0, vec![(0, begun), (1, dropped())]);
    let state = fold(&both(&people(), &early));
    assert_eq!((state.all_tablets().used, state.misfits.len()), (0, 1));
}

/// A spilt bowl and the one made in its place are two tablets.
#[test]
fn a_spilt_bowl_is_used_up() {
    let mut events = mixing(1);
    events.push((
        13,
        wrong(Wrong::BowlLost {
            bowl: bowl(1),
            instead: bowl(7),
        }),
    ));
    let again = [
        StepEvent::WaterIn,
        StepEvent::Crush,
        StepEvent::Crushed,
        StepEvent::Smooth { smooth: true },
        StepEvent::Stirred,
    ];
    events.extend((14..).step_by(6).zip(again.map(step)));
    events.extend(giving(60, person(1), Outcome::All));
    let state = fold(&both(&people(), &noted(1, 0, events)));
    assert_eq!((state.all_tablets().used, state.misfits.len()), (2, 0));
    assert_eq!(state.bowls[&bowl(7)].bowl.tool, Some(Tool::Spoon));
}
