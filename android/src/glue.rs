//! Android itself: the entry, and the two ports of [`crate::phone`] over the system's native activity.
//!
//! Nothing here decides anything; it runs on a phone only, so it is kept as thin as it goes.

#[cfg(not(feature = "vendor"))]
mod events;
#[cfg(not(feature = "vendor"))]
mod glass;
mod java;
#[cfg(not(feature = "vendor"))]
mod keys;

use std::rc::Rc;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

use android_activity::{AndroidApp, MainEvent, PollEvent};
use hearthdose_ui::machine;
use hearthdose_ui::screens::MainWindow;
use slint::{ComponentHandle, PlatformError};

use crate::arrival::Arrival;
use crate::table::Table;
use java::Java;
use java::outbox::Post;

/// One kitchen alone may have the records open, and each start of the activity is another thread of one process.
static RUNS: AtomicBool = AtomicBool::new(false);
/// What came in through another start while a kitchen was running.
static ARRIVED: Mutex<Option<Arrival>> = Mutex::new(None);

// SAFETY: the name is unique in the program; android-activity looks for it and calls it with this signature.
#[allow(unsafe_code)]
#[unsafe(no_mangle)]
fn android_main(app: AndroidApp) {
    let java = Java::of(&app);
    let arrival = app
        .internal_data_path()
        .and_then(|folder| java.take_shared(&folder));
    if RUNS.swap(true, Ordering::SeqCst) {
        give_way(&app, &java, arrival);
        return;
    }
    if let Err(error) = run(&app, java, arrival) {
        // Standard error goes to the phone's log.
        eprintln!("hearthdose: {error}");
    }
    RUNS.store(false, Ordering::SeqCst);
}

fn run(app: &AndroidApp, java: Java, arrival: Option<Arrival>) -> Result<(), PlatformError> {
    let folder = app
        .internal_data_path()
        .ok_or_else(|| PlatformError::from("there is no private folder"))?;
    let start = start(app, &java)?;
    let window = MainWindow::new()?;
    let mut kitchen = machine::kitchen(folder);
    kitchen.hang_outbox(Box::new(Post::of(app, &java)));
    kitchen.hang_bell(Box::new(java));
    let table = Table::set(window, kitchen);
    table.look_for(Box::new(|| ARRIVED.lock().ok()?.take()));
    if let Some(arrival) = arrival {
        table.show_arrival(arrival);
    }
    start(&table);
    table.window().run()
}

/// The platform of our own.
#[cfg(not(feature = "vendor"))]
fn start(app: &AndroidApp, java: &Java) -> Result<impl FnOnce(&Rc<Table>) + use<>, PlatformError> {
    use crate::phone::{Phone, PhonePlatform};
    let phone = Phone::new(glass::Surface::of(app));
    let begun = std::time::Instant::now();
    let platform = PhonePlatform::new(
        Rc::clone(&phone),
        events::Inbox::of(app, java),
        Box::new(move || begun.elapsed()),
    );
    slint::platform::set_platform(Box::new(platform))
        .map_err(|error| PlatformError::from(error.to_string()))?;
    Ok(move |table: &Rc<Table>| phone.serve(Rc::<Table>::clone(table)))
}

/// Slint's own platform.
#[cfg(feature = "vendor")]
fn start(app: &AndroidApp, _: &Java) -> Result<impl FnOnce(&Rc<Table>) + use<>, PlatformError> {
    slint::android::init(app.clone()).map_err(|error| PlatformError::from(error.to_string()))?;
    Ok(|_: &Rc<Table>| {})
}

/// Leaves what came to the kitchen that runs already, brings that one to the front and ends.
fn give_way(app: &AndroidApp, java: &Java, arrival: Option<Arrival>) {
    if let (Some(arrival), Ok(mut place)) = (arrival, ARRIVED.lock()) {
        *place = Some(arrival);
    }
    java.to_front();
    java.finish();
    let mut over = false;
    while !over {
        app.poll_events(None, |event| {
            over = matches!(event, PollEvent::Main(MainEvent::Destroy));
        });
    }
}
