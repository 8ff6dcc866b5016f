//! Prices, shares and costs against figures worked out by hand, on guesses small enough to do so.
//!
//! With one channel, one age and no group a row is (1, 1, 1). Each of the three coefficients is guessed with
//! Λ = 3, so the log price x'β has leverage 3 · ⅓ = 1: the guesses weigh as much as one sale. After a sale that counts k
//! * leverage is 1/(1 + k), and the sale's share of what is known k/(1 + k);
//! * the middle of the log price is (guess + k · sale)/(1 + k).

use printseam::internals::buy::appearance::{Appearance, Part};
use printseam::internals::buy::mean_exp::MeanExp;
use printseam::internals::buy::outlook::Outlook;
use printseam::internals::buy::student_t::StudentT;
use printseam::internals::buy::terms::Channel;
use printseam::internals::buy::waiting::Wait;
use printseam::internals::buy::{Currency, Money, PriceModel, Sale, Terms};
use printseam::internals::core::observation::{Observation, Observed};
use printseam::internals::registry::calendar::Date;
use printseam::internals::rulebase::prices::{AgeFactor, ChannelGuess, PriceFactor, PriceGuesses};

const HALF_LIFE: f64 = 73.0;

fn factor(id: &str, factor: f64) -> PriceFactor {
    PriceFactor {
        id: id.to_owned(),
        name: id.to_owned(),
        factor,
        because: String::new(),
        sources: Vec::new(),
    }
}

/// A plate of 40 dollars, half of that at the one place where it is sold.
fn guesses(groups: &[f64], ages: &[(f64, f64)]) -> PriceGuesses {
    PriceGuesses {
        currency: "USD".to_owned(),
        start: 40.0,
        worth: 3.0,
        spread: 2.0,
        spread_worth: 10.0,
        half_life: HALF_LIFE,
        groups: groups.iter().map(|f| factor("group", *f)).collect(),
        group_of_kind: Vec::new(),
        ages: ages
            .iter()
            .map(|(years, factor)| AgeFactor {
                years: *years,
                factor: *factor,
                because: String::new(),
                sources: Vec::new(),
            })
            .collect(),
        traits: Vec::new(),
        defects: Vec::new(),
        channels: vec![ChannelGuess {
            factor: factor("fair", 0.5),
            commission: 0.0,
            fee: 0.0,
            postage: 0.0,
            packing: 0.0,
            rent: 0.0,
            margin: 0.0,
        }],
        waiting_worth: 3.0,
        hour: 15.0,
        longest_look: 60.0,
        rates: vec![("GBP".to_owned(), 0.5), ("EUR".to_owned(), 2.0)],
    }
}

/// Rows (1, 1, 1).
fn plain() -> PriceGuesses {
    guesses(&[], &[(100.0, 1.0)])
}

fn piece(parts: &[(f64, Option<usize>, f64)]) -> Appearance {
    let part = |&(share, group, years): &(f64, Option<usize>, f64)| Part {
        share,
        group,
        years,
    };
    Appearance {
        parts: parts.iter().map(part).collect(),
        classes: Vec::new(),
        defects: Vec::new(),
    }
}

fn plate() -> Appearance {
    piece(&[(1.0, None, 100.0)])
}

fn today() -> Date {
    Date::new(2026, 11, 26).unwrap()
}

fn sold(of: Appearance, day: Date, minor: i64, code: &str) -> Sale {
    let currency = Currency::new(code).unwrap();
    Sale {
        appearance: of,
        channel: "fair".to_owned(),
        listed: day,
        sold: Some((day, Money { minor, currency })),
    }
}

fn near(got: f64, wanted: f64, what: &str) {
    assert!((got - wanted).abs() < 1e-9, "{what}: {got}, not {wanted}");
}

