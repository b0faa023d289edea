//! Who has a record open: a lock on a file beside it, held as long as the record is open.
//!
//! Making, upgrading and setting aside need it alone; everybody else shares it.
//! The system takes the lock back from a process that dies, however it dies.

use std::fs::{File, TryLockError};
use std::path::Path;

use super::StoreError;
use super::place::beside;

#[derive(Debug)]
pub(super) struct Guard {
    file: File,
    alone: bool,
}

impl Guard {
    /// Takes the lock alone if nobody has the record open, or shares it.
    ///
    /// Waits while another process is opening the record.
    pub(super) fn take(path: &Path) -> Result<Guard, StoreError> {
        let file = File::options()
            .create(true)
            .truncate(false)
            .read(true)
            .write(true)
            .open(beside(path, ".lock"))?;
        match file.try_lock() {
            Ok(()) => Ok(Guard { file, alone: true }),
            Err(TryLockError::WouldBlock) => {
                file.lock_shared()?;
                Ok(Guard { file, alone: false })
            }
            Err(TryLockError::Error(cause)) => Err(cause.into()),
        }
    }

    pub(super) fn is_alone(&self) -> bool {
        self.alone
    }

    /// Lets others in. One of them may be first in the moment between, but finds a record that is whole.
    pub(super) fn share(&mut self) -> Result<(), StoreError> {
        if self.alone {
            self.file.unlock()?;
            self.file.lock_shared()?;
            self.alone = false;
        }
        Ok(())
    }
}
