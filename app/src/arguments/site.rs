//! The command line of a dispensing site, as clap reads it.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};

#[derive(Debug, Subcommand)]
pub enum Site {
    /// Packs came in.
    Receive(Receive),
    /// Read a household's code: what it may carry away now, and with --give hand it out.
    Serve(Serve),
    /// Served per hour, packs of each lot, when they run out.
    Totals(Totals),
    /// A lot was counted by hand.
    Reconcile(Reconcile),
    /// A hand-out that did not happen: its packs go back onto the shelf.
    Undo(Undo),
    /// A hand-out of a paper list, typed in later with its real time.
    Enter(Enter),
    /// An empty paper list, for when the device is down.
    List(List),
    /// The homes that hold a lot.
    Recall(Recall),
    /// What the site is called on its receipts, and the mark of this desk for homes to compare.
    Name(Name),
    /// The key for which households seal their codes: made once, its public half for the order file.
    Key(Key),
    /// The PIN of a role on this device: read from standard input or a file; where the lead has one, that comes first.
    Pin(Pin),
    /// A home whose record was handed over is forgotten, against a signed receipt.
    Forget(Forget),
    /// An invented street and a site with stock, to practise with.
    Demo(Demo),
}

#[derive(Debug, Args)]
pub struct Receive {
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// The lot as printed.
    #[arg(long, required_unless_present = "package", requires = "expires")]
    pub lot: Option<String>,
    /// The last day on which it may be used: 2032-02-29.
    #[arg(long, value_name = "DAY", requires = "lot")]
    pub expires: Option<String>,
    /// The element string of the package's code, its separators as ASCII 29.
    #[arg(
        long,
        value_name = "TEXT",
        allow_hyphen_values = true,
        conflicts_with_all = ["lot", "expires", "gtin"]
    )]
    pub package: Option<String>,
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
    pub packs: u32,
    /// Key of the product in the order; otherwise by its product number, else the order's own product.
    #[arg(long, value_name = "KEY")]
    pub product: Option<String>,
    /// Product number on the package.
    #[arg(long)]
    pub gtin: Option<String>,
    #[command(flatten)]
    pub at: At,
}

#[derive(Debug, Args)]
pub struct Serve {
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// A notice of the issuer; it stays in the site's record.
    #[arg(long = "notice", value_name = "FILE")]
    pub notices: Vec<PathBuf>,
    /// The text of the household's code.
    #[arg(long, required_unless_present = "image")]
    pub code: Option<String>,
    /// A picture of the household's code.
    #[arg(long, value_name = "IMG", conflicts_with = "code")]
    pub image: Option<PathBuf>,
    /// Hand it out: into the record, with a signed slip.
    #[arg(long)]
    pub give: bool,
    /// Why the lead lets it pass, or lifts a hold.
    #[arg(long, value_name = "REASON")]
    pub lead: Option<String>,
    /// What the site is called on slips, at most 24 letters; it is kept, so once is enough.
    #[arg(long, value_name = "WORDS")]
    pub site: Option<String>,
    /// Where the slip's picture goes.
    #[arg(long, value_name = "P.png", requires = "give")]
    pub slip: Option<PathBuf>,
    /// An answer given here: PERSON:KEY=yes, no or unsure; PERSON is the number or the nickname.
    #[arg(long = "answer", value_name = "PERSON:KEY=ANSWER")]
    pub answers: Vec<String>,
    /// Weighed here: PERSON=WEIGHT.
    #[arg(long = "weigh", value_name = "PERSON=WEIGHT")]
    pub weighings: Vec<String>,
    /// A hold that a clinician lifts, with --lead: PERSON:KEY.
    #[arg(long = "lift", value_name = "PERSON:KEY", requires = "lead")]
    pub lifts: Vec<String>,
    /// How helpers find the home again: a name, a door.
    #[arg(long, value_name = "WORDS")]
    pub name: Option<String>,
    #[command(flatten)]
    pub pin: PinSource,
    #[command(flatten)]
    pub at: At,
}

#[derive(Debug, Args)]
pub struct Totals {
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// People who serve.
    #[arg(long, requires = "service")]
    pub servers: Option<u32>,
    /// Mean time for one home: "45 s".
    #[arg(long, requires = "servers")]
    pub service: Option<String>,
    #[command(flatten)]
    pub at: At,
}

#[derive(Debug, Args)]
pub struct Reconcile {
    #[arg(long)]
    pub lot: String,
    /// Key of the product in the order.
    #[arg(long, value_name = "KEY")]
    pub product: String,
    /// Packs that are there.
    #[arg(long, value_name = "N")]
    pub counted: u32,
    /// What the lead says to it.
    #[arg(long, value_name = "REASON")]
    pub lead: Option<String>,
    #[command(flatten)]
    pub pin: PinSource,
    #[command(flatten)]
    pub at: At,
}

#[derive(Debug, Args)]
pub struct Undo {
    /// Id of the hand-out.
    #[arg(long, value_name = "ID")]
    pub hand_out: String,
    /// Why the lead undoes it.
    #[arg(long, value_name = "REASON")]
    pub lead: Option<String>,
    #[command(flatten)]
    pub pin: PinSource,
    #[command(flatten)]
    pub at: At,
}

