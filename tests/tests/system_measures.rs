//! What the window costs: time to its first frame and memory, beside an empty window in the same run, and its rest on today.
//!
//! Without a harness, because this program is also the empty window. The figures are printed; the bounds are generous.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitCode, Stdio};
use std::time::{Duration, Instant};

const EMPTY: &str = "--empty-window";
const ORDER: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../demo-data/orders/quillmere-doxy-1.toml"
);
const HOUSEHOLD: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../demo-data/households/tarn-4.toml"
);
const RUNS: usize = 5;
/// The aim is 1.3 times the time and twice the memory of an empty window, in a release build.
const MOST_TIME: f64 = 4.0;
const MOST_MEMORY: f64 = 4.0;

slint::slint! {
    export component Empty inherits Window {
        preferred-width: 390px;
        preferred-height: 844px;
        background: #FBF4E6;
    }
}

fn main() -> ExitCode {
    if std::env::args().any(|word| word == EMPTY) {
        use slint::ComponentHandle;
        let window = Empty::new().expect("an empty window");
        window.run().expect("it is shown");
        return ExitCode::SUCCESS;
    }
    let display = Display::start();
    let folder = std::env::temp_dir().join(format!("hearthdose-measures-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let own = std::env::current_exe().expect("own path");
    let mut figures = [(Vec::new(), Vec::new()), (Vec::new(), Vec::new())];
    // Turn by turn, so that a busy moment of the machine meets both.
    for _ in 0..RUNS {
        for (which, (times, sizes)) in figures.iter_mut().enumerate() {
            let mut command = if which == 0 {
                let mut command = Command::new(&own);
                command.arg(EMPTY);
                command
            } else {
                Command::new(program(&own))
            };
            let (time, size) = display.first_frame(&mut command, &folder);
            times.push(time);
            sizes.push(size);
        }
    }
    let [empty, window] = figures.map(|(times, sizes)| (median(times), median(sizes)));
    let (time, memory) = (window.0 / empty.0, window.1 / empty.1);
    println!(
        "first frame: {:.0} ms, an empty window {:.0} ms, {time:.2} times",
        window.0, empty.0
    );
    println!(
        "memory: {:.1} MB, an empty window {:.1} MB, {memory:.2} times",
        window.1, empty.1
    );
    let mut today = Command::new(program(&own));
    today
        .args(["open", "--order", ORDER])
        .args(["--household", HOUSEHOLD]);
    let idle = display.idle(&mut today, &folder);
    println!("at rest on today: {idle:.1} ms of processor time in ten seconds");
    let _ = std::fs::remove_dir_all(&folder);
    assert!(
        time <= MOST_TIME,
        "{time:.2} times the start of an empty window"
    );
    assert!(
        memory <= MOST_MEMORY,
        "{memory:.2} times the memory of an empty window"
    );
    assert!(idle <= 300.0, "{idle} ms of work at rest");
    ExitCode::SUCCESS
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

fn program(own: &Path) -> PathBuf {
    let named = std::env::var_os("HEARTHDOSE_PROGRAM").map(PathBuf::from);
    named.unwrap_or_else(|| {
        let target = own.ancestors().nth(2).expect("the target folder");
        target.join("hearthdose")
    })
}

/// A display whose picture lies in a file, so that looking costs the measured program nothing.
struct Display {
    server: Child,
    name: String,
    folder: PathBuf,
}

impl Display {
    fn start() -> Display {
        let folder = std::env::temp_dir().join(format!("hearthdose-frame-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder");
        let mut server = Command::new("Xvfb")
            .args([
                "-displayfd",
                "1",
                "-nolisten",
                "tcp",
                "-noreset",
                "-screen",
                "0",
                "390x844x24",
                "-fbdir",
            ])
            .arg(&folder)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("Xvfb starts");
        let mut number = String::new();
        BufReader::new(server.stdout.take().expect("its output"))
            .read_line(&mut number)
            .expect("a display number");
        Display {
            server,
            name: format!(":{}", number.trim()),
            folder,
        }
    }

    fn tell(&self, command: &mut Command, folder: &Path) {
        command
            .env("DISPLAY", &self.name)
            .env("HOME", folder)
            .env("HEARTHDOSE_DATA", folder)
            .env_remove("WAYLAND_DISPLAY")
            .stdout(Stdio::null())
            .stderr(Stdio::null());
    }

    /// Whether the middle of the screen is lit: an empty screen is black.
    fn lit(&self) -> bool {
        let picture = std::fs::read(self.folder.join("Xvfb_screen0")).unwrap_or_default();
        let middle = picture.len() / 2;
        let around = picture.get(middle.saturating_sub(2000)..middle + 2000);
        around.is_some_and(|bytes| bytes.iter().filter(|byte| **byte > 0x80).count() > 1000)
    }

    fn wait(&self, lit: bool, begun: Instant) -> f64 {
        while self.lit() != lit {
            assert!(
                begun.elapsed() < Duration::from_secs(60),
                "the screen stays as it is"
            );
            std::thread::sleep(Duration::from_millis(1));
        }
        begun.elapsed().as_secs_f64() * 1000.0
    }

    /// Milliseconds to the first frame, and megabytes in memory once it has come to rest.
    fn first_frame(&self, command: &mut Command, folder: &Path) -> (f64, f64) {
        self.tell(command, folder);
        self.wait(false, Instant::now());
        let begun = Instant::now();
        let mut child = command.spawn().expect("it starts");
        let time = self.wait(true, begun);
        std::thread::sleep(Duration::from_secs(1));
        let size = resident(&child);
        child.kill().expect("it can be killed");
        child.wait().expect("it is gone");
        (time, size)
    }

    /// Milliseconds of processor time in ten seconds of nothing to do.
    fn idle(&self, command: &mut Command, folder: &Path) -> f64 {
        self.tell(command, folder);
        self.wait(false, Instant::now());
        let mut child = command.spawn().expect("it starts");
        self.wait(true, Instant::now());
        std::thread::sleep(Duration::from_secs(3));
        let before = worked(&child);
        std::thread::sleep(Duration::from_secs(10));
        let after = worked(&child);
        child.kill().expect("it can be killed");
        child.wait().expect("it is gone");
        after - before
    }
}

impl Drop for Display {
    fn drop(&mut self) {
        let _ = self.server.kill();
        let _ = self.server.wait();
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

fn resident(child: &Child) -> f64 {
    let status = std::fs::read_to_string(format!("/proc/{}/status", child.id())).expect("it runs");
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    let kilobytes = line.and_then(|line| line.split_whitespace().next()?.parse::<f64>().ok());
    kilobytes.expect("a size") / 1024.0
}

/// Nanoseconds that the scheduler gave its threads, as milliseconds.
fn worked(child: &Child) -> f64 {
    let tasks = std::fs::read_dir(format!("/proc/{}/task", child.id())).expect("it runs");
    let each = tasks.flatten().filter_map(|task| {
        let text = std::fs::read_to_string(task.path().join("schedstat")).ok()?;
        text.split_whitespace().next()?.parse::<f64>().ok()
    });
    each.sum::<f64>() / 1e6
}