#[test]
fn a_sale_counts_half_for_each_half_life() {
    let guesses = plain();
    let terms = Terms::usual(&guesses, None);
    let guess = 20_f64.ln();
    // 73 days before, and twice as many.
    for (day, counts) in [
        (today(), 1.0),
        (Date::new(2026, 9, 14).unwrap(), 0.5),
        (Date::new(2026, 7, 3).unwrap(), 0.25),
    ] {
        let sale = sold(plate(), day, 8000, "USD");
        let model = PriceModel::new(&guesses, &terms, &[sale], today());
        let share = model.own_share(&plate(), 0);
        near(share, counts / (1.0 + counts), "share of own sales");
        let middle = model.outlook(&plate(), 0).prices[0].1.location;
        let wanted = (guess + counts * 80_f64.ln()) / (1.0 + counts);
        near(middle, wanted, "log price");
    }
}

#[test]
fn own_sales_share_what_is_known_by_their_number() {
    let guesses = plain();
    let terms = Terms::usual(&guesses, None);
    for n in [0, 1, 3, 9] {
        let sales = vec![sold(plate(), today(), 2000, "USD"); n];
        let model = PriceModel::new(&guesses, &terms, &sales, today());
        let n = n as f64;
        near(model.own_share(&plate(), 0), n / (n + 1.0), "share");
    }
    // (1, 1, 0, 1) of a sale in the first group and (1, 1, 1, 0) of a piece in the second share two of three.
    // Before: 4/3 each. Covariance 2/3 of a variance 4/3 + 1 with the noise: (2/3)²/(7/3) of it goes.
    let guesses = self::guesses(&[1.0, 1.0], &[(100.0, 1.0)]);
    let of = |group| piece(&[(1.0, Some(group), 100.0)]);
    let sale = sold(of(0), today(), 2000, "USD");
    let model = PriceModel::new(&guesses, &terms, &[sale], today());
    near(
        model.own_share(&of(0), 0),
        (4.0 / 3.0) / (7.0 / 3.0),
        "its own",
    );
    let shared = 3.0 / 3.0; // start, channel and age
    near(
        model.own_share(&of(1), 0),
        shared * shared / (7.0 / 3.0) / (4.0 / 3.0),
        "the other group's",
    );
}

#[test]
fn a_sale_in_another_currency_counts_at_both_rates() {
    let guesses = plain();
    let euro = Currency::new("EUR");
    let terms = Terms::usual(&guesses, euro);
    assert_eq!((terms.rate, terms.rate_known), (2.0, true));
    // Half a pound a dollar, two euros a dollar: 30 pounds are 60 dollars, and those 120 euros.
    for (minor, code) in [(12_000, "EUR"), (3_000, "GBP"), (6_000, "USD")] {
        let sale = sold(plate(), today(), minor, code);
        let model = PriceModel::new(&guesses, &terms, &[sale], today());
        assert_eq!((model.own_sales, model.left_out), (1, 0), "{code}");
        let middle = model.outlook(&plate(), 0).prices[0].1.location;
        // The guess is 20 dollars, 40 euros, and weighs as much: √(40 · 120).
        near(middle, 4800_f64.ln() / 2.0, code);
    }
    // Nothing is known of yen, so neither a sale in yen nor, for who trades in yen, one in pounds counts.
    let yen = Terms::usual(&guesses, Currency::new("JPY"));
    for (terms, code) in [(&terms, "JPY"), (&yen, "GBP")] {
        let sale = sold(plate(), today(), 3_000, code);
        let model = PriceModel::new(&guesses, terms, &[sale], today());
        assert_eq!((model.own_sales, model.left_out), (0, 1), "{code}");
    }
}