#[derive(Debug, Args)]
pub struct Recall {
    #[arg(long)]
    pub lot: String,
}

#[derive(Debug, Args)]
pub struct Name {
    /// The order file: under each order receipts are signed with another key.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// The name of the place, at most 24 letters; without it the one that is kept is shown.
    #[arg(value_name = "WORDS")]
    pub words: Option<String>,
}

#[derive(Debug, Args)]
pub struct Key {
    /// How the order file calls the key.
    #[arg(long, default_value = "site")]
    pub id: String,
}

/// Which home is meant.
#[derive(Debug, Args)]
#[group(required = true, multiple = false)]
pub struct Which {
    /// Id of the home.
    #[arg(long, value_name = "ID")]
    pub home: Option<String>,
    /// The text of its code.
    #[arg(long, value_name = "TEXT")]
    pub code: Option<String>,
    /// Words by which helpers find it, and no other home.
    #[arg(long, value_name = "WORDS")]
    pub find: Option<String>,
}

#[derive(Debug, Args)]
pub struct Enter {
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    #[command(flatten)]
    pub which: Which,
    /// When it was handed out by the list, with its offset.
    #[arg(long, value_name = "TIME")]
    pub given_at: String,
    /// Packs by the list: LOT=N.
    #[arg(long = "packs", value_name = "LOT=N", required = true)]
    pub packs: Vec<String>,
    /// Key of the product in the order; otherwise the order's own.
    #[arg(long, value_name = "KEY")]
    pub product: Option<String>,
    /// What the lead says to it.
    #[arg(long, value_name = "REASON")]
    pub lead: Option<String>,
    #[command(flatten)]
    pub pin: PinSource,
    #[command(flatten)]
    pub at: At,
}

#[derive(Debug, Args)]
pub struct List {
    /// The order file.
    #[arg(long, value_name = "FILE")]
    pub order: PathBuf,
    /// The file to write.
    #[arg(long, value_name = "F.pdf")]
    pub out: PathBuf,
    /// en or es.
    #[arg(long, default_value = "en")]
    pub language: String,
    #[arg(long, default_value = "letter")]
    pub paper: super::PaperName,
}

#[derive(Debug, Args)]
pub struct Forget {
    #[command(flatten)]
    pub which: Which,
    /// Where the picture of the receipt goes.
    #[arg(long, value_name = "P.png")]
    pub out: PathBuf,
    /// Also what no shift file has, for this reason of the lead's; it is on the receipt, so name nobody.
    #[arg(long, value_name = "REASON")]
    pub even_unexported: Option<String>,
    #[command(flatten)]
    pub pin: PinSource,
    #[command(flatten)]
    pub at: At,
}

#[derive(Debug, Args)]
pub struct Pin {
    #[arg(long)]
    pub role: RoleName,
    #[command(flatten)]
    pub source: PinSource,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum RoleName {
    Lead,
    Volunteer,
}

/// Where a PIN is read from.
#[derive(Debug, Args)]
pub struct PinSource {
    /// A file with the PIN; otherwise standard input.
    #[arg(long, value_name = "FILE")]
    pub pin_file: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub struct Demo {
    /// The same number gives the same street.
    #[arg(long, default_value_t = 1)]
    pub seed: u64,
    #[arg(long, default_value_t = 200, value_parser = clap::value_parser!(u32).range(1..=5_000))]
    pub homes: u32,
    /// Folder for all of it; it must not exist, or be empty.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
}

#[derive(Debug, Subcommand)]
pub enum Shift {
    /// Write what this device recorded as a signed file, and with --codes as pictures to be scanned.
    Export(Export),
    /// Take in shift files, or pictures of their codes.
    Merge(Merge),
}

#[derive(Debug, Args)]
pub struct Export {
    /// Folder for the files.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// Only what arrived after this number, which the last export told.
    #[arg(long, value_name = "N", default_value_t = 0)]
    pub since: u64,
    /// Seal it for the holder of this key: a file with 64 hexadecimal digits or a site key's code.
    #[arg(long, value_name = "KEYFILE")]
    pub to: Option<PathBuf>,
    /// Also as numbered pictures of codes.
    #[arg(long)]
    pub codes: bool,
    #[command(flatten)]
    pub at: At,
}

#[derive(Debug, Args)]
pub struct Merge {
    /// Shift files, pictures of their codes, or folders of both.
    #[arg(required = true, value_name = "FILE|DIR")]
    pub from: Vec<PathBuf>,
    /// Take files of devices not met before: somebody knows whose they are.
    #[arg(long)]
    pub trust: bool,
    /// Secret key for sealed files: a file with 64 hexadecimal digits, its owner's alone.
    #[arg(long, value_name = "KEYFILE")]
    pub key: Option<PathBuf>,
}

/// The moment at which something happens.
#[derive(Debug, Args)]
pub struct At {
    /// The moment, with its offset; otherwise now.
    #[arg(long = "at", value_name = "TIME")]
    pub time: Option<String>,
}
