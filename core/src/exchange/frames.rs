//! Files longer than one code: RaptorQ frames (RFC 6330) in one fixed profile.
//!
//! ```text
//! 46                  magic F
//! .. 8 bytes          beginning of SHA-256 of the whole file
//! .. 4 bytes          length of the file, 1 to 32,768, big-endian
//! .. 4 bytes          packet id: block number, always 0, and 24 bits of symbol id, below 4,096
//! .. 512 bytes        symbol
//! ```
//!
//! One block of at most 64 source symbols, no sub-blocks, so no further parameter travels, and a frame always is QR version 20 at level M or smaller.
//! Every field is checked before the coder sees it, because it panics on what it does not expect; and only a file with the right hash is ever given out.
//! Any sufficient set of frames in any order completes.

use std::collections::BTreeMap;

use raptorq::{EncodingPacket, ObjectTransmissionInformation, PayloadId};
use raptorq::{SourceBlockDecoder, SourceBlockEncoder};
use sha2::{Digest, Sha256};

/// What comes before every frame.
pub(super) const FRAME: u8 = 0x46;
/// Bytes in a symbol.
pub const SYMBOL: usize = 512;
const SYMBOL_SIZE: u16 = 512;
/// Longest file: 64 symbols.
pub const LONGEST_FILE: usize = 64 * SYMBOL;
/// The QR version whose room at level M every frame fits into.
pub const FRAME_VERSION: i16 = 20;
const HEADER: usize = 17;
/// Symbol ids from here on are never made, so a stranger's cannot fill the memory.
const IDS: u32 = 4_096;
/// Frames kept of one file; more than twice the longest file's can only be a stranger's.
const MOST_KEPT: usize = 160;

/// One frame whose fields were checked.
#[derive(Clone, PartialEq, Eq)]
pub struct Frame {
    file: FileMark,
    id: u32,
    symbol: Vec<u8>,
}

/// Which file a frame is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileMark {
    hash: [u8; 8],
    length: u32,
}

/// The file is empty or does not fit into 64 symbols.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a file in frames has 1 to 32,768 bytes")]
pub struct UnfitFile;

impl std::fmt::Debug for Frame {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Frame({:?}, {})", self.file, self.id)
    }
}

impl FileMark {
    fn of(file: &[u8]) -> Option<FileMark> {
        let digest: [u8; 32] = Sha256::digest(file).into();
        let mark = FileMark {
            hash: digest.first_chunk().copied()?,
            length: u32::try_from(file.len()).ok()?,
        };
        mark.is_fit().then_some(mark)
    }

    fn is_fit(self) -> bool {
        self.length > 0 && usize::try_from(self.length).is_ok_and(|length| length <= LONGEST_FILE)
    }

    /// Source symbols of the file, and so the least number of frames that can complete it.
    pub fn needed(self) -> u32 {
        self.length.div_ceil(u32::from(SYMBOL_SIZE))
    }

    /// No division into sub-blocks, and symbols of the fixed size.
    fn profile(self) -> ObjectTransmissionInformation {
        ObjectTransmissionInformation::new(u64::from(self.length), SYMBOL_SIZE, 1, 1, 8)
    }
}

impl Frame {
    pub fn file(&self) -> FileMark {
        self.file
    }

    pub(super) fn to_bytes(&self) -> Vec<u8> {
        let mut bytes = vec![FRAME];
        bytes.extend(self.file.hash);
        bytes.extend(self.file.length.to_be_bytes());
        bytes.extend(self.id.to_be_bytes());
        bytes.extend(&self.symbol);
        bytes
    }

    /// A frame; none when any field is outside the profile.
    pub(super) fn from_bytes(bytes: &[u8]) -> Option<Frame> {
        let (magic, rest) = bytes.split_first()?;
        let (hash, rest) = rest.split_first_chunk::<8>()?;
        let (length, rest) = rest.split_first_chunk::<4>()?;
        let (id, symbol) = rest.split_first_chunk::<4>()?;
        let file = FileMark {
            hash: *hash,
            length: u32::from_be_bytes(*length),
        };
        let id = u32::from_be_bytes(*id);
        let fits = *magic == FRAME
            && bytes.len() == HEADER + SYMBOL
            && file.is_fit()
            && id < IDS
            && symbol.len() == SYMBOL;
        fits.then(|| Frame {
            file,
            id,
            symbol: symbol.to_vec(),
        })
    }
}