/// Where what a piece may be lies between two ages, or in a group, the price scatters by xᵀΛ⁻¹x of that part's
/// own row: scale² = (b/a)(1 + xᵀΛ⁻¹x), b/a = (ln 2)².
#[test]
fn each_part_of_a_price_scatters_by_its_own_leverage() {
    let guesses = guesses(&[4.0], &[(100.0, 1.0), (200.0, 16.0)]);
    let terms = Terms::usual(&guesses, None);
    let both = piece(&[(0.25, Some(0), 100.0), (0.75, None, 150.0)]);
    let outlook = |sales: &[Sale]| -> Vec<(f64, StudentT)> {
        let model = PriceModel::new(&guesses, &terms, sales, today());
        model.outlook(&both, 0).prices.clone()
    };
    let guessed = outlook(&[]);
    // Start, channel, group, age: four coefficients of variance ⅓ each.
    let scale = |leverage: f64| 2_f64.ln() * (1.0 + leverage).sqrt();
    near(guessed[0].0, 0.25, "share");
    near(guessed[0].1.location, 80_f64.ln(), "of the group");
    near(guessed[0].1.scale, scale(4.0 / 3.0), "of the group");
    // Start, channel, and half of each of two ages.
    near(guessed[1].1.location, 80_f64.ln(), "between the ages");
    near(guessed[1].1.scale, scale(2.5 / 3.0), "between the ages");
    near(guessed[1].1.freedom, 10.0, "freedom");
    // A sale of the first part at just what was guessed moves nothing; of the variance of a row it takes
    // cov²/(1 + 4/3), and adds ½ to a = 5. The second row has start, channel and half an age in common with it.
    let taught = outlook(&[sold(piece(&[(1.0, Some(0), 100.0)]), today(), 8000, "USD")]);
    let scale = |leverage: f64| 2_f64.ln() * (5.0 / 5.5 * (1.0 + leverage)).sqrt();
    let left = |before: f64, with: f64| before - with * with / (7.0 / 3.0);
    near(
        taught[0].1.scale,
        scale(left(4.0 / 3.0, 4.0 / 3.0)),
        "of the group",
    );
    near(
        taught[1].1.scale,
        scale(left(2.5 / 3.0, 2.5 / 3.0)),
        "between the ages",
    );
    near(taught[1].1.location, 80_f64.ln(), "between the ages");
    near(taught[1].1.freedom, 11.0, "freedom");
}

fn channel() -> Channel {
    Channel {
        id: "fair".to_owned(),
        name: "fair".to_owned(),
        like: 0,
        commission: 0.2,
        fee: 2.0,
        postage: 5.0,
        packing: 3.0,
        rent: 0.5,
        margin: 0.3,
    }
}

/// A price of a hundred, hardly scattered, and a wait.
fn a_hundred(mean_exp: &MeanExp, wait: Wait) -> Outlook<'_> {
    let price = StudentT {
        location: 100_f64.ln(),
        scale: 1e-6,
        freedom: 30.0,
    };
    Outlook {
        prices: vec![(1.0, price)],
        waits: vec![(1.0, wait)],
        mean_exp,
    }
}

#[test]
fn what_is_left_and_the_most_to_pay_are_sums_of_all_costs() {
    // Over the one point 0 the expected price is the middle one.
    let middle = MeanExp::new(vec![0.0]);
    let outlook = a_hundred(&middle, Wait::guess(8.0, 3.0));
    // 100 − 20 commission − 2 − 5 − 3 − 8 weeks at ½.
    near(outlook.net_before_paying(&channel()), 66.0, "net");
    // The margin is 30 of the selling price.
    near(outlook.most_to_pay(&channel()), 36.0, "most to pay");
}

/// The price is 100, of which 80 are left: it is lost when what was paid with all costs is more.
#[test]
fn a_loss_is_less_than_all_that_went_out() {
    let middle = MeanExp::new(vec![0.0]);
    let wait = Wait::guess(8.0, 3.0);
    let outlook = a_hundred(&middle, wait);
    let free = Channel {
        rent: 0.0,
        ..channel()
    };
    // 70 + 2 + 5 + 3 = 80: as likely a little more as a little less.
    near(outlook.loss_chance(&free, 70.0), 0.5, "at the limit");
    assert!(outlook.loss_chance(&free, 70.01) > 0.999);
    assert!(outlook.loss_chance(&free, 69.99) < 0.001);
    // Rent eats 10 up by the time a quarter of such pieces has sold: the three quarters that wait longer lose.
    for (sell, lose) in [(0.25, 0.75), (0.5, 0.5), (0.875, 0.125)] {
        let dear = Channel {
            rent: 10.0 / wait.quantile(sell),
            ..channel()
        };
        near(outlook.loss_chance(&dear, 60.0), lose, "with rent");
    }
}

