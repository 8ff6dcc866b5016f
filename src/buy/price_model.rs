//! Starting guesses and own sales together.

use super::appearance::Appearance;
use super::design::Design;
use super::mean_exp::MeanExp;
use super::money::{Currency, Money};
use super::outlook::Outlook;
use super::regression::{Belief, Row};
use super::sale::Sale;
use super::student_t;
use super::terms::{Terms, rate};
use super::waiting::Wait;
use crate::registry::calendar::Date;
use crate::rulebase::prices::{PriceGuesses, PricedClue};

/// Mean weeks to sell of a form of which no guess says anything (common practice, no source).
const UNSAID_WEEKS: f64 = 12.0;

/// Days of a week.
const WEEK: f64 = 7.0;

/// Points at which the distribution of a price is added up: the middles of equal shares. The log
/// price is Student's t, and the mean of its exponential is infinite; the mean of these points, which
/// leaves out what lies beyond the dearest half of a per cent, is what "expected" means here (common
/// practice, no source).
const POINTS: usize = 100;

/// What is believed of prices and waits.
#[derive(Clone, Debug)]
pub struct PriceModel {
    design: Design,
    guessed: Belief,
    belief: Belief,
    /// By channel of the terms, then class of form; the last is for forms of no class.
    waits: Vec<Vec<Wait>>,
    /// Which priced clue says how long a piece waits.
    form: Option<usize>,
    /// Over standard t at the points.
    mean_exp: MeanExp,
    /// Sales that count.
    pub own_sales: usize,
    /// Sales left out: in a currency of unknown rate, or for nothing.
    pub left_out: usize,
}

impl PriceModel {
    /// The guesses, overruled by sales as far as these go. A sale counts half for each half-life it
    /// is old; unsold pieces tell only how long pieces wait. Of a piece that may be one thing or another
    /// the price scatters by that as well: its row is as much less precise, by what the guesses
    /// make of the difference.
    pub fn new(guesses: &PriceGuesses, terms: &Terms, sales: &[Sale], today: Date) -> PriceModel {
        let design = Design::new(guesses, terms);
        let guess = design.guess(guesses, terms);
        let form = guesses.traits.iter().position(has_weeks);
        let mut waits = first_waits(guesses, terms, form);
        let mut rows = Vec::new();
        let mut left_out = 0;
        for sale in sales {
            let channel = terms.channels.iter().position(|c| c.id == sale.channel);
            let until = sale.sold.map_or(today, |(day, _)| day);
            let age = days(until, today);
            let weight = 0.5_f64.powf(age / guesses.half_life);
            if let Some(channel) = channel {
                let weeks = days(sale.listed, until) / WEEK;
                for (wait, share) in waits[channel]
                    .iter_mut()
                    .zip(form_shares(form, &sale.appearance))
                {
                    *wait = wait.after(weeks, sale.sold.is_some(), weight * share);
                }
            }
            let Some((_, price)) = sale.sold else {
                continue;
            };
            match in_terms(guesses, terms, price).filter(|p| *p > 0.0) {
                Some(price) => {
                    let x = design.expected(&sale.appearance, channel);
                    let doubt = design.doubt(&sale.appearance, &guess.mean);
                    let precision = 1.0 / (1.0 + doubt / guesses.spread.ln().powi(2));
                    rows.push(Row::precise(x, price.ln(), weight, precision));
                }
                None => left_out += 1,
            }
        }
        let belief = guess.after(&rows);
        let freedom = 2.0 * belief.shape;
        let middle = |i: usize| (i as f64 + 0.5) / POINTS as f64;
        PriceModel {
            guessed: guess.after(&[]),
            mean_exp: MeanExp::new(
                (0..POINTS)
                    .map(|i| student_t::quantile(middle(i), freedom))
                    .collect(),
            ),
            design,
            belief,
            waits,
            form,
            own_sales: rows.len(),
            left_out,
        }
    }

