//! The one integration-test binary: one module a topic.

// In a test an unwrap is the assertion.
#![allow(clippy::unwrap_used)]

mod ask;
mod authors;
mod bulk;
mod buy;
mod challenge;
mod commands;
mod drawn;
mod drill_class;
mod drill_screens;
mod drills;
mod ear;
mod edtf;
mod fields;
mod figures;
mod finding_pictures;
mod first_glance;
mod floors;
mod fuzz_keys;
mod glossary;
mod guide;
mod handouts;
mod heard;
#[path = "../../benches/invented_rows.rs"]
mod invented_rows;
mod keys;
mod laws;
mod lessons;
mod lot;
mod marks;
mod marks_rates;
mod marks_registry;
mod oracle;
mod pages;
mod pictures;
mod plain;
mod popups;
mod prove;
mod random_model;
mod rarity;
mod readme_screens;
mod reference;
mod reports;
mod rules_corpus;
mod rules_guide;
mod running;
mod scales;
mod scenarios;
mod screens;
mod season;
mod settings;
mod shipped;
mod sightings;
mod stock_book;
mod stock_kill;
mod stock_laws;
mod stock_offers;
mod stock_screens;
mod stopping;
mod tables;
mod tickets;
mod words;
mod writing;
