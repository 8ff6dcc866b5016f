//! What the system asks for by signals: an end, a stop, and a return.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use anyhow::{Result, bail};

#[cfg(unix)]
use super::modes::give_back;

/// How long the loop has to leave by its usual door, in milliseconds: four times as long as it
/// waits for a key (common practice, no source).
#[cfg(unix)]
const MOMENT: u64 = 1000;

/// What has been asked for and not done yet.
pub(super) struct Signals(Arc<Flags>);

#[derive(Default)]
struct Flags {
    end: AtomicBool,
    stop: AtomicBool,
    returned: AtomicBool,
}

impl Signals {
    /// An error when the system has asked the program to end.
    pub(super) fn end(&self) -> Result<()> {
        if self.0.end.load(Ordering::Relaxed) {
            bail!("ended by a signal; the findings of this piece are not kept");
        }
        Ok(())
    }

    /// True once after the system has asked the program to stop.
    pub(super) fn stop(&self) -> bool {
        self.0.stop.swap(false, Ordering::Relaxed)
    }

    /// True once after the program was stopped and goes on: the terminal may be as the shell left it.
    pub(super) fn returned(&self) -> bool {
        self.0.returned.swap(false, Ordering::Relaxed)
    }

    /// Sets a flag for every signal; the loop does the rest.
    ///
    /// When the terminal itself has gone, the reader of events never comes back to look at a flag:
    /// it meets an end of input again and again. So after a moment an end is let through.
    #[cfg(unix)]
    pub(super) fn watch() -> Result<Signals> {
        use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGTSTP};
        let asked = [SIGTERM, SIGHUP, SIGINT, SIGQUIT, SIGTSTP, SIGCONT];
        let mut signals = signal_hook::iterator::Signals::new(asked)?;
        let flags = Arc::new(Flags::default());
        let set = flags.clone();
        std::thread::spawn(move || {
            for signal in signals.forever() {
                match signal {
                    SIGTSTP => set.stop.store(true, Ordering::Relaxed),
                    SIGCONT => set.returned.store(true, Ordering::Relaxed),
                    _ => {
                        set.end.store(true, Ordering::Relaxed);
                        std::thread::sleep(std::time::Duration::from_millis(MOMENT));
                        give_back();
                        // Only a signal without a default end could fail here.
                        let _ = signal_hook::low_level::emulate_default_handler(signal);
                    }
                }
            }
        });
        Ok(Signals(flags))
    }

    #[cfg(not(unix))]
    pub(super) fn watch() -> Result<Signals> {
        Ok(Signals(Arc::new(Flags::default())))
    }
}

/// Stops this program until the shell lets it go on.
#[cfg(unix)]
pub(super) fn stop_here() {
    // A stop that is refused leaves the program where it is.
    let _ = signal_hook::low_level::emulate_default_handler(signal_hook::consts::SIGTSTP);
}

#[cfg(not(unix))]
pub(super) fn stop_here() {}
