//! What the activity tells, as [`Event`]s.

use std::time::Duration;

use android_activity::input::{InputEvent, MotionAction, MotionEvent};
use android_activity::{AndroidApp, InputStatus, MainEvent, PollEvent};
use ndk::configuration::UiModeNight;

use super::java::Java;
use super::keys::Keys;
use crate::phone::{Event, Events, Insets, Look, Touch};

/// Android counts density from this many dots an inch.
const PLAIN_DENSITY: f32 = 160.0;

pub struct Inbox {
    app: AndroidApp,
    java: Java,
    keys: Keys,
}

impl Inbox {
    pub fn of(app: &AndroidApp, java: &Java) -> Inbox {
        Inbox {
            app: app.clone(),
            java: java.clone(),
            keys: Keys::default(),
        }
    }
}

impl Events for Inbox {
    fn wait(&mut self, at_most: Option<Duration>, take: &mut dyn FnMut(Event) -> bool) {
        let Inbox { app, java, keys } = self;
        let all = app.clone();
        app.poll_events(at_most, |event| {
            let PollEvent::Main(event) = event else {
                return;
            };
            match event {
                MainEvent::InputAvailable => inputs(&all, keys, take),
                MainEvent::InitWindow { .. } | MainEvent::ConfigChanged { .. } => {
                    take(Event::Look(look(&all, java)));
                    take(Event::Surface);
                }
                MainEvent::ContentRectChanged { .. } | MainEvent::InsetsChanged { .. } => {
                    take(Event::Look(look(&all, java)));
                }
                MainEvent::WindowResized { .. } | MainEvent::TerminateWindow { .. } => {
                    take(Event::Surface);
                }
                MainEvent::RedrawNeeded { .. } => {
                    take(Event::Redraw);
                }
                MainEvent::GainedFocus => {
                    // The bars are laid out by now, also on the first start.
                    take(Event::Look(look(&all, java)));
                    take(Event::Focus(true));
                }
                MainEvent::LostFocus => {
                    take(Event::Focus(false));
                }
                MainEvent::Start | MainEvent::Resume { .. } => {
                    take(Event::Shown);
                }
                MainEvent::Pause => {
                    take(Event::Paused);
                }
                MainEvent::Stop => {
                    take(Event::Hidden);
                }
                MainEvent::LowMemory => {
                    take(Event::LowMemory);
                }
                MainEvent::Destroy => {
                    take(Event::Over);
                }
                _ => {}
            }
        });
    }
}

fn look(app: &AndroidApp, java: &Java) -> Look {
    let config = app.config();
    let density = config
        .density()
        .and_then(|density| u16::try_from(density).ok());
    let asked = java.look().unwrap_or_default();
    Look {
        scale: density.map_or(1.0, |density| f32::from(density) / PLAIN_DENSITY),
        insets: asked.insets.or(content_insets(app)),
        dark: config.ui_mode_night() == UiModeNight::Yes,
        text: asked.text,
    }
}

/// What the content rectangle leaves out; none while there is no rectangle yet.
fn content_insets(app: &AndroidApp) -> Insets {
    let (rect, Some(window)) = (app.content_rect(), app.native_window()) else {
        return Insets::default();
    };
    if rect.right <= rect.left || rect.bottom <= rect.top {
        return Insets::default();
    }
    let edge = |pixels: i32| u32::try_from(pixels).unwrap_or_default();
    Insets {
        top: edge(rect.top),
        bottom: edge(window.height() - rect.bottom),
        left: edge(rect.left),
        right: edge(window.width() - rect.right),
    }
}

fn inputs(app: &AndroidApp, keys: &mut Keys, take: &mut dyn FnMut(Event) -> bool) {
    let Ok(mut inputs) = app.input_events_iter() else {
        return;
    };
    while inputs.next(|input| {
        let taken = match input {
            InputEvent::MotionEvent(motion) => touches(motion)
                .into_iter()
                .fold(false, |taken, touch| take(Event::Touch(touch)) || taken),
            InputEvent::KeyEvent(key) => keys.event(app, key).is_some_and(&mut *take),
            _ => false,
        };
        if taken {
            InputStatus::Handled
        } else {
            InputStatus::Unhandled
        }
    }) {}
}

fn touches(motion: &MotionEvent<'_>) -> Vec<Touch> {
    let at = motion.pointer_at_index(motion.pointer_index());
    let (finger, x, y) = (at.pointer_id(), at.x(), at.y());
    match motion.action() {
        MotionAction::Down | MotionAction::PointerDown => vec![Touch::Down { finger, x, y }],
        MotionAction::Up | MotionAction::PointerUp => vec![Touch::Up { finger, x, y }],
        MotionAction::Cancel => vec![Touch::Cancel],
        MotionAction::Move => motion
            .pointers()
            .map(|at| Touch::Move {
                finger: at.pointer_id(),
                x: at.x(),
                y: at.y(),
            })
            .collect(),
        _ => Vec::new(),
    }
}
