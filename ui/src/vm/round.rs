//! The round: one step, one screen.

use hearthdose_core::prep::{BowlId, Brew, PersonId, Prep, STITCHES, Stage, Taking, ThrowAwayWhy};
use hearthdose_core::time::Now;
use jiff::SignedDuration;

use super::make::picture;
use super::view::{Button, Choice, Link, Next, StepView, Stitch};
use super::{Kitchen, Open};
use crate::text::Measure;

impl Kitchen {
    pub(super) fn round_view(&self, open: &Open, prep: &Prep, now: &Now) -> StepView {
        let stage = match prep.stage(now) {
            // Nobody has to say that the time is over: the next thing to do stands there.
            Stage::Soak { bowls, left } if !left.is_positive() => Stage::Crush { bowls },
            other => other,
        };
        let mut view = match &stage {
            Stage::Reactions => self.reactions_question(open, prep),
            Stage::AskCold { bowl } => self.ask_cold(prep, *bowl),
            Stage::MatchLabel => self.match_label(open),
            Stage::ChooseTool => self.choose_tool(),
            Stage::SetOut { bowls } => self.set_out(open, prep, bowls),
            Stage::Soak { bowls, left } => self.soak(open, prep, bowls, *left, now),
            Stage::Crush { bowls } => self.crush(prep, bowls, now),
            Stage::Smooth { bowls } => self.smooth(prep, bowls),
            Stage::SecondFluid { bowls } => self.second_fluid(open, prep, bowls),
            Stage::Stir { bowls } => self.stir(prep, bowls),
            Stage::Measure { person, bowl, tool } => self.measure(prep, *person, *bowl, *tool),
            Stage::Food { person } => self.food(prep, *person),
            Stage::Give { person } => self.give(prep, *person),
            Stage::WholeTablet { person } => self.whole_tablet(prep, *person),
            Stage::AskOutcome { person } => self.ask_outcome(prep, *person),
            Stage::Cover { bowl } => self.cover(open, prep, *bowl, now),
            Stage::ThrowAway { bowl, why } => self.throw_away(prep, *bowl, *why),
            Stage::Done => self.done(open, now),
        };
        if let Some(at) = stage.stitch() {
            view.hem = (0..STITCHES).map(|i| stitch(i, at)).collect();
            let values = [
                ("step", (at + 1).to_string().into()),
                ("of", STITCHES.to_string().into()),
            ];
            view.place = self.words.say_with("step-of", &values);
        }
        if can_go_wrong(&stage, prep) {
            view.ways
                .push(Link::to("wrong", self.words.say("something-wrong")));
        }
        view
    }

