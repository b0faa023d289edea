//! The desktop window: a kitchen behind the screens.

#[cfg(target_os = "linux")]
use std::sync::Arc;

use hearthdose_ui::bind;
#[cfg(target_os = "linux")]
use hearthdose_ui::machine::viewfinder::Viewfinder;
use hearthdose_ui::screens::MainWindow;
use hearthdose_ui::vm::Kitchen;
use slint::ComponentHandle;

/// Shows the window until it is closed.
///
/// # Errors
/// No display, or a window system that refuses.
pub fn run(mut kitchen: Kitchen) -> Result<(), slint::PlatformError> {
    let window = MainWindow::new()?;
    #[cfg(target_os = "linux")]
    kitchen.give_camera(Box::new(Viewfinder::of(Arc::new(crate::camera::Cameras))));
    bind::join(&window, kitchen);
    window.run()
}

/// Whether there is anything to show a window on.
pub fn has_display() -> bool {
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    !cfg!(target_os = "linux") || set("DISPLAY") || set("WAYLAND_DISPLAY")
}
