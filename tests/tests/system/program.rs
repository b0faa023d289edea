//! The program itself, as a person starts it.

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use super::bus::Bus;
use super::display::Display;
use super::household::Table;

/// The program itself, running.
pub struct Program {
    child: Child,
}

impl Program {
    /// Opens the table's own order and household.
    pub fn open(display: &Display, table: &Table) -> Program {
        Program::run(
            display,
            table,
            &[
                "open",
                "--order",
                &table.order_path(),
                "--household",
                &table.household_path(),
            ],
        )
    }

    /// Starts it again without a word, as a person would.
    pub fn again(display: &Display, table: &Table) -> Program {
        Program::run(display, table, &[])
    }

    fn run(display: &Display, table: &Table, args: &[&str]) -> Program {
        Program::spawn(display, table.folder(), args, None, |_| {})
    }

    /// Starts it without a word on the records of a folder, with those listening on a bus.
    pub fn heard(display: &Display, folder: &Path, bus: &Bus) -> Program {
        Program::spawn(display, folder, &[], Some(bus), |_| {})
    }

    /// Opens the table's own order and household; players are found in its folder first, and a voice behind the socket.
    pub fn equipped(display: &Display, table: &Table, bus: &Bus, voice: &Path) -> Program {
        let (order, household) = (table.order_path(), table.household_path());
        let args = ["open", "--order", &order, "--household", &household];
        let path = std::env::var("PATH").unwrap_or_default();
        let path = format!("{}:{path}", table.folder().display());
        let address = format!("unix_socket:{}", voice.display());
        Program::spawn(display, table.folder(), &args, Some(bus), |command| {
            command.env("PATH", path).env("SPEECHD_ADDRESS", address);
        })
    }

    fn spawn(
        display: &Display,
        folder: &Path,
        args: &[&str],
        bus: Option<&Bus>,
        equip: impl FnOnce(&mut Command),
    ) -> Program {
        let mut command = Command::new(program());
        command
            .args(args)
            .env("DISPLAY", display.name())
            .env("HOME", folder)
            .env("HEARTHDOSE_DATA", folder)
            .env_remove("WAYLAND_DISPLAY")
            .env_remove("DBUS_SESSION_BUS_ADDRESS")
            .stdout(Stdio::null());
        if let Some(bus) = bus {
            bus.tell(&mut command);
        }
        equip(&mut command);
        let child = command.spawn().expect("the program starts");
        display.place_window();
        Program { child }
    }

    /// Its number among the processes.
    pub fn number(&self) -> u32 {
        self.child.id()
    }

    /// SIGKILL: no word of farewell.
    pub fn kill(mut self) {
        self.child.kill().expect("it can be killed");
        self.child.wait().expect("it is gone");
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

pub fn program() -> PathBuf {
    let named = std::env::var_os("HEARTHDOSE_PROGRAM").map(PathBuf::from);
    named.unwrap_or_else(|| {
        // Beside the test binaries: target/debug/deps/system_window-… → target/debug/hearthdose.
        let own = std::env::current_exe().expect("own path");
        own.ancestors()
            .nth(2)
            .expect("the target folder")
            .join("hearthdose")
    })
}