    fn reactions_question(&self, open: &Open, prep: &Prep) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("reactions-title"));
        view.body = vec![words.say("reactions-body")];
        let people: std::collections::BTreeSet<PersonId> =
            prep.takes.iter().map(|taking| taking.take.person).collect();
        if self.reacting.is_empty() {
            view.choices.push(
                Choice::new(
                    "reactions-nobody",
                    words.say("reactions-nobody"),
                    words.say("reactions-nobody-detail"),
                    "table-set",
                )
                .usual(),
            );
        }
        for person in people {
            let name = self.name_of(open, person);
            let title = words.say_with("reactions-yes", &[("name", name.into())]);
            let mut choice = Choice::new(
                &format!("reaction:{}", person.0),
                title,
                words.say("reactions-yes-detail"),
                "allergy-stop",
            );
            choice.chosen = self.reacting.contains(&person);
            view.choices.push(choice);
        }
        if !self.reacting.is_empty() {
            view.main = Some(Button::ready("reactions-some", words.say("reactions-some")));
        }
        view
    }

    fn ask_cold(&self, prep: &Prep, bowl: BowlId) -> StepView {
        let words = &self.words;
        let number = number_of(prep, bowl);
        let mut view = StepView::titled(words.say_with("cold-title", &[("number", number.into())]));
        view.body = vec![words.say("cold-body")];
        view.choices = vec![
            Choice::new(
                "cold-yes",
                words.say("cold-yes"),
                words.say("cold-yes-detail"),
                "fridge",
            )
            .usual(),
            Choice::new(
                "cold-no",
                words.say("cold-no"),
                words.say("cold-no-detail"),
                "throw-away",
            ),
        ];
        view
    }

    fn match_label(&self, open: &Open) -> StepView {
        let words = &self.words;
        let says = open
            .order
            .main_product()
            .map(|p| p.label_says.clone())
            .unwrap_or_default();
        let mut view =
            StepView::titled(words.say_with("label-title", &[("words", says.join(", ").into())]));
        view.picture = Some(picture("bottle-label"));
        view.body = vec![words.say("label-body")];
        view.choices = vec![
            Choice::new(
                "label-yes",
                words.say("label-yes"),
                words.say("label-yes-detail"),
                "tablet",
            )
            .usual(),
            Choice::new(
                "label-no",
                words.say("label-no"),
                words.say("label-no-detail"),
                "hold",
            ),
        ];
        view
    }

    fn choose_tool(&self) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("tool-title"));
        view.body = vec![words.say("tool-body")];
        view.choices = vec![
            Choice::new(
                "tool-spoon",
                words.say("tool-spoon"),
                words.say("tool-spoon-detail"),
                "spoon-full",
            )
            .usual(),
            Choice::new(
                "tool-syringe",
                words.say("tool-syringe"),
                words.say("tool-syringe-detail"),
                "syringe-full",
            ),
        ];
        view
    }

    fn set_out(&self, open: &Open, prep: &Prep, bowls: &[BowlId]) -> StepView {
        let words = &self.words;
        let measure = prep.tool.map_or(Measure::Spoon, Measure::from);
        let mut view = StepView::titled(words.say("gather-title"));
        view.picture = Some(picture("gather"));
        view.things = self.things(open, prep, bowls, measure);
        view.body = vec![words.say("gather-then")];
        view.main = Some(Button::ready("water-in", words.say("start-the-soak")));
        view
    }

    fn soak(
        &self,
        open: &Open,
        prep: &Prep,
        bowls: &[BowlId],
        left: SignedDuration,
        now: &Now,
    ) -> StepView {
        let words = &self.words;
        let mut view =
            StepView::titled(words.say_with("soak-title", &[("count", bowls.len().into())]));
        view.eyebrow = self.bowls_eyebrow(prep, bowls);
        let whole = bowls
            .iter()
            .filter_map(|b| prep.brew(*b))
            .map(|b| b.bowl.soak)
            .max()
            .unwrap_or(SignedDuration::ZERO);
        let soft = softened(whole, left);
        // Four pictures, one after the other, where nothing is to move.
        let soft = if self.settings.still {
            soft - soft % 25
        } else {
            soft
        };
        view.picture = Some(picture(&format!("soak:{soft}")));
        view.next = Some(Next {
            eyebrow: words.say("next"),
            title: words.say("crush-next"),
            picture: picture("crush"),
        });
        let at = now.wall.checked_add(left).unwrap_or(now.wall);
        let time = words.clock(at, &self.zone(open));
        view.large = words.countdown(left);
        view.body = vec![words.say_with("soak-body", &[("time", time.as_str().into())])];
        view.main = Some(Button::waiting(
            words.say_with("crush-at", &[("time", time.into())]),
        ));
        view.ways.extend(self.timer_way());
        view
    }

    fn crush(&self, prep: &Prep, bowls: &[BowlId], now: &Now) -> StepView {
        let words = &self.words;
        let count = [("count", bowls.len().into())];
        let mut view = StepView::titled(words.say_with("crush-title", &count));
        view.eyebrow = self.bowls_eyebrow(prep, bowls);
        view.picture = Some(picture("crush"));
        view.body = vec![words.say("crush-body")];
        if matches!(prep.stage(now), Stage::Soak { .. }) {
            view.body.insert(0, words.say("soak-done"));
        }
        view.main = Some(Button::ready("crushed", words.say("crushed")));
        view
    }

    fn smooth(&self, prep: &Prep, bowls: &[BowlId]) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("smooth-title"));
        view.eyebrow = self.bowls_eyebrow(prep, bowls);
        view.body = vec![words.say("smooth-body")];
        view.choices = vec![
            Choice::new(
                "smooth-yes",
                words.say("smooth-yes"),
                words.say("smooth-yes-detail"),
                "smooth",
            )
            .usual(),
            Choice::new(
                "smooth-no",
                words.say("smooth-no"),
                words.say("smooth-no-detail"),
                "lumps",
            ),
        ];
        view
    }

    fn second_fluid(&self, open: &Open, prep: &Prep, bowls: &[BowlId]) -> StepView {
        let words = &self.words;
        let fluid = open
            .order
            .recipe
            .as_ref()
            .and_then(|r| r.second_fluid.clone());
        let measure = prep.tool.map_or(Measure::Spoon, Measure::from);
        let (name, amount) = fluid.map_or((String::new(), String::new()), |f| {
            let name = words.named(&open.order, &f.name, &f.words).to_owned();
            (name, words.volume(f.amount, measure))
        });
        let mut view = StepView::titled(words.say_with("second-title", &[("name", name.into())]));
        view.eyebrow = self.bowls_eyebrow(prep, bowls);
        view.picture = Some(picture("add-juice"));
        view.body = vec![words.say_with("second-body", &[("amount", amount.into())])];
        view.main = Some(Button::ready("second-fluid", words.say("second-done")));
        view
    }

    fn stir(&self, prep: &Prep, bowls: &[BowlId]) -> StepView {
        let words = &self.words;
        let count = [("count", bowls.len().into())];
        let mut view = StepView::titled(words.say_with("stir-title", &count));
        view.eyebrow = self.bowls_eyebrow(prep, bowls);
        view.picture = Some(picture("stir"));
        view.body = vec![words.say("stir-body")];
        view.main = Some(Button::ready("stirred", words.say("stirred")));
        view
    }

    fn cover(&self, open: &Open, prep: &Prep, bowl: BowlId, now: &Now) -> StepView {
        let words = &self.words;
        let number = number_of(prep, bowl);
        let mut view =
            StepView::titled(words.say_with("cover-title", &[("number", number.as_str().into())]));
        view.picture = Some(picture("cover-label"));
        if let Some(brew) = prep.brew(bowl) {
            view.things = self.label_lines(open, brew, now);
            view.body = vec![words.say(if brew.bowl.refrigerated {
                "cover-fridge"
            } else {
                "cover-room"
            })];
        }
        view.eyebrow = words.say("cover-eyebrow");
        view.main = Some(Button::ready("cover", words.say("cover-it")));
        view
    }

    fn throw_away(&self, prep: &Prep, bowl: BowlId, why: ThrowAwayWhy) -> StepView {
        let words = &self.words;
        let number = number_of(prep, bowl);
        let key = match why {
            ThrowAwayWhy::TooOld => "throw-old-title",
            ThrowAwayWhy::LeftOver => "throw-left-title",
        };
        let mut view = StepView::titled(words.say_with(key, &[("number", number.into())]));
        view.picture = Some(picture("throw-away"));
        view.body = vec![words.say(match why {
            ThrowAwayWhy::TooOld => "throw-old-body",
            ThrowAwayWhy::LeftOver => "throw-left-body",
        })];
        view.main = Some(Button::ready("throw-away", words.say("throw-it-away")));
        view.in_the_way = why == ThrowAwayWhy::TooOld;
        view
    }

    fn done(&self, open: &Open, now: &Now) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("done-title"));
        view.picture = Some(picture("table-clean"));
        if let Some(Ok(today)) = &open.today
            && let Some(at) = today.next_at()
        {
            let time = words.clock_and_day(at, &today.zone, now.wall);
            view.large = time.clone();
            view.body = vec![words.say_with(
                "done-next",
                &[("round", words.round_in_sentence(at, &today.zone).into())],
            )];
        }
        view.body.push(words.say("done-wash"));
        view.main = Some(Button::ready("to-today", words.say("done-main")));
        view.back = false;
        view
    }
}

