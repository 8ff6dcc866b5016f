//! The advice on a piece on the shelf: buy, offer less, leave, or look again.

use super::appearance::{Appearance, Outset};
use super::condition;
use super::deciding_look;
use super::money::Money;
use super::price_model::PriceModel;
use super::terms::Terms;
use crate::core::grid::{ClueId, FindingId};
use crate::core::model::Station;
use crate::core::observation::Observed;
use crate::piece::Piece;
use crate::rulebase::prices::PriceGuesses;

/// An offer below this share of the asking price is not worth making (common practice, no source).
const LEAST_OFFER: f64 = 0.5;

/// Shares of sales below the low and the high price that are named: 8 in 10 lie between (common
/// practice, no source).
const RANGE: (f64, f64) = (0.1, 0.9);

/// Years after which a piece is called antique (common practice, no source).
const ANTIQUE: f64 = 100.0;

/// What to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Advice {
    Buy,
    /// Offer up to the most to pay.
    Offer,
    Leave,
    LookAgain,
}

/// One channel in figures.
#[derive(Clone, Debug, PartialEq)]
pub struct ChannelOutlook {
    pub id: String,
    pub name: String,
    /// Half the sales are below; in 8 of 10 cases between `low` and `high`.
    pub typical: Money,
    pub low: Money,
    pub high: Money,
    /// What is left on average when everything is paid, the piece too.
    pub expected_net: Money,
    /// Chance that something is lost, 0 to 1.
    pub loss_chance: f64,
    /// The most to pay for the target margin; never negative.
    pub most_to_pay: Money,
    pub weeks_to_sell: f64,
}

/// A look that is worth its time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorthLook {
    pub clue: ClueId,
    pub seconds: f64,
    pub worth: Money,
    pub cost: Money,
}

/// A defect the price allows for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowed {
    /// Index into the guesses' defects.
    pub defect: usize,
    /// What it takes the price to, of a sound piece's.
    pub factor: f64,
}

/// The advice and the most to pay: all that is wanted of many pieces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gist {
    pub advice: Advice,
    pub asking: Money,
    /// In the best channel; never negative.
    pub most_to_pay: Money,
    /// False when the piece is not worth carrying home for nothing.
    pub worth_having: bool,
    /// The channel in which most can be paid.
    pub best: usize,
    pub look: Option<WorthLook>,
}

/// The advice with all it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfAnswer {
    pub gist: Gist,
    pub channels: Vec<ChannelOutlook>,
    /// Own sales the prices rest on.
    pub own_sales: usize,
    /// How much of what is known of this price they are, 0 to 1.
    pub own_share: f64,
    /// Sales that could not be used.
    pub left_out: usize,
    /// False when the guesses were taken one for one into another currency.
    pub rate_known: bool,
    /// Chance that it is over a hundred years old.
    pub over_hundred: f64,
    /// Defects that were seen.
    pub defects: Vec<Allowed>,
    /// True when nothing was said of chips and cracks.
    pub condition_unseen: bool,
}

impl ShelfAnswer {
    /// The channel in which most can be paid.
    pub fn best_channel(&self) -> &ChannelOutlook {
        &self.channels[self.gist.best]
    }
}

/// What a piece's price depends on, and the advice on it.
fn advise(
    piece: &Piece,
    guesses: &PriceGuesses,
    terms: &Terms,
    model: &PriceModel,
    asking: Money,
) -> Option<(Appearance, Gist)> {
    let outset = Outset::of(piece, guesses);
    let appearance = outset.appearance(guesses, piece.evidence());
    let price = asking.major();
    let (best, most) = deciding_look::best_channel(&appearance, terms, model)?;
    let look = deciding_look::best(piece, guesses, terms, model, &outset, price);
    let most_to_pay = Money::at_most(most.max(0.0), terms.currency);
    let advice = match look {
        Some(_) => Advice::LookAgain,
        None if most < 0.0 => Advice::Leave,
        None if asking.minor <= most_to_pay.minor => Advice::Buy,
        None if most >= LEAST_OFFER * price && most_to_pay.minor > 0 => Advice::Offer,
        None => Advice::Leave,
    };
    let gist = Gist {
        advice,
        asking,
        most_to_pay,
        worth_having: most >= 0.0,
        best,
        look: look.map(|l| WorthLook {
            clue: l.clue,
            seconds: l.seconds,
            worth: Money::nearest(l.worth, terms.currency),
            cost: Money::nearest(l.cost, terms.currency),
        }),
    };
    Some((appearance, gist))
}

/// What `shelf` says in the end: for many pieces, of which nobody asks for the rest. `None` when
/// the terms name no channel.
pub fn gist(
    piece: &Piece,
    guesses: &PriceGuesses,
    terms: &Terms,
    model: &PriceModel,
    asking: Money,
) -> Option<Gist> {
    advise(piece, guesses, terms, model, asking).map(|(_, gist)| gist)
}

/// Weighs a piece against what is asked for it, in the currency of the terms. `None` when the
/// terms name no channel.
pub fn shelf(
    piece: &Piece,
    guesses: &PriceGuesses,
    terms: &Terms,
    model: &PriceModel,
    asking: Money,
) -> Option<ShelfAnswer> {
    let (appearance, gist) = advise(piece, guesses, terms, model, asking)?;
    let price = asking.major();
    let money = |major: f64| Money::nearest(major, terms.currency);
    let channels = terms.channels.iter().enumerate().map(|(i, channel)| {
        let outlook = model.outlook(&appearance, i);
        let most = outlook.most_to_pay(channel);
        ChannelOutlook {
            id: channel.id.clone(),
            name: channel.name.clone(),
            typical: money(outlook.price_quantile(0.5)),
            low: money(outlook.price_quantile(RANGE.0)),
            high: money(outlook.price_quantile(RANGE.1)),
            expected_net: money(outlook.net_before_paying(channel) - price),
            loss_chance: outlook.loss_chance(channel, price),
            most_to_pay: Money::at_most(most.max(0.0), terms.currency),
            weeks_to_sell: outlook.weeks(),
        }
    });
    Some(ShelfAnswer {
        gist,
        channels: channels.collect(),
        own_sales: model.own_sales,
        own_share: model.own_share(&appearance, gist.best),
        left_out: model.left_out,
        rate_known: terms.rate_known,
        over_hundred: appearance.older_than(ANTIQUE),
        defects: seen_defects(piece, guesses, model),
        condition_unseen: condition_unseen(piece, guesses),
    })
}

/// Defects of which a finding was told that speaks for them.
fn seen_defects(piece: &Piece, guesses: &PriceGuesses, model: &PriceModel) -> Vec<Allowed> {
    let shown = |seen: &[(ClueId, FindingId)]| {
        seen.iter().any(|(clue, finding)| {
            let of = piece.evidence().of(*clue);
            of.is_some_and(|o| o.seen == Observed::Finding(*finding))
        })
    };
    let defects = guesses.defects.iter().enumerate();
    defects
        .filter(|(_, d)| shown(&d.seen))
        .map(|(defect, _)| Allowed {
            defect,
            factor: model.defect_factor(defect),
        })
        .collect()
}

/// True when no yes-or-no clue of the condition station was answered.
fn condition_unseen(piece: &Piece, guesses: &PriceGuesses) -> bool {
    let model = &piece.expert().engine().model;
    let of_station = |clue: &ClueId| model.clue(*clue).station == Station::Condition;
    let mut clues = condition::clues(guesses).into_iter().filter(of_station);
    !clues.any(|clue| piece.evidence().of(clue).is_some())
}
