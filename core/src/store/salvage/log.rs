//! The write-ahead log: which of its pages were committed, and whether its middle is broken.
//!
//! Format: <https://www.sqlite.org/fileformat2.html#walformat>.
//! SQLite reads a log up to the first frame that does not match its checksum and silently forgets the rest,
//! which is right for a write that a power cut tore, and wrong for a log that was damaged later.

use super::super::opening::PAGE;

const HEADER: usize = 32;
const FRAME_HEADER: usize = 24;

/// One page as the log holds it.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct Frame<'a> {
    pub(super) number: u32,
    pub(super) page: &'a [u8],
    /// The last frame of a transaction.
    commits: bool,
    salt: [u8; 8],
}

#[derive(Debug)]
pub(in super::super) struct Log<'a> {
    frames: Vec<Frame<'a>>,
    /// Of the log's present turn; none if the header is broken.
    salt: Option<[u8; 8]>,
    /// Frames up to the end of the last transaction that SQLite reads.
    whole: usize,
}

impl<'a> Log<'a> {
    pub(in super::super) fn read(bytes: &'a [u8]) -> Log<'a> {
        let header = bytes.get(..HEADER);
        let frames: Vec<Frame<'a>> = bytes
            .get(HEADER..)
            .unwrap_or_default()
            .chunks_exact(FRAME_HEADER + PAGE)
            .filter_map(frame)
            .collect();
        let Some(mut chain) = header.and_then(Chain::begin) else {
            return Log {
                frames,
                salt: None,
                whole: 0,
            };
        };
        let salt = header.and_then(|header| eight(header, 16));
        let mut whole = 0;
        for (index, (frame, raw)) in frames
            .iter()
            .zip(
                bytes
                    .get(HEADER..)
                    .unwrap_or_default()
                    .chunks_exact(FRAME_HEADER + PAGE),
            )
            .enumerate()
        {
            if Some(frame.salt) != salt || !chain.goes_on(raw) {
                break;
            }
            if frame.commits {
                whole = index + 1;
            }
        }
        Log {
            frames,
            salt,
            whole,
        }
    }

    /// Frames behind what SQLite reads, of the present turn.
    fn behind(&self) -> impl Iterator<Item = &Frame<'a>> {
        self.frames
            .iter()
            .skip(self.whole)
            .filter(|frame| Some(frame.salt) == self.salt)
    }

    /// Whether SQLite would forget something that was committed.
    ///
    /// A transaction begins only when the one before is whole, so a frame behind an unread transaction proves that it was once whole.
    pub(in super::super) fn is_broken(&self) -> bool {
        if self.salt.is_none() {
            return self.frames.iter().any(|frame| frame.commits);
        }
        self.behind()
            .skip_while(|frame| !frame.commits)
            .nth(1)
            .is_some()
    }

    /// The one transaction that may be torn or damaged.
    pub(in super::super) fn torn(&self) -> Vec<Frame<'a>> {
        let mut frames: Vec<Frame<'a>> = Vec::new();
        for frame in self.behind() {
            frames.push(*frame);
            if frame.commits {
                return frames;
            }
        }
        Vec::new()
    }

    /// Every frame of every transaction that has its end, of earlier turns too: their facts are as true.
    pub(super) fn committed(&self) -> Vec<Frame<'a>> {
        let (mut committed, mut open): (Vec<Frame<'a>>, Vec<Frame<'a>>) = (Vec::new(), Vec::new());
        for frame in &self.frames {
            if open.first().is_some_and(|first| first.salt != frame.salt) {
                open.clear();
            }
            open.push(*frame);
            if frame.commits {
                committed.append(&mut open);
            }
        }
        committed
    }
}

fn frame(raw: &[u8]) -> Option<Frame<'_>> {
    Some(Frame {
        number: four(raw, 0)?,
        commits: four(raw, 4)? != 0,
        salt: eight(raw, 8)?,
        page: raw.get(FRAME_HEADER..)?,
    })
}

fn four(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_be_bytes(
        bytes.get(at..at.checked_add(4)?)?.try_into().ok()?,
    ))
}

fn eight(bytes: &[u8], at: usize) -> Option<[u8; 8]> {
    bytes.get(at..at.checked_add(8)?)?.try_into().ok()
}

/// The running checksum of a log.
struct Chain {
    sum: (u32, u32),
    big_endian: bool,
}

impl Chain {
    /// From the header, if it is whole.
    fn begin(header: &[u8]) -> Option<Chain> {
        let big_endian = match four(header, 0)? {
            0x377f_0682 => false,
            0x377f_0683 => true,
            _ => return None,
        };
        let mut chain = Chain {
            sum: (0, 0),
            big_endian,
        };
        chain.add(header.get(..24)?);
        (chain.sum == (four(header, 24)?, four(header, 28)?)).then_some(chain)
    }

    fn goes_on(&mut self, raw: &[u8]) -> bool {
        self.add(raw.get(..8).unwrap_or_default());
        self.add(raw.get(FRAME_HEADER..).unwrap_or_default());
        Some(self.sum.0) == four(raw, 16) && Some(self.sum.1) == four(raw, 20)
    }

    fn add(&mut self, bytes: &[u8]) {
        let word = |four: &[u8]| {
            let four: [u8; 4] = four.try_into().unwrap_or_default();
            if self.big_endian {
                u32::from_be_bytes(four)
            } else {
                u32::from_le_bytes(four)
            }
        };
        let (mut first, mut second) = self.sum;
        for pair in bytes.chunks_exact(8) {
            let (left, right) = pair.split_at(4);
            first = first.wrapping_add(word(left)).wrapping_add(second);
            second = second.wrapping_add(word(right)).wrapping_add(first);
        }
        self.sum = (first, second);
    }
}
