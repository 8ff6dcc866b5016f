//! Trade words for kinds, and trade words that carry years as well.
//!
//! Kinds are named by id and looked up in the rule base: one that a rule base of your own does not
//! have is passed over. The first kind of a list is the one the word means first.

/// Every kind with an engraved print in it.
const PRINTS: &[&str] = &[
    "printed-blue",
    "printed-colour",
    "printed-multi",
    "flow-blue",
    "print-and-paint",
    "print-enamelled",
    "bat-printed",
    "printed-over",
    "revival-print",
    "lustre-printed",
];

/// Words that name one or more kinds.
pub const KINDS: &[(&[&str], &[&str])] = &[
    (
        &[
            "transferware",
            "transfer ware",
            "transfer printed",
            "transfer print",
            "transfer",
            "printed",
            "printed ware",
            "engraved print",
            "underglaze print",
        ],
        PRINTS,
    ),
    (
        &[
            "blue transferware",
            "blue transfer printed",
            "blue transfer",
            "blue printed",
            "blue print",
            "blue and white transferware",
            "blue and white transfer",
            "blue and white transfer printed",
            "blue and white printed",
        ],
        &["printed-blue", "revival-print"],
    ),
    (
        &[
            "polychrome print",
            "multicolour print",
            "multicolor print",
            "two colour transferware",
            "two color transferware",
            "multicolour transferware",
            "multicolor transferware",
        ],
        &["printed-multi"],
    ),
    (
        &["flow blue", "flown blue", "flowing blue", "flow mulberry"],
        &["flow-blue"],
    ),
    (
        &[
            "print and paint",
            "printed and painted",
            "print and tint",
            "clobbered",
            "hand coloured print",
            "hand colored print",
            "hand coloured transfer",
            "hand colored transfer",
            "polychromed transfer",
        ],
        &["print-and-paint", "print-enamelled"],
    ),
    (
        &[
            "print and enamel",
            "printed and enamelled",
            "printed and enameled",
        ],
        &["print-enamelled"],
    ),
    (
        &["bat print", "bat printed", "bat printing"],
        &["bat-printed"],
    ),
    (
        &[
            "overglaze print",
            "overglaze printed",
            "printed over the glaze",
        ],
        &["printed-over", "bat-printed"],
    ),
    (
        &["hand painted", "handpainted", "painted", "hand decorated"],
        &["painted-over", "painted-under"],
    ),
    (
        &[
            "painted under the glaze",
            "underglaze painted",
            "underglaze hand painted",
            "gaudy",
        ],
        &["painted-under"],
    ),
    (
        &[
            "painted over the glaze",
            "overglaze painted",
            "enamelled",
            "enameled",
            "overglaze enamels",
        ],
        &["painted-over"],
    ),
    (
        &[
            "spongeware",
            "sponged",
            "spatterware",
            "spatter",
            "spattered",
            "sponge decorated",
        ],
        &["sponged", "cut-sponge"],
    ),
    (
        &["cut sponge", "stamped", "stick spatter", "sponge stamped"],
        &["cut-sponge"],
    ),
    (
        &[
            "stencilled",
            "stenciled",
            "stencil",
            "airbrushed",
            "sprayed",
            "airbrush",
        ],
        &["stencilled"],
    ),
    (
        &[
            "decal",
            "decals",
            "decalcomania",
            "lithograph",
            "lithographed",
            "litho",
            "lithograph transfer",
            "litho transfer",
            "chromolithograph",
        ],
        &["decal"],
    ),
    (
        &[
            "screen print",
            "screen printed",
            "silkscreen",
            "silk screen",
            "screenprint",
            "silk screened",
        ],
        &["screen-printed"],
    ),
    (
        &[
            "revival transferware",
            "reproduction transferware",
            "reproduction",
            "repro",
            "revival",
            "reissue",
            "modern transferware",
        ],
        &["revival-print"],
    ),
    (
        &[
            "lustre",
            "luster",
            "lustreware",
            "lusterware",
            "pink lustre",
            "copper lustre",
            "pink luster",
            "copper luster",
        ],
        &["lustre-printed"],
    ),
    (
        &[
            "shell edge",
            "shell edged",
            "feather edge",
            "feather edged",
            "edgeware",
            "edged ware",
        ],
        &["moulded-edge"],
    ),
    (
        &[
            "plain white",
            "undecorated",
            "white granite",
            "white ironstone",
        ],
        &["plain"],
    ),
];

/// Colours that make "brown transferware" a print in one colour that is not blue.
pub const OTHER_COLOURS: &[&str] = &[
    "black", "brown", "green", "red", "pink", "purple", "mulberry", "lavender", "lilac", "sepia",
    "grey", "gray",
];

/// Words that name a kind and years at once.
pub struct Dated {
    pub words: &'static [&'static str],
    pub kinds: &'static [&'static str],
    pub from: i16,
    pub to: i16,
    pub origin: &'static str,
}

/// Flow blue's three periods.
pub const DATED: &[Dated] = &[
    Dated {
        words: &["early flow blue", "early victorian flow blue"],
        kinds: &["flow-blue"],
        from: 1840,
        to: 1860,
        origin: "from memory",
    },
    Dated {
        words: &[
            "middle flow blue",
            "mid flow blue",
            "middle period flow blue",
            "mid victorian flow blue",
        ],
        kinds: &["flow-blue"],
        from: 1860,
        to: 1879,
        origin: "from memory",
    },
    Dated {
        words: &["late flow blue", "late victorian flow blue"],
        kinds: &["flow-blue"],
        from: 1880,
        to: 1910,
        origin: "from memory",
    },
];

/// Words for places: noted, not judged.
pub const PLACES: &[(&[&str], &str)] = &[
    (
        &["english", "british", "scottish", "welsh", "staffordshire"],
        "britain",
    ),
    (&["german", "bavarian", "saxon"], "germany"),
    (&["dutch", "belgian", "flemish"], "low-countries"),
    (&["french"], "france"),
    (
        &["swedish", "danish", "norwegian", "finnish", "scandinavian"],
        "scandinavia",
    ),
    (&["american"], "usa"),
    (&["japanese"], "japan"),
    (&["chinese"], "china"),
];