/// The frames of a file: every source symbol, and so many repair symbols.
///
/// # Errors
/// [`UnfitFile`].
pub fn frames(file: &[u8], repair: u32) -> Result<Vec<Frame>, UnfitFile> {
    let mark = FileMark::of(file).ok_or(UnfitFile)?;
    let mut padded = file.to_vec();
    padded.resize(padded.len().next_multiple_of(SYMBOL), 0);
    let repair = repair.min(IDS.saturating_sub(mark.needed()));
    let encoder = SourceBlockEncoder::new(0, &mark.profile(), &padded);
    let packets = encoder
        .source_packets()
        .into_iter()
        .chain(encoder.repair_packets(0, repair));
    Ok(packets
        .map(|packet| Frame {
            file: mark,
            id: packet.payload_id().encoding_symbol_id(),
            symbol: packet.data().to_vec(),
        })
        .collect())
}

/// How far a file has come together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Progress {
    /// Different frames so far, and the least number that can be enough.
    More { have: u32, needed: u32 },
    /// The whole file, by its hash.
    Whole(Vec<u8>),
    /// A frame of another file; it was not taken.
    OtherFile,
}

/// Frames of one file as they come in.
#[derive(Clone, Debug, Default)]
pub struct Collector {
    file: Option<FileMark>,
    symbols: BTreeMap<u32, Vec<u8>>,
    whole: Option<Vec<u8>>,
}

impl Collector {
    pub fn new() -> Collector {
        Collector::default()
    }

    /// Takes one frame. The first one says which file is being put together.
    pub fn take(&mut self, frame: Frame) -> Progress {
        let file = *self.file.get_or_insert(frame.file);
        if file != frame.file {
            return Progress::OtherFile;
        }
        // Of two frames with one number the first stays; the hash decides whether it was right.
        let fresh = !self.symbols.contains_key(&frame.id) && self.symbols.len() < MOST_KEPT;
        if fresh {
            self.symbols.insert(frame.id, frame.symbol);
        }
        if fresh && self.whole.is_none() {
            self.whole = self.put_together(file);
        }
        match &self.whole {
            Some(whole) => Progress::Whole(whole.clone()),
            None => Progress::More {
                have: u32::try_from(self.symbols.len()).unwrap_or(u32::MAX),
                needed: file.needed(),
            },
        }
    }

    fn put_together(&self, file: FileMark) -> Option<Vec<u8>> {
        let needed = usize::try_from(file.needed()).ok()?;
        let count = self.symbols.len();
        if count < needed {
            return None;
        }
        let found = decode(file, self.symbols.iter());
        if found.is_some() || count == needed {
            return found;
        }
        // One frame may be a forgery: with one to spare, each is left out in turn.
        self.symbols
            .keys()
            .find_map(|out| decode(file, self.symbols.iter().filter(|(id, _)| *id != out)))
    }
}

/// The file, when these symbols give it and its hash agrees.
fn decode<'a>(
    file: FileMark,
    symbols: impl Iterator<Item = (&'a u32, &'a Vec<u8>)>,
) -> Option<Vec<u8>> {
    let length = usize::try_from(file.length).ok()?;
    let padded = length.next_multiple_of(SYMBOL);
    let mut decoder = SourceBlockDecoder::new(0, &file.profile(), u64::try_from(padded).ok()?);
    let packets: Vec<EncodingPacket> = symbols
        .map(|(id, symbol)| EncodingPacket::new(PayloadId::new(0, *id), symbol.clone()))
        .collect();
    let mut found = decoder.decode(packets)?;
    let padding_is_empty = found
        .get(length..)
        .is_some_and(|rest| rest.iter().all(|byte| *byte == 0));
    found.truncate(length);
    (padding_is_empty && FileMark::of(&found) == Some(file)).then_some(found)
}