fn stitch(index: usize, at: usize) -> Stitch {
    match index.cmp(&at) {
        std::cmp::Ordering::Less => Stitch::Done,
        std::cmp::Ordering::Equal => Stitch::Now,
        std::cmp::Ordering::Greater => Stitch::ToCome,
    }
}

/// Percent of the soak that is over, in steps of five, so that the picture changes seldom.
fn softened(whole: SignedDuration, left: SignedDuration) -> i64 {
    let whole = whole.as_secs().max(1);
    let passed = (whole - left.as_secs()).clamp(0, whole);
    if left.is_positive() {
        (passed * 100 / whole / 5 * 5).min(95)
    } else {
        100
    }
}

pub(super) fn taking(prep: &Prep, person: PersonId) -> Option<&Taking> {
    prep.takes
        .iter()
        .find(|taking| taking.take.person == person)
}

fn number_of(prep: &Prep, bowl: BowlId) -> String {
    prep.brew(bowl)
        .map(|brew: &Brew| brew.bowl.number.to_string())
        .unwrap_or_default()
}

fn can_go_wrong(stage: &Stage, prep: &Prep) -> bool {
    let table_is_set = prep.bowls.iter().any(Brew::is_open)
        || matches!(stage, Stage::WholeTablet { .. } | Stage::AskOutcome { .. });
    table_is_set
        && !matches!(
            stage,
            Stage::Done
                | Stage::Reactions
                | Stage::ThrowAway {
                    why: ThrowAwayWhy::TooOld,
                    ..
                }
        )
}
