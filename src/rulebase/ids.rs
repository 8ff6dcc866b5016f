//! Ids: where a name stands in the list of its sort. One type a sort, so that none is taken for
//! another, and none is made from a number it can't hold.

use super::problem::Check;

pub use crate::core::grid::{ClueId, FamilyId, FindingId, KindId, PlaceId};

/// Index of a source in the rule base's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SourceId(pub u16);

/// Index of a setting in the rule base's order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SettingId(pub u16);

/// Index of a kernel in the rule base's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KernelId(pub u16);

/// What rule files define by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sort {
    Source,
    Place,
    Kind,
    Group,
    Family,
    Kernel,
    Setting,
    Country,
    Clue,
    Finding,
    Caution,
    Term,
    Phrase,
    Price,
    Lesson,
}

impl Sort {
    /// The sort in words, one of it.
    pub fn word(self) -> &'static str {
        match self {
            Sort::Source => "source",
            Sort::Place => "place",
            Sort::Kind => "kind",
            Sort::Group => "group",
            Sort::Family => "family",
            Sort::Kernel => "kernel",
            Sort::Setting => "setting",
            Sort::Country => "country",
            Sort::Clue => "clue",
            Sort::Finding => "finding",
            Sort::Caution => "caution",
            Sort::Term => "term",
            Sort::Phrase => "phrase",
            Sort::Price => "price factor",
            Sort::Lesson => "lesson",
        }
    }

    /// How many of them a rule base may have (findings: a clue), as many as their ids can tell
    /// apart. What has no id of its own has room enough.
    pub fn most(self) -> usize {
        match self {
            Sort::Place => PlaceId::MOST,
            Sort::Kind => KindId::MOST,
            Sort::Family => FamilyId::MOST,
            Sort::Source => SourceId::MOST,
            Sort::Kernel => KernelId::MOST,
            Sort::Setting => SettingId::MOST,
            Sort::Clue => ClueId::MOST,
            Sort::Finding => FindingId::MOST,
            Sort::Country
            | Sort::Group
            | Sort::Caution
            | Sort::Term
            | Sort::Phrase
            | Sort::Lesson
            | Sort::Price => usize::MAX,
        }
    }
}

/// An id of one sort.
pub trait Id: Copy {
    const SORT: Sort;
    /// The problem of a name that no file defines.
    const UNKNOWN: Check;
    /// How many ids there are.
    const MOST: usize;

    /// The id of this place in the list; `None` from `MOST` on.
    fn at(index: usize) -> Option<Self>;

    /// Its place in the list.
    fn index(self) -> usize;
}

macro_rules! ids {
    ($($id:ident($number:ident) of $sort:ident, else $unknown:ident;)*) => {$(
        impl Id for $id {
            const SORT: Sort = Sort::$sort;
            const UNKNOWN: Check = Check::$unknown;
            const MOST: usize = 1 << $number::BITS;

            fn at(index: usize) -> Option<$id> {
                $number::try_from(index).ok().map($id)
            }

            fn index(self) -> usize {
                usize::from(self.0)
            }
        }
    )*};
}

ids! {
    KindId(u8) of Kind, else UnknownKind;
    PlaceId(u8) of Place, else UnknownPlace;
    FamilyId(u8) of Family, else UnknownFamily;
    SourceId(u16) of Source, else UnknownSource;
    KernelId(u16) of Kernel, else UnknownKernel;
    SettingId(u16) of Setting, else UnknownSetting;
    ClueId(u16) of Clue, else UnknownClue;
    FindingId(u16) of Finding, else UnknownFinding;
}

/// The ids of a list of `count` names, in order.
pub fn ids<I: Id>(count: usize) -> impl Iterator<Item = I> {
    (0..count).map_while(I::at)
}

#[cfg(test)]
mod tests {
    use super::{FindingId, Id, KindId};

    #[test]
    fn no_id_is_made_from_a_number_it_cant_hold() {
        assert_eq!(KindId::at(255), Some(KindId(255)));
        assert_eq!(KindId::at(256), None);
        assert_eq!(
            FindingId::at(FindingId::MOST - 1).map(Id::index),
            Some(65_535)
        );
        assert_eq!(FindingId::at(FindingId::MOST), None);
        assert_eq!(super::ids::<KindId>(300).count(), KindId::MOST);
    }
}