#[test]
fn a_price_below_one_has_its_chance_too() {
    let cents = StudentT {
        location: 0.5_f64.ln(),
        scale: 0.4,
        freedom: 30.0,
    };
    let middle = MeanExp::new(vec![0.0]);
    let outlook = Outlook {
        prices: vec![(0.25, cents), (0.75, cents)],
        waits: Vec::new(),
        mean_exp: &middle,
    };
    near(outlook.price_cdf(0.5), 0.5, "the middle");
    assert_eq!(outlook.price_cdf(0.0), 0.0);
    for share in [0.1, 0.3, 0.9] {
        near(
            outlook.price_cdf(outlook.price_quantile(share)),
            share,
            "share below",
        );
    }
}

/// What was seen unsurely counts by 1 − 0.15, the rest is as if it had not been looked at; of two clues that show a
/// defect the one that was looked at tells.
#[test]
fn a_defect_seen_unsurely_is_partly_as_expected() {
    let expert = crate::shipped::expert();
    let prices = expert.base.prices.clone().unwrap();
    let chances = |saw: &[&str]| {
        let all = [&["line-make=engraved", "form=dinner-plate"], saw].concat();
        let piece = crate::shipped::case_of(&expert, "antiques-fair", &all);
        Appearance::of(&piece, &prices).defects
    };
    let expected = chances(&[]);
    for defect in ["chip", "stain"] {
        let at = prices.defect(defect).unwrap();
        assert!(expected[at] > 0.0 && expected[at] < 0.5, "{defect}");
        let seen = |answer: &str| chances(&[&format!("{defect}={answer}")])[at];
        near(seen("yes"), 1.0, defect);
        near(seen("no"), 0.0, defect);
        near(seen("yes?"), 0.85 + 0.15 * expected[at], defect);
        near(seen("no?"), 0.15 * expected[at], defect);
    }
    let staples = prices.defect("staple-repair").unwrap();
    near(chances(&["staple-repair=yes"])[staples], 1.0, "by its own");
    near(
        chances(&["repairs=staples"])[staples],
        1.0,
        "by the other clue",
    );
    near(
        chances(&["repairs=overpaint"])[staples],
        0.0,
        "another repair",
    );
}

/// Size and company of which nothing is said, or nothing could be told, are the usual ones; what is said counts.
#[test]
fn what_nobody_says_is_taken_to_be_usual() {
    let expert = crate::shipped::expert();
    let prices = expert.base.prices.clone().unwrap();
    let piece = |saw: &[&str]| crate::shipped::case_of(&expert, "antiques-fair", saw);
    let mut tried = 0;
    for (at, of) in prices.traits.iter().enumerate() {
        let Some(usual) = of.unsaid else { continue };
        let clue = &expert.base.clue(of.clue);
        let classes = |saw: &[&str]| Appearance::of(&piece(saw), &prices).classes[at].clone();
        let certain = |finding| {
            let held = of.classes.iter().map(|c| c.findings.contains(&finding));
            held.map(|h| f64::from(u8::from(h))).collect::<Vec<_>>()
        };
        assert_eq!(classes(&[]), certain(usual), "{}", of.name);
        let untold = Observation::new(of.clue, Observed::CantTell);
        let untold = Appearance::of(&piece(&[]).with(untold), &prices);
        assert_eq!(untold.classes[at], certain(usual), "{}", of.name);
        for finding in of.classes.iter().flat_map(|c| &c.findings) {
            let said = format!("{}={}", clue.id, clue.findings[usize::from(finding.0)].id);
            assert_eq!(classes(&[&said]), certain(*finding), "{said}");
            tried += 1;
        }
    }
    assert!(tried > 2);
}
