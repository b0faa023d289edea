//! Why the record could not be opened or written.

use std::io::ErrorKind;

use rusqlite::ffi;

use crate::record::{DeviceId, FactId};

type Cause = Box<dyn std::error::Error + Send + Sync>;

/// Nothing was written, and nothing that was there is lost.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    #[error("the record cannot be written: its file or folder is read-only")]
    ReadOnly(#[source] Cause),
    #[error("the record cannot be written: there is no space left")]
    Full(#[source] Cause),
    #[error("the record is in use by another program")]
    Busy(#[source] Cause),
    /// Opening it again sets it aside and salvages it.
    #[error("the record is damaged: close it everywhere and open it again")]
    Damaged(#[source] Cause),
    #[error(
        "the record was made by a newer version of this program (format {found}, this one knows {known}): please update"
    )]
    Newer { found: i64, known: u32 },
    /// A fact holds something this version has no words for.
    #[error("the record holds a fact of a newer version of this program: please update")]
    NewerFact(#[source] Cause),
    #[error("the file is not a record of this program")]
    Foreign,
    #[error("the record cannot be opened: its folder does not exist or may not be entered")]
    Unreachable(#[source] Cause),
    /// One id, two contents: one of them is forged or broken.
    #[error("another fact of the same id is already in the record: {}", .0.0)]
    OtherContent(FactId),
    /// The clock of the device was not told of facts that are already in.
    #[error("number {sequence} of device {} is already taken by another fact", .device.0)]
    NumberTaken { device: DeviceId, sequence: u64 },
    #[error("a fact or file cannot be stored: {what}")]
    Unstorable { what: &'static str },
    #[error("the record could not be read or written")]
    Failed(#[source] Cause),
}

impl StoreError {
    /// A word for screens and tests.
    pub fn code(&self) -> &'static str {
        match self {
            StoreError::ReadOnly(_) => "store-read-only",
            StoreError::Full(_) => "store-full",
            StoreError::Busy(_) => "store-busy",
            StoreError::Damaged(_) => "store-damaged",
            StoreError::Newer { .. } | StoreError::NewerFact(_) => "store-newer",
            StoreError::Foreign => "store-foreign",
            StoreError::Unreachable(_) => "store-unreachable",
            StoreError::OtherContent(_) => "store-other-content",
            StoreError::NumberTaken { .. } => "store-number-taken",
            StoreError::Unstorable { .. } => "store-unstorable",
            StoreError::Failed(_) => "store-failed",
        }
    }

    pub(super) fn damaged(what: impl Into<Cause>) -> StoreError {
        StoreError::Damaged(what.into())
    }
}

impl From<rusqlite::Error> for StoreError {
    fn from(cause: rusqlite::Error) -> StoreError {
        use rusqlite::ErrorCode;
        let Some(code) = cause.sqlite_error() else {
            // A column that is not what it was written as.
            return match cause {
                rusqlite::Error::FromSqlConversionFailure(..)
                | rusqlite::Error::IntegralValueOutOfRange(..)
                | rusqlite::Error::InvalidColumnType(..)
                | rusqlite::Error::Utf8Error(..) => StoreError::Damaged(cause.into()),
                _ => StoreError::Failed(cause.into()),
            };
        };
        match (code.code, code.extended_code) {
            (ErrorCode::ReadOnly | ErrorCode::PermissionDenied, _) => {
                StoreError::ReadOnly(cause.into())
            }
            (ErrorCode::DiskFull, _) => StoreError::Full(cause.into()),
            (
                ErrorCode::DatabaseBusy
                | ErrorCode::DatabaseLocked
                | ErrorCode::FileLockingProtocolFailed,
                _,
            ) => StoreError::Busy(cause.into()),
            (ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase, _)
            | (_, ffi::SQLITE_IOERR_SHORT_READ) => StoreError::Damaged(cause.into()),
            (ErrorCode::CannotOpen, _) => StoreError::Unreachable(cause.into()),
            _ => StoreError::Failed(cause.into()),
        }
    }
}

impl From<std::io::Error> for StoreError {
    fn from(cause: std::io::Error) -> StoreError {
        match cause.kind() {
            ErrorKind::NotFound | ErrorKind::NotADirectory | ErrorKind::IsADirectory => {
                StoreError::Unreachable(cause.into())
            }
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
                StoreError::ReadOnly(cause.into())
            }
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge => {
                StoreError::Full(cause.into())
            }
            ErrorKind::ResourceBusy | ErrorKind::WouldBlock => StoreError::Busy(cause.into()),
            _ => StoreError::Failed(cause.into()),
        }
    }
}
