//! A session bus of its own with an accessibility bus beside it, and the clients that listen there.

use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Child, Command, Output, Stdio};
use std::time::{Duration, Instant};

use super::display::Display;

const LAUNCHER: &str = "/usr/libexec/at-spi-bus-launcher";
/// The scripts are written for the system's own Python, which has the bindings.
const PYTHON: &str = "/usr/bin/python3";
const SCRIPTS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/system/");

pub struct Bus {
    daemon: Child,
    launcher: Child,
    address: String,
    display: String,
    /// Sockets of this bus: two buses in one folder take them from one another.
    folder: PathBuf,
}

impl Bus {
    /// Starts both and says that somebody listens, as a screen reader does.
    pub fn start(display: &Display) -> Bus {
        let root =
            std::env::var_os("XDG_RUNTIME_DIR").map_or_else(std::env::temp_dir, PathBuf::from);
        let number = display.name().trim_start_matches(':');
        let folder = root.join(format!("hd{}-{number}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder for sockets");
        let mut daemon = Command::new("dbus-daemon")
            .env("XDG_RUNTIME_DIR", &folder)
            .args(["--session", "--nofork", "--print-address=1"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("a session bus starts");
        let mut address = String::new();
        BufReader::new(daemon.stdout.take().expect("its output"))
            .read_line(&mut address)
            .expect("its address");
        let address = address.trim().to_owned();
        let launcher = Command::new(LAUNCHER)
            .arg("--launch-immediately")
            .env("DBUS_SESSION_BUS_ADDRESS", &address)
            .env("XDG_RUNTIME_DIR", &folder)
            .env("DISPLAY", display.name())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the accessibility bus starts");
        let bus = Bus {
            daemon,
            launcher,
            address,
            display: display.name().to_owned(),
            folder,
        };
        for property in ["IsEnabled", "ScreenReaderEnabled"] {
            bus.set(property);
        }
        bus
    }

    /// Tells a command where the bus and the display are.
    pub fn tell(&self, command: &mut Command) {
        command
            .env("DBUS_SESSION_BUS_ADDRESS", &self.address)
            .env("XDG_RUNTIME_DIR", &self.folder)
            .env("DISPLAY", &self.display);
    }

    /// A script beside this file, on the bus.
    pub fn script(&self, name: &str) -> Command {
        let mut command = Command::new(PYTHON);
        // No compiled copies: the folder may belong to somebody else.
        command.arg("-B").arg(format!("{SCRIPTS}{name}"));
        self.tell(&mut command);
        command
    }

    fn set(&self, property: &str) {
        let begun = Instant::now();
        loop {
            let asked = self.ask(property);
            if asked.status.success() {
                return;
            }
            assert!(
                begun.elapsed() < Duration::from_secs(20),
                "{property} cannot be set: {}",
                String::from_utf8_lossy(&asked.stderr)
            );
            std::thread::sleep(Duration::from_millis(100));
        }
    }

    fn ask(&self, property: &str) -> Output {
        Command::new("dbus-send")
            .env("DBUS_SESSION_BUS_ADDRESS", &self.address)
            .args(["--session", "--print-reply", "--dest=org.a11y.Bus"])
            .args(["/org/a11y/bus", "org.freedesktop.DBus.Properties.Set"])
            .arg("string:org.a11y.Status")
            .arg(format!("string:{property}"))
            .arg("variant:boolean:true")
            .output()
            .expect("dbus-send runs")
    }
}

impl Drop for Bus {
    fn drop(&mut self) {
        // Without its session bus the launcher ends by itself and takes the accessibility bus with it.
        let _ = self.daemon.kill();
        let _ = self.daemon.wait();
        let _ = std::fs::remove_dir_all(&self.folder);
        for _ in 0..20 {
            if let Ok(Some(_)) = self.launcher.try_wait() {
                return;
            }
            std::thread::sleep(Duration::from_millis(50));
        }
        let _ = self.launcher.kill();
        let _ = self.launcher.wait();
    }
}
