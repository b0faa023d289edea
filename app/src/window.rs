//! The desktop window: a kitchen behind the screens.

#[cfg(target_os = "linux")]
use std::sync::Arc;

use hearthdose_ui::bind;
use hearthdose_ui::machine::ringing::Ringing;
#[cfg(unix)]
use hearthdose_ui::machine::speech::Speech;
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
    kitchen.hang_bell(Box::new(Ringing::of_session()));
    #[cfg(unix)]
    kitchen.give_voice(Box::new(Speech::of_session()));
    kitchen.set_reader(reads());
    let window = MainWindow::new()?;
    #[cfg(target_os = "linux")]
    kitchen.give_camera(Box::new(Viewfinder::of(Arc::new(crate::camera::Cameras))));
    bind::join(&window, kitchen);
    window.run()
}

/// Whether a screen reader can come to the window: on Linux over the session's bus, elsewhere through the system.
fn reads() -> bool {
    let bus = std::env::var_os("DBUS_SESSION_BUS_ADDRESS");
    !cfg!(target_os = "linux") || bus.is_some_and(|value| !value.is_empty())
}

/// Whether there is anything to show a window on.
pub fn has_display() -> bool {
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    !cfg!(target_os = "linux") || set("DISPLAY") || set("WAYLAND_DISPLAY")
}
