//! The file of starting guesses as written: `market.ron`.

use serde::Deserialize;

use super::schema::{Names, Text};
use super::source::{Bare, Located};

type Number<'a> = Located<'a, f64>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PricesFile<'a> {
    #[serde(borrow)]
    pub format: Bare<'a>,
    #[serde(borrow)]
    pub currency: Text<'a>,
    #[serde(borrow)]
    pub start: StartEntry<'a>,
    #[serde(borrow)]
    pub worth: WorthEntry<'a>,
    #[serde(borrow)]
    pub spread: SpreadEntry<'a>,
    #[serde(borrow)]
    pub half_life: HalfLifeEntry<'a>,
    #[serde(borrow)]
    pub groups: Vec<GroupEntry<'a>>,
    #[serde(borrow)]
    pub ages: Vec<AgeEntry<'a>>,
    #[serde(borrow, default)]
    pub traits: Vec<TraitEntry<'a>>,
    #[serde(borrow, default)]
    pub defects: Vec<DefectEntry<'a>>,
    #[serde(borrow)]
    pub channels: Vec<ChannelEntry<'a>>,
    #[serde(borrow)]
    pub waiting: WaitingEntry<'a>,
    #[serde(borrow)]
    pub look: LookEntry<'a>,
    #[serde(borrow, default)]
    pub rates: Vec<(Text<'a>, Number<'a>)>,
    #[serde(borrow, default)]
    pub rates_source: Names<'a>,
}
super::schema::written!(PricesFile);

/// Declares a record of one or more numbers with its reason and origin.
macro_rules! figures {
    ($entry:ident: $($number:ident),+) => {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(super) struct $entry<'a> {
            $(#[serde(borrow)] pub $number: Number<'a>,)+
            pub because: Option<String>,
            #[serde(borrow, default)]
            pub source: Names<'a>,
        }
    };
}
figures!(StartEntry: price);
figures!(WorthEntry: sales);
figures!(SpreadEntry: factor, sales);
figures!(HalfLifeEntry: days);
figures!(AgeEntry: years, factor);
figures!(WaitingEntry: worth);
figures!(LookEntry: hour, longest);

/// Declares a record with an id, a name, a factor, its reason and origin, and more.
macro_rules! factors {
    ($entry:ident: $($more:ident: $type:ty),+) => {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(super) struct $entry<'a> {
            #[serde(borrow)]
            pub id: Text<'a>,
            pub name: String,
            #[serde(borrow)]
            pub factor: Number<'a>,
            pub because: Option<String>,
            #[serde(borrow, default)]
            pub source: Names<'a>,
            $(#[serde(borrow)] pub $more: $type,)+
        }
    };
}
factors!(GroupEntry: kinds: Names<'a>);
factors!(DefectEntry: seen: Vec<(Text<'a>, Text<'a>)>);
factors!(ChannelEntry: commission: Number<'a>, fee: Number<'a>, postage: Number<'a>, packing: Number<'a>, rent: Number<'a>, margin: Number<'a>);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TraitEntry<'a> {
    #[serde(borrow)]
    pub clue: Text<'a>,
    pub name: String,
    #[serde(borrow)]
    pub unsaid: Option<Text<'a>>,
    #[serde(borrow)]
    pub classes: Vec<ClassEntry<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ClassEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub name: String,
    #[serde(borrow)]
    pub findings: Names<'a>,
    #[serde(borrow)]
    pub factor: Number<'a>,
    #[serde(borrow, default)]
    pub weeks: Vec<(Text<'a>, Number<'a>)>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}
