//! Seasons of 200 invented pieces each, one a day. The market they sell in is drawn anew for each seed, and the
//! starting guesses do not share it: every factor is off by a random amount, the level falls during the season,
//! two forms sell otherwise than factors can say, and single prices go astray.
//!
//! Every buyer meets the same pieces at the same prices, pays what is asked or leaves them, and has the money of a
//! sale, and the knowledge of it, only when the piece has waited as long as it does. All stock is sold in the end.

use printseam::internals::buy::appearance::{Appearance, Part};
use printseam::internals::buy::{Currency, Money, PriceModel, Sale, Terms};
use printseam::internals::registry::calendar::Date;
use printseam::internals::rulebase::prices::PriceGuesses;

use crate::random_model::Random;
use crate::shipped::expert;

/// The first twenty numbers: none was left out because of how it came out.
const SEEDS: std::ops::RangeInclusive<u64> = 1..=20;

const PIECES: usize = 200;

/// Pieces after which the interval must hold.
const LEARNED: usize = 50;

/// What somebody could pay at most for whatever it is, in dollars.
const CAPS: [f64; 5] = [4.0, 6.0, 8.0, 12.0, 16.0];

/// What a dealer begins with, in dollars: about a seventh of what all 200 pieces cost.
const PURSE: f64 = 100.0;

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
    let first = Date::first_of(2026);
    Date::from_days(first.days() + n as i32).unwrap()
}

/// A piece that comes by.
struct Offered {
    piece: Invented,
    /// Price and weeks to sell, by channel.
    fetches: Vec<(f64, f64)>,
    asking: f64,
}

fn season(seed: u64, guesses: &PriceGuesses) -> Vec<Offered> {
    let mut r = Random(seed);
    let market = Market::drawn(guesses, &mut r);
    let mut offered = |n: usize| {
        let piece = invented(guesses, &mut r);
        let fetches = market.fetches(&piece, n, &mut r);
        // The seller knows something of what it is, and wants between a sixth and the whole of it.
        let knows = fetches[0].0 * (0.5 * normal(&mut r)).exp();
        let asking = (knows.sqrt() * 8.0_f64.sqrt() * (0.15 + 0.85 * r.unit())).max(0.5);
        Offered {
            piece,
            fetches,
            asking,
        }
    };
    (0..PIECES).map(&mut offered).collect()
}

/// Whoever buys.
#[derive(Clone, Copy)]
enum Buyer {
    /// By the most to pay, which own sales move.
    Taught,
    /// By the starting guesses alone, for ever.
    Untaught,
    Everything,
    Cap(f64),
}

/// A piece that was bought.
struct Bought {
    sale: Sale,
    /// The day it sells, and what is left of the price then.
    on: usize,
    net: f64,
}

/// What it came to.
#[derive(Clone, Copy, Debug, Default)]
struct Outcome {
    profit: f64,
    bought: usize,
    spent: f64,
}

struct Trade<'g> {
    guesses: &'g PriceGuesses,
    terms: Terms,
    /// What there is to spend at the beginning.
    purse: f64,
}

impl Trade<'_> {
    /// The channel in which most can be paid, and how much.
    fn most_to_pay(&self, model: &PriceModel, piece: &Appearance) -> (usize, f64) {
        let most = |i: usize| model.outlook(piece, i).most_to_pay(&self.terms.channels[i]);
        let (stall, online) = (most(0), most(1));
        if online > stall {
            (1, online)
        } else {
            (0, stall)
        }
    }

    fn sale(&self, offered: &Offered, channel: usize, listed: usize, on: usize) -> Sale {
        let minor = (offered.fetches[channel].0 * 100.0).round() as i64;
        let price = Money {
            minor,
            currency: Currency::DOLLAR,
        };
        Sale {
            appearance: offered.piece.appearance.clone(),
            channel: self.terms.channels[channel].id.clone(),
            listed: day(listed),
            sold: Some((day(on), price)),
        }
    }

    fn run(&self, season: &[Offered], buyer: Buyer) -> Outcome {
        let untaught = PriceModel::new(self.guesses, &self.terms, &[], day(0));
        let mut out = Outcome::default();
        let mut bought: Vec<Bought> = Vec::new();
        for (n, offered) in season.iter().enumerate() {
            let appearance = &offered.piece.appearance;
            let guessed = || self.most_to_pay(&untaught, appearance);
            let (channel, most) = match buyer {
                Buyer::Taught => {
                    let known = bought.iter().map(|b| Sale {
                        sold: b.sale.sold.filter(|_| b.on <= n),
                        ..b.sale.clone()
                    });
                    let known: Vec<Sale> = known.collect();
                    let model = PriceModel::new(self.guesses, &self.terms, &known, day(n));
                    self.most_to_pay(&model, appearance)
                }
                Buyer::Untaught => guessed(),
                Buyer::Everything => (guessed().0, f64::INFINITY),
                Buyer::Cap(cap) => (guessed().0, cap),
            };
            let back: f64 = bought.iter().filter(|b| b.on <= n).map(|b| b.net).sum();
            if offered.asking > most.min(self.purse - out.spent + back) {
                continue;
            }
            let (price, weeks) = offered.fetches[channel];
            let c = &self.terms.channels[channel];
            let costs = c.fee + c.postage + c.packing + c.rent * weeks;
            let on = n + (weeks * 7.0).ceil() as usize;
            out.spent += offered.asking;
            bought.push(Bought {
                sale: self.sale(offered, channel, n, on),
                on,
                net: price * (1.0 - c.commission) - costs,
            });
        }
        out.bought = bought.len();
        out.profit = bought.iter().map(|b| b.net).sum::<f64>() - out.spent;
        out
    }

    /// Prices after the first fifty within the interval said beforehand, when all 200 are sold and known at once,
    /// at the two places in turn.
    fn held(&self, season: &[Offered]) -> f64 {
        let mut known = Vec::new();
        let mut held = 0;
        for (n, offered) in season.iter().enumerate() {
            let at = n % 2;
            if n >= LEARNED {
                let model = PriceModel::new(self.guesses, &self.terms, &known, day(n));
                let outlook = model.outlook(&offered.piece.appearance, at);
                let under = outlook.price_cdf(offered.fetches[at].0);
                held += usize::from((0.1..=0.9).contains(&under));
            }
            known.push(self.sale(offered, at, n, n));
        }
        held as f64 / (season.len() - LEARNED) as f64
    }
}

