//! Seasons of 200 invented pieces each. The market they sell in is drawn anew for each seed, and the
//! starting guesses do not share it: every factor is off by a random amount, the level falls during the season,
//! two forms sell otherwise than factors can say, and single prices go astray.

use printseam::internals::buy::appearance::{Appearance, Part};
use printseam::internals::buy::{Currency, Money, PriceModel, Sale, Terms};
use printseam::internals::registry::calendar::Date;
use printseam::internals::rulebase::prices::PriceGuesses;

use crate::random_model::Random;
use crate::shipped::expert;

const SEEDS: std::ops::RangeInclusive<u64> = 1..=9;

const PIECES: usize = 200;

/// Pieces after which the interval must hold.
const LEARNED: usize = 50;

/// What the same sellers' caps could be, in dollars.
const CAPS: [f64; 4] = [4.0, 6.0, 8.0, 12.0];

fn normal(r: &mut Random) -> f64 {
    let (a, b) = (r.unit().max(1e-300), r.unit());
    (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
}

/// The market as it is: logarithms of factors.
struct Market {
    level: f64,
    channels: Vec<f64>,
    groups: Vec<f64>,
    /// At each age of the guesses.
    ages: Vec<(f64, f64)>,
    classes: Vec<Vec<f64>>,
    defects: Vec<f64>,
    scatter: f64,
    weeks: Vec<f64>,
}

impl Market {
    fn drawn(guesses: &PriceGuesses, r: &mut Random) -> Market {
        let mut off = |factor: f64, by: f64| factor.ln() + by * normal(r);
        Market {
            level: off(guesses.start, 0.4),
            channels: guesses
                .channels
                .iter()
                .map(|c| off(c.factor.factor, 0.2))
                .collect(),
            groups: guesses.groups.iter().map(|g| off(g.factor, 0.4)).collect(),
            ages: guesses
                .ages
                .iter()
                .map(|a| (a.years, off(a.factor, 0.3)))
                .collect(),
            classes: guesses
                .traits
                .iter()
                .map(|t| {
                    t.classes
                        .iter()
                        .map(|c| off(c.factor.factor, 0.3))
                        .collect()
                })
                .collect(),
            defects: guesses
                .defects
                .iter()
                .map(|d| off(d.factor.factor, 0.2))
                .collect(),
            scatter: off(1.0, 0.15).exp() * 0.4,
            weeks: vec![off(14.0, 0.3).exp(), off(9.0, 0.3).exp()],
        }
    }

    fn age(&self, years: f64) -> f64 {
        let after = self.ages.iter().position(|(y, _)| *y > years);
        match after {
            Some(0) => self.ages[0].1,
            None => self.ages[self.ages.len() - 1].1,
            Some(i) => {
                let ((a, low), (b, high)) = (self.ages[i - 1], self.ages[i]);
                low + (high - low) * (years - a) / (b - a)
            }
        }
    }

    /// What the piece would fetch in each channel, and after how many weeks.
    fn fetches(&self, piece: &Invented, day: usize, r: &mut Random) -> Vec<(f64, f64)> {
        let mut log = self.level - 0.15 * day as f64 / PIECES as f64;
        log += self.groups[piece.truth.0] + self.age(piece.truth.1);
        for (all, class) in self.classes.iter().zip(&piece.classes) {
            log += class.map_or(0.0, |c| all[c]);
        }
        for (factor, there) in self.defects.iter().zip(&piece.defects) {
            log += if *there { *factor } else { 0.0 };
        }
        let astray = if r.unit() < 0.1 { 2.0 } else { 1.0 };
        let noise = self.scatter * astray * normal(r);
        let mut of_channel = |(i, channel): (usize, &f64)| {
            // Cups go begging online, toys are fought over there: no factor of ours says so.
            let form = piece.classes[0];
            let alone = match (i, form) {
                (1, Some(5)) => -0.4,
                (1, Some(7)) => 0.3,
                _ => 0.0,
            };
            let weeks = -self.weeks[i] * r.unit().max(1e-12).ln();
            ((log + channel + alone + noise).exp(), weeks)
        };
        self.channels
            .iter()
            .enumerate()
            .map(&mut of_channel)
            .collect()
    }
}

/// A piece as it is, and as it looks.
struct Invented {
    /// Group and age.
    truth: (usize, f64),
    classes: Vec<Option<usize>>,
    defects: Vec<bool>,
    appearance: Appearance,
}

fn invented(guesses: &PriceGuesses, r: &mut Random) -> Invented {
    let groups = guesses.groups.len();
    let mut candidate = |sure: f64| Part {
        share: sure,
        group: Some(r.below(groups)),
        years: 10.0 + 200.0 * r.unit() * r.unit().sqrt(),
    };
    // The likeliest of three guesses is right as often as it says.
    let parts = vec![candidate(0.7), candidate(0.2), candidate(0.1)];
    let which = match r.unit() {
        u if u < 0.7 => 0,
        u if u < 0.9 => 1,
        _ => 2,
    };
    let form = r.below(guesses.traits[0].classes.len());
    let mut classes = vec![Some(form)];
    for priced in &guesses.traits[1..] {
        let stands_out = r.unit() < 0.1;
        classes.push(stands_out.then(|| r.below(priced.classes.len())));
    }
    let defects: Vec<bool> = guesses.defects.iter().map(|_| r.unit() < 0.1).collect();
    let one_hot = |(priced, class): (&_, &Option<usize>)| {
        let priced: &printseam::internals::rulebase::prices::PricedClue = priced;
        let mut all = vec![0.0; priced.classes.len()];
        if let Some(class) = class {
            all[*class] = 1.0;
        }
        all
    };
    Invented {
        truth: (parts[which].group.unwrap(), parts[which].years),
        appearance: Appearance {
            classes: guesses.traits.iter().zip(&classes).map(one_hot).collect(),
            defects: defects.iter().map(|d| f64::from(u8::from(*d))).collect(),
            parts,
        },
        classes,
        defects,
    }
}

/// The day a piece of the season comes by, and later days.
fn day(n: usize) -> Date {
    let n = n.min(364);
    Date::new(2026, 1 + (n / 31) as u8, 1 + (n % 31).min(27) as u8).unwrap()
}

#[derive(Debug, Default)]
struct Season {
    /// Of the program, of buying everything, and of each cap.
    profit: f64,
    all: f64,
    caps: [f64; 4],
    bought: usize,
    /// Prices after the first fifty, and those within the interval said beforehand.
    prices: usize,
    held: usize,
}

fn season(seed: u64) -> Season {
    let expert = expert();
    let guesses = expert.base.prices.as_ref().unwrap();
    // Whoever compares profits wants every piece that leaves one: a margin that has to be left beside
    // it is for those whose money or room is short, and here neither is.
    let mut terms = Terms::usual(guesses, None);
    terms.channels.iter_mut().for_each(|c| c.margin = 0.0);
    let mut r = Random(seed);
    let market = Market::drawn(guesses, &mut r);
    let untaught = PriceModel::new(guesses, &terms, &[], day(0));
    let (mut out, mut own, mut every) = (Season::default(), Vec::new(), Vec::new());
    for n in 0..PIECES {
        let piece = invented(guesses, &mut r);
        let fetches = market.fetches(&piece, n, &mut r);
        // The seller knows something of what it is, and wants between a sixth and the whole of it.
        let knows = fetches[0].0 * (0.5 * normal(&mut r)).exp();
        let asking = (knows.sqrt() * 8.0_f64.sqrt() * (0.15 + 0.85 * r.unit())).max(0.5);
        let net = |channel: usize| {
            let (price, weeks) = fetches[channel];
            let c = &terms.channels[channel];
            let costs = c.fee + c.postage + c.packing + c.rent * weeks;
            price * (1.0 - c.commission) - costs - asking
        };
        let best = |model: &PriceModel| {
            let most = |i: usize| {
                model
                    .outlook(&piece.appearance, i)
                    .most_to_pay(&terms.channels[i])
            };
            if most(1) > most(0) {
                (1, most(1))
            } else {
                (0, most(0))
            }
        };
        let sold = |channel: usize| {
            let minor = (fetches[channel].0 * 100.0).round() as i64;
            Sale {
                appearance: piece.appearance.clone(),
                channel: terms.channels[channel].id.clone(),
                listed: day(n),
                sold: Some((
                    day(n),
                    Money {
                        minor,
                        currency: Currency::DOLLAR,
                    },
                )),
            }
        };
        // Bought or not, by what was sold before.
        let model = PriceModel::new(guesses, &terms, &own, day(n));
        let (channel, most) = best(&model);
        if asking <= most {
            out.profit += net(channel);
            out.bought += 1;
            own.push(sold(channel));
        }
        let (usual, _) = best(&untaught);
        out.all += net(usual);
        for (sum, cap) in out.caps.iter_mut().zip(CAPS) {
            *sum += if asking <= cap { net(usual) } else { 0.0 };
        }
        // The interval, when all 200 are sold and learned from, at the two places in turn.
        let at = n % 2;
        if n >= LEARNED {
            let model = PriceModel::new(guesses, &terms, &every, day(n));
            let outlook = model.outlook(&piece.appearance, at);
            let under = outlook.price_cdf(fetches[at].0);
            out.prices += 1;
            out.held += usize::from((0.1..=0.9).contains(&under));
        }
        every.push(sold(at));
    }
    out
}

/// Nine markets, seeds 1 to 9, chosen before any was run. One season may be lucky or not, so that they are counted
/// together: in seed 1, where everything sells dearer than the guesses, buying everything earned more.
#[test]
fn seasons_pay_and_their_intervals_hold() {
    let all: Vec<Season> = SEEDS.map(season).collect();
    let told: Vec<String> = all
        .iter()
        .map(|s| {
            let held = 100.0 * s.held as f64 / s.prices as f64;
            format!(
                "profit {:.0}, everything {:.0}, caps {:.0?}, bought {}, held {held:.0} %",
                s.profit, s.all, s.caps, s.bought
            )
        })
        .collect();
    let told = told.join("\n");
    println!("{told}");
    let (prices, held) = all
        .iter()
        .fold((0, 0), |(p, h), s| (p + s.prices, h + s.held));
    let held = held as f64 / prices as f64;
    assert!((0.75..=0.85).contains(&held), "{held}\n{told}");
    for s in &all {
        // Three standard errors of 150 prices to either side of 80 %.
        let held = s.held as f64 / s.prices as f64;
        assert!((0.70..=0.90).contains(&held), "{held}\n{told}");
        assert!(s.bought > 20, "{told}");
    }
    let sum = |of: &dyn Fn(&Season) -> f64| all.iter().map(of).sum::<f64>();
    let profit = sum(&|s| s.profit);
    assert!(profit > 1.25 * sum(&|s| s.all), "{told}");
    for cap in 0..CAPS.len() {
        assert!(profit > sum(&|s| s.caps[cap]), "{told}");
    }
    // Of the seasons one by one most, and in the caps' case against the best of them in hindsight.
    let best_cap = |s: &Season| s.caps.iter().copied().fold(f64::MIN, f64::max);
    let wins = |other: &dyn Fn(&Season) -> f64| all.iter().filter(|s| s.profit > other(s)).count();
    assert!(wins(&|s| s.all) >= 7, "{told}");
    assert!(wins(&best_cap) >= 7, "{told}");
}
