//! The finger that came first; others are not felt, so that a resting palm presses nothing.

use super::Touch;
use slint::LogicalPosition;
use slint::platform::{PointerEventButton, WindowEvent};

/// The finger that is down.
#[derive(Debug, Default)]
pub struct Finger {
    down: Option<i32>,
}

const BUTTON: PointerEventButton = PointerEventButton::Left;

impl Finger {
    /// What a touch means for the window; `scale` is pixels for one pixel of the layout.
    pub fn feel(&mut self, touch: &Touch, scale: f32) -> Vec<WindowEvent> {
        let at = |x: f32, y: f32| LogicalPosition::new(x / scale, y / scale);
        match *touch {
            Touch::Down { finger, x, y } if self.down.is_none() => {
                self.down = Some(finger);
                vec![WindowEvent::PointerPressed {
                    position: at(x, y),
                    button: BUTTON,
                }]
            }
            Touch::Move { finger, x, y } if self.down == Some(finger) => {
                vec![WindowEvent::PointerMoved { position: at(x, y) }]
            }
            Touch::Up { finger, x, y } if self.down == Some(finger) => {
                self.down = None;
                let released = WindowEvent::PointerReleased {
                    position: at(x, y),
                    button: BUTTON,
                };
                // A finger that is up hovers nowhere.
                vec![released, WindowEvent::PointerExited]
            }
            Touch::Cancel => self.lift(),
            _ => Vec::new(),
        }
    }

    /// The finger is gone without having pressed anything.
    pub fn lift(&mut self) -> Vec<WindowEvent> {
        match self.down.take() {
            Some(_) => vec![WindowEvent::PointerExited],
            None => Vec::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn down(finger: i32) -> Touch {
        Touch::Down {
            finger,
            x: 30.0,
            y: 60.0,
        }
    }

    #[test]
    fn a_touch_lands_in_pixels_of_the_layout() {
        let pressed = Finger::default().feel(&down(7), 3.0);
        let expected = WindowEvent::PointerPressed {
            position: LogicalPosition::new(10.0, 20.0),
            button: BUTTON,
        };
        assert_eq!(pressed, [expected]);
    }

    #[test]
    fn a_second_finger_is_not_felt() {
        let mut finger = Finger::default();
        finger.feel(&down(0), 1.0);
        assert_eq!(finger.feel(&down(1), 1.0), []);
        let up = |finger| Touch::Up {
            finger,
            x: 0.0,
            y: 0.0,
        };
        assert_eq!(finger.feel(&up(1), 1.0), []);
        assert_eq!(finger.feel(&up(0), 1.0).len(), 2);
    }

    #[test]
    fn a_gesture_taken_away_releases_nothing() {
        let mut finger = Finger::default();
        finger.feel(&down(0), 1.0);
        assert_eq!(
            finger.feel(&Touch::Cancel, 1.0),
            [WindowEvent::PointerExited]
        );
        assert_eq!(finger.feel(&Touch::Cancel, 1.0), []);
    }
}
