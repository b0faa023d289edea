//! The command line, as clap reads it.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

pub mod site;

/// From a published medicine order to the last dose at the kitchen table. It does not replace a clinician.
///
/// Without a command the window opens.
#[derive(Debug, Parser)]
#[command(name = "hearthdose", version)]
pub struct CommandLine {
    /// Print exactly one JSON document; messages go to standard error.
    #[arg(long, global = true)]
    pub json: bool,
    /// Folder for orders and records; otherwise HEARTHDOSE_DATA, else the user's data folder.
    #[arg(long, global = true, value_name = "DIR")]
    pub data: Option<PathBuf>,
    #[command(subcommand)]
    pub command: Option<Command>,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// The dose of one person.
    Dose(Dose),
    /// The bowls and doses of a household's course, or a bare batch plan.
    Plan(Plan),
    /// The papers of a home: who takes what, how to make it, a chart to tick, labels for bowls.
    Print(Print),
    /// The rounds of a home as a calendar file with alarms.
    Calendar(Calendar),
    /// Check an order, or compare two.
    #[command(subcommand)]
    Order(Order),
    /// Weight-for-age z-score.
    Growth(Growth),
    /// Tablets for a population, before anybody has come.
    Forecast(Forecast),
    /// How long people wait in a line (Erlang C).
    Queue(Queue),
    /// A household's code: write it, or read codes in pictures.
    #[command(subcommand)]
    Code(Code),
    /// The code on a medicine package.
    #[command(subcommand)]
    Package(Package),
    /// A dispensing site: stock, hand-outs, totals.
    #[command(subcommand)]
    Site(site::Site),
    /// What one device of a site recorded, for another.
    #[command(subcommand)]
    Shift(site::Shift),
    /// Draw a whole round of the demonstration household, one picture for each step.
    Walk(Walk),
    /// Put an order and a household into the window's record, as practice, and open the window.
    Open(Open),
}

#[derive(Debug, Args)]
pub struct Open {
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// The household file; without one the window asks for the people.
    #[arg(long, value_name = "FILE")]
    pub household: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub struct Dose {
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// Body weight with its unit: "31 lb 4 oz", "14.2 kg".
    #[arg(long, allow_hyphen_values = true)]
    pub weight: Option<String>,
    /// Age on the day of the dose: "3 y 2 mo", "20 d", or "adult".
    #[arg(long, allow_hyphen_values = true)]
    pub age: Option<String>,
    /// States that the order's screening was passed.
    #[arg(long)]
    pub clear: bool,
    /// Only to judge whether the weight can be right.
    #[arg(long, ignore_case = true)]
    pub sex: Option<SexName>,
    /// Swallows tablets whole.
    #[arg(long)]
    pub swallows_tablets: bool,
    /// Born before 37 weeks; matters under three months of age.
    #[arg(long, value_name = "ANSWER")]
    pub born_early: Option<AnswerName>,
    /// An answer to a question of the order: KEY=yes, KEY=no or KEY=unsure.
    #[arg(long = "answer", value_name = "KEY=ANSWER")]
    pub answers: Vec<String>,
}

#[derive(Debug, Args)]
pub struct Plan {
    /// Read a bare batch plan from standard input, as JSON; the answer is JSON as well.
    #[arg(long, conflicts_with_all = ["order", "household", "days", "fresh"])]
    pub stdin: bool,
    /// The order file.
    #[arg(
        long,
        value_name = "FILE",
        required_unless_present = "stdin",
        requires = "household"
    )]
    pub order: Option<PathBuf>,
    /// The household file.
    #[arg(
        long,
        value_name = "FILE",
        required_unless_present = "stdin",
        requires = "order"
    )]
    pub household: Option<PathBuf>,
    /// Calendar days to plan from the household's start; otherwise the whole course.
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=3660))]
    pub days: Option<u32>,
    /// New bowls in every round, none kept; otherwise the fewest tablets.
    #[arg(long)]
    pub fresh: bool,
}

#[derive(Debug, Args)]
pub struct Print {
    /// The household file.
    #[arg(long, value_name = "FILE")]
    pub household: PathBuf,
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// The PDF to write, or a folder to put it into.
    #[arg(long, value_name = "F.pdf|DIR")]
    pub out: PathBuf,
    /// Language of the papers, such as en or es.
    #[arg(long, default_value = "en")]
    pub language: String,
    /// Size of the paper.
    #[arg(long, value_enum, default_value_t = PaperName::Letter)]
    pub paper: PaperName,
    /// Calendar days from the household's start; otherwise the whole course.
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=3660))]
    pub days: Option<u32>,
    /// Leave the household's code away; no new one is issued then.
    #[arg(long)]
    pub no_code: bool,
    /// When the papers are made, with its offset; otherwise now.
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PaperName {
    Letter,
    A4,
}