/// Each season's outcome, two at a time.
fn each<T: Send>(seasons: &[Vec<Offered>], of: impl Fn(&[Offered]) -> T + Sync) -> Vec<T> {
    let (first, second) = seasons.split_at(seasons.len() / 2);
    let all = |half: &[Vec<Offered>]| half.iter().map(|s| of(s)).collect::<Vec<T>>();
    std::thread::scope(|scope| {
        let beside = scope.spawn(|| all(second));
        let mut out = all(first);
        out.extend(beside.join().unwrap());
        out
    })
}

fn mean(of: &[Outcome], what: impl Fn(&Outcome) -> f64) -> f64 {
    of.iter().map(what).sum::<f64>() / of.len() as f64
}

/// Seasons in which one earned more than the other.
fn won(one: &[Outcome], other: &[Outcome]) -> usize {
    let both = one.iter().zip(other);
    both.filter(|(a, b)| a.profit > b.profit).count()
}

/// One way of trading: how all buyers fared.
struct Fared {
    taught: Vec<Outcome>,
    untaught: Vec<Outcome>,
    everything: Vec<Outcome>,
    caps: Vec<Vec<Outcome>>,
}

fn fared(seasons: &[Vec<Offered>], trade: &Trade) -> Fared {
    let of = |buyer| each(seasons, |s| trade.run(s, buyer));
    Fared {
        taught: of(Buyer::Taught),
        untaught: of(Buyer::Untaught),
        everything: of(Buyer::Everything),
        caps: CAPS.iter().map(|cap| of(Buyer::Cap(*cap))).collect(),
    }
}

impl Fared {
    fn told(&self, what: &str) -> String {
        let one = |name: &str, of: &[Outcome]| {
            format!(
                "{name}: profit {:.0}, bought {:.0} for {:.0}, we earned more in {}\n",
                mean(of, |o| o.profit),
                mean(of, |o| o.bought as f64),
                mean(of, |o| o.spent),
                won(&self.taught, of),
            )
        };
        let mut out = format!("{what}, means of {} seasons\n", self.taught.len());
        out += &one("taught by own sales", &self.taught);
        out += &one("guesses alone", &self.untaught);
        out += &one("everything", &self.everything);
        for (cap, of) in CAPS.iter().zip(&self.caps) {
            out += &one(&format!("cap of {cap}"), of);
        }
        let pairs = self.taught.iter().zip(&self.everything);
        let pairs = pairs.map(|(a, b)| format!("{:.0}/{:.0}", a.profit, b.profit));
        out + "ours/everything: " + &pairs.collect::<Vec<_>>().join(" ") + "\n"
    }
}

/// Everybody begins with the same purse, as dealers do: without one, whoever buys everything lays out more than
/// twice as much, and nothing is said of that. The wished margin pays for the work on each piece, which nobody here
/// counts, and is left out. What was measured on 26 November 2026 stands in `docs/prices.md`, also without a purse
/// and with the usual margin. In markets dearer than the guesses buying everything earns more: whoever leaves a
/// piece never learns what it would have brought.
#[test]
fn seasons_pay_and_their_intervals_hold() {
    let expert = expert();
    let guesses = expert.base.prices.as_ref().unwrap();
    let seasons: Vec<Vec<Offered>> = SEEDS.map(|seed| season(seed, guesses)).collect();
    let mut terms = Terms::usual(guesses, None);
    terms.channels.iter_mut().for_each(|c| c.margin = 0.0);
    let trade = Trade {
        guesses,
        terms,
        purse: PURSE,
    };
    let held = each(&seasons, |s| trade.held(s));
    let fared = fared(&seasons, &trade);
    let told = format!("held {held:.2?}\n{}", fared.told("purse of 100, no margin"));
    println!("{told}");
    let all_held = held.iter().sum::<f64>() / held.len() as f64;
    assert!((0.75..=0.85).contains(&all_held), "{told}");
    // Three standard errors of 150 prices to either side of 80 %.
    assert!(held.iter().all(|h| (0.70..=0.90).contains(h)), "{told}");
    let profit = |of: &[Outcome]| mean(of, |o| o.profit);
    let ours = profit(&fared.taught);
    assert!(ours > 1.25 * profit(&fared.everything), "{told}");
    assert!(ours > 1.05 * profit(&fared.untaught), "{told}");
    // Of 20; two in three.
    assert!(won(&fared.taught, &fared.everything) >= 13, "{told}");
    for cap in &fared.caps {
        assert!(
            ours > profit(cap) && won(&fared.taught, cap) >= 18,
            "{told}"
        );
    }
}
