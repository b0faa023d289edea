//! Screens without a display: the real windows, drawn by the software renderer into memory, with real fonts.
//!
//! Slint takes one platform for the life of a process, so this must come before any window and excludes one.

use crate::bind;
use crate::screens::MainWindow;
use crate::vm::view::View;
use slint::platform::software_renderer::{MinimalSoftwareWindow, RepaintBufferType};
use slint::platform::{Platform, PlatformError, WindowAdapter, WindowEvent};
use slint::{ComponentHandle, PhysicalSize, Rgb8Pixel};
use std::cell::RefCell;
use std::path::Path;
use std::rc::Rc;

thread_local! {
    static LAST: RefCell<Option<Rc<MinimalSoftwareWindow>>> = const { RefCell::new(None) };
}

/// Why nothing can be drawn.
#[derive(Debug, thiserror::Error)]
pub enum HeadlessError {
    /// A window or another platform was there first.
    #[error("a window system was already chosen in this process")]
    PlatformTaken,
    /// Slint could not set the window up.
    #[error("the window could not be set up")]
    Window(#[from] PlatformError),
    /// The picture could not be written.
    #[error("the picture could not be written")]
    Write(#[from] image::ImageError),
}

struct Memory;

impl Platform for Memory {
    fn create_window_adapter(&self) -> Result<Rc<dyn WindowAdapter>, PlatformError> {
        let window = MinimalSoftwareWindow::new(RepaintBufferType::NewBuffer);
        LAST.set(Some(Rc::clone(&window)));
        Ok(window)
    }
}

/// A picture of a screen: red, green and blue, eight bits each, row by row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    pub width: u32,
    pub height: u32,
    pub pixels: Vec<u8>,
}

impl Picture {
    /// Writes the picture as PNG.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn save_png(&self, path: &Path) -> Result<(), HeadlessError> {
        image::save_buffer(
            path,
            &self.pixels,
            self.width,
            self.height,
            image::ColorType::Rgb8,
        )?;
        Ok(())
    }
}

/// A window in memory.
pub struct Headless {
    window: MainWindow,
    adapter: Rc<MinimalSoftwareWindow>,
}

impl Headless {
    /// Makes a window in memory; the first one chooses the platform of this process.
    ///
    /// # Errors
    /// When a window with a display was made before, or Slint cannot set up the window.
    pub fn new() -> Result<Self, HeadlessError> {
        // Refused the second time, which is right: the platform then is this one, or there is no new adapter below.
        let _ = slint::platform::set_platform(Box::new(Memory));
        LAST.set(None);
        let window = MainWindow::new()?;
        let adapter = LAST.take().ok_or(HeadlessError::PlatformTaken)?;
        window.set_ticking(false);
        window.show()?;
        Ok(Self { window, adapter })
    }

    /// The window itself, to press things in it.
    #[must_use]
    pub fn window(&self) -> &MainWindow {
        &self.window
    }

    /// Shows the view and draws it, `width` by `height` pixels.
    #[must_use]
    pub fn render(&self, view: &View, width: u32, height: u32) -> Picture {
        self.adapter.set_size(PhysicalSize::new(width, height));
        bind::show(&self.window, view);
        self.draw(width, height)
    }

    /// Draws what is shown now, for instance after a key.
    #[must_use]
    pub fn draw(&self, width: u32, height: u32) -> Picture {
        // What follows from sizes (place in the head, short strip) settles with the first passes.
        for _ in 0..3 {
            slint::platform::update_timers_and_animations();
            self.adapter.request_redraw();
            let mut scrap = vec![Rgb8Pixel::default(); pixel_count(width, height)];
            self.paint(&mut scrap, width);
        }
        let mut buffer = vec![Rgb8Pixel::default(); pixel_count(width, height)];
        self.adapter.request_redraw();
        self.paint(&mut buffer, width);
        Picture {
            width,
            height,
            pixels: buffer.iter().flat_map(|p| [p.r, p.g, p.b]).collect(),
        }
    }

    /// Whether showing the view would draw anything that is not on screen already.
    #[must_use]
    pub fn changes(&self, view: &View) -> bool {
        bind::show(&self.window, view);
        slint::platform::update_timers_and_animations();
        self.adapter.draw_if_needed(|_| {})
    }

    /// Presses and releases a key; `text` is the character or one of `slint::platform::Key`.
    pub fn key(&self, text: impl Into<slint::SharedString>) {
        let text = text.into();
        self.window
            .window()
            .dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
        self.window
            .window()
            .dispatch_event(WindowEvent::KeyReleased { text });
        slint::platform::update_timers_and_animations();
    }

    fn paint(&self, buffer: &mut [Rgb8Pixel], width: u32) {
        self.adapter.draw_if_needed(|renderer| {
            renderer.render(buffer, usize::try_from(width).unwrap_or_default());
        });
    }
}

fn pixel_count(width: u32, height: u32) -> usize {
    usize::try_from(u64::from(width) * u64::from(height)).unwrap_or_default()
}
