//! Which day it is, a clock that counts seconds, and numbers nobody else has.

use printseam::internals::registry::calendar::Date;

/// Today where the phone is.
pub fn today() -> Date {
    let now = js_sys::Date::new_0();
    let (year, month, day) = (now.get_full_year(), now.get_month() + 1, now.get_date());
    Date::new(year as i16, month as u8, day as u8).unwrap_or(Date::first_of(1970))
}

/// 64 bits: the browser's random numbers over its clock.
pub fn chance() -> u64 {
    let half = || (js_sys::Math::random() * f64::from(u32::MAX)) as u64;
    half() << 32 ^ half() ^ js_sys::Date::now().to_bits()
}

/// A clock that counts seconds.
pub fn seconds() -> u64 {
    (js_sys::Date::now() / 1000.0) as u64
}
