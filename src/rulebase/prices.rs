//! Starting guesses of prices, checked: what `market.ron` says, everything resolved.

use super::ids::{ClueId, FindingId, SourceId};

/// A multiplier of the price, and where it comes from. 1 changes nothing.
#[derive(Clone, Debug)]
pub struct PriceFactor {
    pub id: String,
    pub name: String,
    pub factor: f64,
    pub because: String,
    pub sources: Vec<SourceId>,
}

/// How a piece of some age sells, beside one of the age all is measured by.
#[derive(Clone, Debug)]
pub struct AgeFactor {
    /// Years since it was made.
    pub years: f64,
    pub factor: f64,
    pub because: String,
    pub sources: Vec<SourceId>,
}

/// Findings of one clue that sell alike.
#[derive(Clone, Debug)]
pub struct TraitClass {
    pub factor: PriceFactor,
    pub findings: Vec<FindingId>,
    /// Mean weeks to sell by channel, in the order of the channels; `None` where nothing is said.
    pub weeks: Vec<Option<f64>>,
}

/// A clue whose findings change the price by themselves.
#[derive(Clone, Debug)]
pub struct PricedClue {
    pub clue: ClueId,
    pub name: String,
    /// What is so when nobody says: whatever stands out would have been told.
    pub unsaid: Option<FindingId>,
    pub classes: Vec<TraitClass>,
}

/// Something that has happened to a piece.
#[derive(Clone, Debug)]
pub struct Defect {
    pub factor: PriceFactor,
    /// Findings that show it; the first is what the defect's name alone stands for.
    pub seen: Vec<(ClueId, FindingId)>,
}

/// A sort of place where pieces are sold. Amounts in the guesses' currency.
#[derive(Clone, Debug)]
pub struct ChannelGuess {
    pub factor: PriceFactor,
    /// Share of the selling price that the place keeps, 0 to 1.
    pub commission: f64,
    pub fee: f64,
    /// Postage that the seller pays.
    pub postage: f64,
    pub packing: f64,
    /// A week, of the room that one piece takes.
    pub rent: f64,
    /// Share of the selling price that must be left when all is paid.
    pub margin: f64,
}

/// The guesses a price starts from.
#[derive(Clone, Debug)]
pub struct PriceGuesses {
    /// ISO 4217 code of all amounts.
    pub currency: String,
    /// Price of the piece all factors are 1 of.
    pub start: f64,
    /// Own sales that weigh as much as a guess.
    pub worth: f64,
    /// exp of the standard deviation of log price about the model.
    pub spread: f64,
    /// Own sales that weigh as much as that guess.
    pub spread_worth: f64,
    /// Days after which a sale counts half.
    pub half_life: f64,
    pub groups: Vec<PriceFactor>,
    /// Group of each kind, in the rule base's order of kinds.
    pub group_of_kind: Vec<Option<usize>>,
    /// By years, rising.
    pub ages: Vec<AgeFactor>,
    pub traits: Vec<PricedClue>,
    pub defects: Vec<Defect>,
    pub channels: Vec<ChannelGuess>,
    /// Own sales of a form in a channel that weigh as much as the guess how long they take.
    pub waiting_worth: f64,
    /// What an hour of one's own time is worth.
    pub hour: f64,
    /// Seconds of the longest look that is worth advising before buying.
    pub longest_look: f64,
    /// Units of other currencies that one unit of `currency` is, roughly.
    pub rates: Vec<(String, f64)>,
}

impl PriceGuesses {
    /// Every factor of the price but those of age.
    pub fn factors(&self) -> impl Iterator<Item = &PriceFactor> {
        let classes = self.traits.iter().flat_map(|t| &t.classes);
        let classes = classes.map(|c| &c.factor);
        let defects = self.defects.iter().map(|d| &d.factor);
        let channels = self.channels.iter().map(|c| &c.factor);
        self.groups
            .iter()
            .chain(classes)
            .chain(defects)
            .chain(channels)
    }

    /// The defect with this id.
    pub fn defect(&self, id: &str) -> Option<usize> {
        self.defects.iter().position(|d| d.factor.id == id)
    }

    /// The channel with this id.
    pub fn channel(&self, id: &str) -> Option<usize> {
        self.channels.iter().position(|c| c.factor.id == id)
    }
}
