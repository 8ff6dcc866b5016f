//! Names of periods, their years, and where those come from.

/// What a period word means. `None` = open on that side.
#[derive(Clone, Copy, Debug)]
pub struct Period {
    /// Ways to write it, lower case, without hyphens.
    pub words: &'static [&'static str],
    pub from: Option<i16>,
    pub to: Option<i16>,
    pub origin: &'static str,
}

const REIGN: &str = "years of reign, general history";
const STATE: &str = "years of state or war, general history";
const STYLE: &str = "usual years of the style, from memory";
const TRADE: &str = "common practice, no source";

const fn period(
    words: &'static [&'static str],
    from: i16,
    to: i16,
    origin: &'static str,
) -> Period {
    Period {
        words,
        from: Some(from),
        to: Some(to),
        origin,
    }
}

/// All period words.
pub const PERIODS: &[Period] = &[
    period(&["georgian"], 1714, 1837, REIGN),
    period(&["george ii"], 1727, 1760, REIGN),
    period(&["george iii"], 1760, 1820, REIGN),
    period(&["george iv"], 1820, 1830, REIGN),
    period(&["regency"], 1811, 1820, REIGN),
    period(&["william iv"], 1830, 1837, REIGN),
    period(&["victorian", "queen victoria"], 1837, 1901, REIGN),
    period(&["early victorian"], 1837, 1850, TRADE),
    period(&["mid victorian", "high victorian"], 1851, 1874, TRADE),
    period(&["late victorian"], 1875, 1901, TRADE),
    period(&["edwardian", "edward vii"], 1901, 1910, REIGN),
    period(&["george v"], 1910, 1936, REIGN),
    period(&["george vi"], 1936, 1952, REIGN),
    period(&["elizabeth ii", "elizabethan ii"], 1952, 2022, REIGN),
    period(&["napoleonic"], 1799, 1815, STATE),
    period(&["american civil war", "civil war"], 1861, 1865, STATE),
    period(&["second empire"], 1852, 1870, STATE),
    period(&["third republic"], 1870, 1940, STATE),
    period(&["meiji"], 1868, 1912, REIGN),
    period(&["taisho"], 1912, 1926, REIGN),
    period(&["showa"], 1926, 1989, REIGN),
    period(&["occupied japan"], 1945, 1952, STATE),
    Period {
        words: &["pre war", "prewar", "before the war"],
        from: None,
        to: Some(1939),
        origin: "before the Second World War; common practice, no source",
    },
    period(
        &[
            "first world war",
            "world war one",
            "world war i",
            "wwi",
            "ww1",
            "great war",
        ],
        1914,
        1918,
        STATE,
    ),
    period(
        &["inter war", "interwar", "between the wars"],
        1918,
        1939,
        STATE,
    ),
    period(
        &[
            "wartime",
            "second world war",
            "world war two",
            "world war ii",
            "wwii",
            "ww2",
        ],
        1939,
        1945,
        STATE,
    ),
    period(&["post war", "postwar", "after the war"], 1945, 1970, TRADE),
    period(&["depression era", "great depression"], 1929, 1939, STATE),
    period(&["gilded age"], 1870, 1900, STYLE),
    period(&["biedermeier"], 1815, 1848, STYLE),
    period(&["aesthetic movement", "aesthetic"], 1870, 1890, STYLE),
    period(&["arts and crafts", "arts & crafts"], 1880, 1920, STYLE),
    period(&["art nouveau", "jugendstil"], 1890, 1910, STYLE),
    period(&["art deco", "deco"], 1920, 1940, STYLE),
    period(
        &["mid century modern", "mid century", "midcentury", "mcm"],
        1945,
        1969,
        STYLE,
    ),
    period(&["last century"], 1901, 2000, TRADE),
    Period {
        words: &["this century"],
        from: Some(2001),
        to: None,
        origin: TRADE,
    },
    period(&["turn of the century", "fin de siecle"], 1890, 1910, TRADE),
    period(
        &["turn of the 20th century", "turn of the twentieth century"],
        1895,
        1905,
        TRADE,
    ),
    period(
        &["turn of the 19th century", "turn of the nineteenth century"],
        1795,
        1805,
        TRADE,
    ),
];

/// Years back from the present that make a piece antique (a hundred, customs and trade usage) or
/// vintage (twenty to a hundred); common practice, no source.
pub const ANTIQUE: i16 = 100;
pub const VINTAGE: i16 = 20;

/// Years back from the present that tickets call modern (common practice, no source).
pub const MODERN: i16 = 30;