#[derive(Debug, Args)]
pub struct Calendar {
    /// The household file.
    #[arg(long, value_name = "FILE")]
    pub household: PathBuf,
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// The calendar file to write.
    #[arg(long, value_name = "F.ics")]
    pub out: PathBuf,
    /// Language of the events, such as en or es.
    #[arg(long, default_value = "en")]
    pub language: String,
    /// Say in each event who has a dose; otherwise no name is in the calendar.
    #[arg(long)]
    pub names: bool,
    /// Calendar days from the household's start; otherwise the whole course.
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=3660))]
    pub days: Option<u32>,
    /// When the calendar is made, with its offset; otherwise now.
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
}

#[derive(Debug, Subcommand)]
pub enum Order {
    /// Every problem of an order at once; several files are also checked beside each other.
    Check {
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
    /// What changed from one order file to another, in words.
    Compare {
        #[arg(value_name = "OLD")]
        old: PathBuf,
        #[arg(value_name = "NEW")]
        new: PathBuf,
    },
}

#[derive(Debug, Subcommand)]
pub enum Code {
    /// Write a household's code as a picture, to be shown at a dispensing site; without a household the order itself, in several codes.
    Write(CodeWrite),
    /// Read the code in each picture, whoever made it; parts of one file are put together.
    Read {
        #[arg(required = true, value_name = "IMG")]
        images: Vec<PathBuf>,
        /// Where the file goes that came together from parts; a file that is there is never written over.
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
}

#[derive(Debug, Args)]
pub struct CodeWrite {
    /// The household file; without one the order itself is written.
    #[arg(long, value_name = "FILE", required_unless_present = "order")]
    pub household: Option<PathBuf>,
    /// The order file; without one the household's code says nothing of screening.
    #[arg(long, value_name = "FILE")]
    pub order: Option<PathBuf>,
    /// The picture to write, a PNG; for an order by itself the folder for its pictures.
    #[arg(long, value_name = "P.png|DIR")]
    pub out: PathBuf,
    /// Put first names in as nicknames; otherwise no name is in the code.
    #[arg(long, requires = "household")]
    pub names: bool,
    /// Seal the code for the key that the order names; only then it carries answers about pregnancy.
    #[arg(long, requires_all = ["order", "household"])]
    pub seal: bool,
    /// When the code is made, with its offset; otherwise now.
    #[arg(long, value_name = "TIME", requires = "household")]
    pub at: Option<String>,
}

#[derive(Debug, Subcommand)]
pub enum Package {
    /// Read an element string by GS1's rules, or the code in a picture of the package.
    Read {
        /// The text of the code with its separators as ASCII 29, or a picture.
        #[arg(value_name = "TEXT|IMG", allow_hyphen_values = true)]
        what: OsString,
    },
}

#[derive(Debug, Args)]
pub struct Growth {
    #[arg(long, ignore_case = true)]
    pub sex: SexName,
    /// Age: "2 y", "5 mo", "20 d".
    #[arg(long, allow_hyphen_values = true)]
    pub age: String,
    /// Body weight with its unit: "11.5 kg", "25 lb 6 oz".
    #[arg(long, allow_hyphen_values = true)]
    pub weight: String,
}

#[derive(Debug, Args)]
pub struct Forecast {
    /// The population file: CSV with the columns age and people, and where known sex, weight and home.
    #[arg(long, value_name = "F.csv")]
    pub population: PathBuf,
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// Days to count, at most those of the order's course.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=3660))]
    pub days: u32,
}

#[derive(Debug, Args)]
pub struct Queue {
    /// People who serve.
    #[arg(long)]
    pub servers: u32,
    /// Mean time for one person: "45 s".
    #[arg(long)]
    pub service: String,
    /// People who come in an hour.
    #[arg(long, value_name = "N")]
    pub per_hour: f64,
}

#[derive(Debug, Args)]
pub struct Walk {
    /// Folder for the pictures and walk.json; it is made if it does not exist.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// Language of the screens, such as en or es.
    #[arg(long, default_value = "en")]
    pub language: String,
    /// Size of the text: 1 to 2, or 100 to 200 for percent.
    #[arg(long, default_value = "1", value_name = "N")]
    pub text_scale: String,
    /// Dark screens.
    #[arg(long)]
    pub dark: bool,
}

impl Walk {
    /// The usual walk, into this folder.
    pub fn to(folder: &str) -> Walk {
        Walk {
            out: PathBuf::from(folder),
            language: "en".to_owned(),
            text_scale: "1".to_owned(),
            dark: false,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SexName {
    #[value(name = "f", alias = "female")]
    Female,
    #[value(name = "m", alias = "male")]
    Male,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum AnswerName {
    Yes,
    No,
    Unsure,
}