    /// What a piece may fetch in a channel, and how long it may wait.
    pub fn outlook(&self, piece: &Appearance, channel: usize) -> Outlook<'_> {
        let shared = self.design.shared(piece, Some(channel));
        let over = self.belief.spread_over(&shared);
        let mean = |x: &[f64]| -> f64 { x.iter().zip(&self.belief.mean).map(|(x, m)| x * m).sum() };
        let (base, spread) = (mean(&shared), dot(&over, &shared));
        let prices = piece.parts.iter().map(|part| {
            let own = self.design.part(part);
            let mut location = base;
            let mut leverage = spread;
            for (i, x) in &own {
                location += x * self.belief.mean[*i];
                leverage += 2.0 * x * over[*i];
                let with = own.iter().map(|(j, y)| y * self.belief.covariance(*i, *j));
                leverage += x * with.sum::<f64>();
            }
            (part.share, self.belief.predicted(location, leverage))
        });
        let waits = self.waits[channel].iter().copied();
        Outlook {
            prices: prices.collect(),
            waits: form_shares(self.form, piece)
                .into_iter()
                .zip(waits)
                .filter(|(share, _)| *share > 0.0)
                .collect(),
            mean_exp: &self.mean_exp,
        }
    }

    /// What a defect takes the price to, as a share of a sound piece's.
    pub fn defect_factor(&self, defect: usize) -> f64 {
        self.belief.mean[self.design.defect(defect)].exp()
    }

    /// How much of what is known of such a price comes from own sales, 0 to 1: the share of the
    /// guess's own uncertainty about it that they took away.
    pub fn own_share(&self, piece: &Appearance, channel: usize) -> f64 {
        let x = self.design.expected(piece, Some(channel));
        let (now, before) = (self.belief.leverage(&x), self.guessed.leverage(&x));
        (1.0 - now / before).max(0.0)
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// Days from one day to another, never fewer than none.
fn days(from: Date, to: Date) -> f64 {
    f64::from((to.days() - from.days()).max(0))
}

fn has_weeks(priced: &PricedClue) -> bool {
    let said = |weeks: &Vec<Option<f64>>| weeks.iter().any(Option::is_some);
    priced.classes.iter().any(|c| said(&c.weeks))
}

/// Chance of each class of form, and last of none of them.
fn form_shares(form: Option<usize>, piece: &Appearance) -> Vec<f64> {
    let mut shares = form.map_or(Vec::new(), |form| piece.classes[form].clone());
    let rest = 1.0 - shares.iter().sum::<f64>();
    // Less is what adding up the others lost.
    shares.push(if rest > 1e-9 { rest } else { 0.0 });
    shares
}

fn first_waits(guesses: &PriceGuesses, terms: &Terms, form: Option<usize>) -> Vec<Vec<Wait>> {
    let classes = form.map_or(&[][..], |form| &guesses.traits[form].classes);
    let of_channel = |like: usize| {
        let said: Vec<Option<f64>> = classes.iter().map(|c| c.weeks[like]).collect();
        let known: Vec<f64> = said.iter().flatten().copied().collect();
        let usual = match known.len() {
            0 => UNSAID_WEEKS,
            n => known.iter().sum::<f64>() / n as f64,
        };
        let means = said.into_iter().map(|w| w.unwrap_or(usual)).chain([usual]);
        means
            .map(|mean| Wait::guess(mean, guesses.waiting_worth))
            .collect()
    };
    terms.channels.iter().map(|c| of_channel(c.like)).collect()
}

/// A price in major units of the terms' currency; `None` where no rate is known.
fn in_terms(guesses: &PriceGuesses, terms: &Terms, price: Money) -> Option<f64> {
    if price.currency == terms.currency {
        return Some(price.major());
    }
    let from = rate(guesses, price.currency)?;
    let own = Currency::new(&guesses.currency) == Some(terms.currency);
    (terms.rate_known || own).then(|| price.major() / from * terms.rate)
}
