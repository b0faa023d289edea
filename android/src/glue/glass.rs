//! The surface of the activity, as a [`Glass`].

use android_activity::AndroidApp;
use ndk::hardware_buffer_format::HardwareBufferFormat;
use ndk::native_window::Rect;

use crate::phone::{Canvas, Glass, Patch};

const FORMAT: HardwareBufferFormat = HardwareBufferFormat::R8G8B8A8_UNORM;

pub struct Surface {
    app: AndroidApp,
}

impl Surface {
    pub fn of(app: &AndroidApp) -> Surface {
        Surface { app: app.clone() }
    }
}

impl Glass for Surface {
    fn size(&self) -> Option<(u32, u32)> {
        let window = self.app.native_window()?;
        let (width, height) = (window.width(), window.height());
        let size = (u32::try_from(width).ok()?, u32::try_from(height).ok()?);
        (size.0 > 0 && size.1 > 0).then_some(size)
    }

    fn show(&mut self, changed: Patch, canvas: &Canvas) {
        let Some(window) = self.app.native_window() else {
            return;
        };
        // Zero by zero: the buffer is as large as the window, also after the phone was turned.
        if window.format() != FORMAT && window.set_buffers_geometry(0, 0, Some(FORMAT)).is_err() {
            return;
        }
        // The system makes it larger where the buffer's own content is not the last one.
        let mut dirty = rect(changed);
        let Ok(mut buffer) = window.lock(Some(&mut dirty)) else {
            return;
        };
        if let Some(rows) = buffer.lines() {
            canvas.copy(patch(&dirty), rows);
        }
    }

    fn keyboard(&mut self, wanted: bool) {
        if wanted {
            self.app.show_soft_input(true);
        } else {
            self.app.hide_soft_input(false);
        }
    }
}

fn rect(patch: Patch) -> Rect {
    let signed = |edge: u32| i32::try_from(edge).unwrap_or(i32::MAX);
    Rect {
        left: signed(patch.left),
        top: signed(patch.top),
        right: signed(patch.right),
        bottom: signed(patch.bottom),
    }
}

fn patch(rect: &Rect) -> Patch {
    let unsigned = |edge: i32| u32::try_from(edge).unwrap_or_default();
    Patch {
        left: unsigned(rect.left),
        top: unsigned(rect.top),
        right: unsigned(rect.right),
        bottom: unsigned(rect.bottom),
    }
}
