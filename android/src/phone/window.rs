//! The window as Slint sees it: its size, its scale, its safe edges, and whether a field wants a keyboard.

use std::cell::Cell;
use std::rc::{Rc, Weak};

use i_slint_core::InternalToken;
use i_slint_core::lengths::PhysicalEdges;
use i_slint_core::window::{InputMethodRequest, WindowAdapterInternal, WindowInner};
use slint::platform::software_renderer::{PhysicalRegion, RepaintBufferType, SoftwareRenderer};
use slint::platform::{Renderer, WindowAdapter, WindowEvent};
use slint::{PhysicalSize, Window, WindowSize};

use super::{Canvas, Insets};

/// A window with the software renderer.
pub struct PhoneWindow {
    window: Window,
    renderer: SoftwareRenderer,
    size: Cell<PhysicalSize>,
    edges: Cell<PhysicalEdges>,
    wants_drawing: Cell<bool>,
    keyboard: Cell<Option<bool>>,
}

impl PhoneWindow {
    pub(super) fn new() -> Rc<PhoneWindow> {
        Rc::new_cyclic(|weak: &Weak<PhoneWindow>| PhoneWindow {
            window: Window::new(weak.clone()),
            renderer: SoftwareRenderer::new_with_repaint_buffer_type(
                RepaintBufferType::ReusedBuffer,
            ),
            size: Cell::default(),
            edges: Cell::default(),
            wants_drawing: Cell::new(true),
            keyboard: Cell::new(None),
        })
    }

    pub(super) fn scale(&self) -> f32 {
        self.window.scale_factor()
    }

    pub(super) fn scale_to(&self, scale: f32) {
        if (self.scale() - scale).abs() > f32::EPSILON {
            self.window.dispatch_event(WindowEvent::ScaleFactorChanged {
                scale_factor: scale,
            });
            self.tell_size();
        }
    }

    pub(super) fn fit(&self, width: u32, height: u32) {
        self.size.set(PhysicalSize::new(width, height));
        self.tell_size();
    }

    fn tell_size(&self) {
        let size = self.size.get().to_logical(self.scale());
        self.window.dispatch_event(WindowEvent::Resized { size });
    }

    pub(super) fn keep_clear_of(&self, insets: Insets) {
        let pixels = |edge: u32| i32::try_from(edge).unwrap_or_default();
        let edges = PhysicalEdges::new(
            pixels(insets.top),
            pixels(insets.bottom),
            pixels(insets.left),
            pixels(insets.right),
        );
        self.edges.set(edges);
        WindowInner::from_pub(&self.window)
            .set_window_item_safe_area(edges.to_logical(self.scale()));
    }

    pub(super) fn wants_drawing(&self) -> bool {
        self.wants_drawing.get()
    }

    pub(super) fn take_drawing(&self) -> bool {
        self.wants_drawing.replace(false)
    }

    /// Whether a field has asked for a keyboard, or left it, since this was last looked at.
    pub(super) fn keyboard_wish(&self) -> Option<bool> {
        self.keyboard.take()
    }

    /// Draws what changed; everything where the canvas is fresh.
    pub(super) fn render(&self, canvas: &mut Canvas, fresh: bool) -> PhysicalRegion {
        if fresh {
            // Forgets what it knew of the pixels.
            self.renderer
                .set_repaint_buffer_type(RepaintBufferType::NewBuffer);
            self.renderer
                .set_repaint_buffer_type(RepaintBufferType::ReusedBuffer);
        }
        canvas.draw(&self.renderer)
    }
}

impl WindowAdapter for PhoneWindow {
    fn window(&self) -> &Window {
        &self.window
    }

    fn size(&self) -> PhysicalSize {
        self.size.get()
    }

    // A phone's window has the size of its surface, whatever the program wishes.
    fn set_size(&self, _: WindowSize) {}

    fn renderer(&self) -> &dyn Renderer {
        &self.renderer
    }

    fn request_redraw(&self) {
        self.wants_drawing.set(true);
    }

    fn internal(&self, _: InternalToken) -> Option<&dyn WindowAdapterInternal> {
        Some(self)
    }
}

impl WindowAdapterInternal for PhoneWindow {
    fn input_method_request(&self, request: InputMethodRequest) {
        self.keyboard
            .set(Some(!matches!(request, InputMethodRequest::Disable)));
    }

    fn safe_area_inset(&self) -> PhysicalEdges {
        self.edges.get()
    }
}
