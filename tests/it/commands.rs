//! The command line, as transcripts: `tests/cmd/*.trycmd` and the README's and demo's own examples.

#[test]
fn transcripts_hold() {
    trycmd::TestCases::new()
        .env("PRINTSEAM_NOW", "2026")
        .env("XDG_CONFIG_HOME", "/nonexistent")
        .register_bin("printseam", trycmd::cargo::cargo_bin!("printseam"))
        .case("tests/cmd/*.trycmd")
        .case("README.md")
        .case("demo/README.md");
}
