//! Buying: the numbers against other people's programs, money to the minor unit, condition that
//! tells the price and nothing else, and advice that follows the price asked.

use std::fs;
use std::path::Path;

use printseam::internals::buy::appearance::{Appearance, Part};
use printseam::internals::buy::regression::{Guess, Row};
use printseam::internals::buy::waiting::Wait;
use printseam::internals::buy::{
    Advice, Currency, Money, PriceModel, Sale, ShelfAnswer, Terms, condition, shelf, student_t,
};
use printseam::internals::core::model::Station;
use printseam::internals::piece::Piece;
use printseam::internals::piece::notation::parse;
use printseam::internals::registry::calendar::Date;
use printseam::internals::rulebase::prices::PriceGuesses;
use printseam::internals::setup::settings;
use serde_json::Value;

use crate::commands::{folder, refused};
use crate::running::{run, text};
use crate::screens::{after, played, small, title};
use crate::shipped::{case_of, expert};

fn reference() -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/price_model.json");
    serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap()
}

fn list(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// Equal to nine places, relative where large.
fn near(got: f64, wanted: f64, what: &str) {
    let apart = (got - wanted).abs() / wanted.abs().max(1.0);
    assert!(apart < 1e-9, "{what}: {got}, not {wanted}");
}

#[test]
fn students_t_agrees_with_scipy() {
    let file = reference();
    for case in file["student_t"]["cdf"].as_array().unwrap() {
        let got = student_t::cdf(number(&case["t"]), number(&case["freedom"]));
        near(got, number(&case["cdf"]), &case.to_string());
    }
    for case in file["student_t"]["quantile"].as_array().unwrap() {
        let got = student_t::quantile(number(&case["p"]), number(&case["freedom"]));
        near(got, number(&case["t"]), &case.to_string());
    }
}

#[test]
fn the_regression_agrees_with_statsmodels_and_scipy() {
    for case in reference()["regressions"].as_array().unwrap() {
        let guess = Guess {
            mean: list(&case["mean"]),
            worth: list(&case["worth"]),
            shape: number(&case["shape"]),
            rate: number(&case["rate"]),
        };
        let (y, weights) = (list(&case["y"]), list(&case["weights"]));
        let rows = case["x"].as_array().unwrap().iter().zip(y).zip(weights);
        let rows: Vec<Row> = rows
            .map(|((x, y), weight)| Row {
                x: list(x),
                y,
                weight,
            })
            .collect();
        let belief = guess.after(&rows);
        for (got, wanted) in belief.mean.iter().zip(list(&case["mean_after"])) {
            near(*got, wanted, "mean");
        }
        near(belief.shape, number(&case["shape_after"]), "shape");
        near(belief.rate, number(&case["rate_after"]), "rate");
        for p in case["predictions"].as_array().unwrap() {
            let t = belief.predict(&list(&p["x"]));
            near(t.location, number(&p["location"]), "location");
            near(t.scale, number(&p["scale"]), "scale");
            near(t.freedom, number(&p["freedom"]), "freedom");
            let interval = list(&p["interval_80"]);
            near(t.quantile(0.1), interval[0], "low end");
            near(t.quantile(0.9), interval[1], "high end");
            near(t.cdf(0.0), number(&p["cdf_at_0"]), "cdf");
        }
    }
}

#[test]
fn waits_agree_with_scipy() {
    for case in reference()["waits"].as_array().unwrap() {
        let mut wait = Wait::guess(number(&case["mean"]), number(&case["worth"]));
        for offer in case["offers"].as_array().unwrap() {
            let sold = offer[1].as_bool().unwrap();
            wait = wait.after(number(&offer[0]), sold, number(&offer[2]));
        }
        near(wait.shape, number(&case["shape_after"]), "shape");
        near(wait.weeks, number(&case["weeks_after"]), "weeks");
        near(wait.mean(), number(&case["mean_after"]), "mean");
        for point in case["cdf"].as_array().unwrap() {
            near(wait.cdf(number(&point[0])), number(&point[1]), "cdf");
            // By integration, to what that gives.
            assert!((wait.cdf(number(&point[0])) - number(&point[2])).abs() < 1e-7);
        }
        for point in case["quantile"].as_array().unwrap() {
            near(
                wait.quantile(number(&point[0])),
                number(&point[1]),
                "quantile",
            );
        }
    }
}

#[test]
fn money_is_read_written_and_rounded_to_the_minor_unit() {
    let currency = |code| Currency::new(code).unwrap();
    let read = |text, code| Money::read_in(text, currency(code)).map(|m| m.minor);
    for (text, code, minor) in [
        ("12", "USD", 1200),
        ("12.5", "USD", 1250),
        ("12,05", "eur", 1205),
        (" .5 ", "GBP", 50),
        ("0", "USD", 0),
        ("1200", "JPY", 1200),
        ("£12", "GBP", 1200),
        ("1.234", "KWD", 1234),
    ] {
        assert_eq!(read(text, code), Ok(minor), "{text} {code}");
    }
    for (text, code) in [
        ("", "USD"),
        (".", "USD"),
        ("-3", "USD"),
        ("1.234", "USD"),
        ("1.5", "JPY"),
        ("1e3", "USD"),
        ("12 EUR", "USD"),
        ("1.2.3", "USD"),
        ("99999999999999999999", "USD"),
    ] {
        assert!(read(text, code).is_err(), "{text} {code}");
    }
    let shown = |minor, code| {
        Money {
            minor,
            currency: currency(code),
        }
        .to_string()
    };
    assert_eq!(shown(1205, "USD"), "12.05 USD");
    assert_eq!(shown(-5, "USD"), "-0.05 USD");
    assert_eq!(shown(1205, "JPY"), "1205 JPY");
    assert_eq!(shown(1205, "KWD"), "1.205 KWD");
    let usd = currency("USD");
    assert_eq!(
        Money::nearest(0.125, usd).minor,
        13,
        "halves away from zero"
    );
    assert_eq!(Money::nearest(-0.125, usd).minor, -13);
    assert_eq!(Money::at_most(0.299, usd).minor, 29, "never up");
    assert_eq!(Money::at_most(0.3, usd).minor, 30);
    assert!(
        ["US", "USDD", "U$D", "", "1SD"]
            .iter()
            .all(|c| Currency::new(c).is_none())
    );
}

fn guesses() -> PriceGuesses {
    expert().base.prices.clone().unwrap()
}

fn today() -> Date {
    Date::new(2026, 11, 26).unwrap()
}

/// A plate printed in Britain about 1850, of which this is known besides.
fn old_plate(more: &[&str]) -> Piece {
    let all = [
        &[
            "line-make=engraved",
            "feel=smooth",
            "stilt-marks=three-groups",
            "registered=1850",
            "print-colour=blue",
        ],
        more,
    ];
    case_of(&expert(), "antiques-fair", &all.concat())
}

fn weighed(piece: &Piece, asking: &str) -> ShelfAnswer {
    let guesses = guesses();
    let terms = Terms::usual(&guesses, None);
    let model = PriceModel::new(&guesses, &terms, &[], today());
    let asking = Money::read(asking, terms.currency).unwrap();
    shelf(piece, &guesses, &terms, &model, asking).unwrap()
}

/// Typical prices by channel, in dollars.
fn typical(piece: &Piece) -> (f64, f64) {
    let answer = weighed(piece, "1");
    let of = |id: &str| {
        let channel = answer.channels.iter().find(|c| c.id == id).unwrap();
        channel.typical.major()
    };
    (of("stall"), of("online"))
}

/// The starting guesses against what sellers say (common practice, no source; US dollars of 2026): these are
/// no measurements, so the guesses need only lie within a factor of two.
#[test]
fn starting_guesses_lie_within_a_factor_of_two_of_what_the_trade_says() {
    let within = |price: f64, low: f64, high: f64| price >= low / 2.0 && price <= high * 2.0;
    let plate = old_plate(&["form=dinner-plate"]);
    let (stall, online) = typical(&plate);
    assert!(within(stall, 15.0, 20.0), "old plate at a stall: {stall}");
    assert!(online > stall && online < 2.0 * stall, "online: {online}");
    let (_, toy) = typical(&old_plate(&["form=toy"]));
    assert!(within(toy, 12.0, 15.0), "toy piece: {toy}");
    let (platter, _) = typical(&old_plate(&["form=platter"]));
    assert!(within(platter, 25.0, 25.0), "serving piece: {platter}");
    assert!(platter > stall);
    // "Next to nothing", "hardly worth carrying home": a few dollars at most.
    for form in ["form=dinner-plate", "form=cup-saucer"] {
        let late = ["line-make=rosette-dots", "care-word=dishwasher-safe", form];
        let late = case_of(&expert(), "thrift-shelf", &late);
        let (stall, online) = typical(&late);
        assert!(
            stall < 4.0 && online < 4.0,
            "late {form}: {stall}, {online}"
        );
        assert!(weighed(&late, "3").gist.advice == Advice::Leave);
    }
}

#[test]
fn every_kind_has_a_price_and_every_figure_an_origin() {
    let guesses = guesses();
    assert!(guesses.group_of_kind.iter().all(Option::is_some));
    assert!(guesses.factors().all(|f| !f.sources.is_empty()));
    assert!(guesses.ages.iter().all(|a| !a.sources.is_empty()));
    let ids: Vec<&str> = guesses
        .defects
        .iter()
        .map(|d| d.factor.id.as_str())
        .collect();
    let named = [
        "chip",
        "hairline",
        "crack",
        "staple-repair",
        "overpaint",
        "stain",
        "crazing",
        "worn-gilding",
        "missing-lid",
        "marriage",
    ];
    assert_eq!(ids, named);
    assert!(guesses.defects.iter().all(|d| d.factor.factor < 1.0));
}

#[test]
fn condition_moves_the_price_and_neither_kind_nor_year() {
    let expert = expert();
    let base = &expert.base;
    let plate = old_plate(&["form=dinner-plate"]);
    let clues = (0..base.clues.len()).filter(|c| base.clues[*c].station == Station::Condition);
    let mut tried = 0;
    for clue in clues {
        let id = &base.clues[clue].id;
        let worn = plate.with(parse(base, &format!("{id}=yes")).unwrap());
        let (before, after) = (plate.judgement(), worn.judgement());
        assert_eq!(before.posterior.cells(), after.posterior.cells(), "{id}");
        assert_eq!(
            worn.explanation().steps.len(),
            plate.explanation().steps.len()
        );
        let asked = plate.advice().looks.iter();
        assert!(
            asked.map(|l| usize::from(l.clue.0)).all(|c| c != clue),
            "{id}"
        );
        tried += 1;
    }
    assert_eq!(tried, 8);
    let sound = typical(&with_condition(&plate, "sound")).0;
    let (chip, both) = (
        typical(&with_condition(&plate, "chip")).0,
        typical(&with_condition(&plate, "chip,hairline")).0,
    );
    let as_found = typical(&plate).0;
    assert!(
        both < chip && chip < as_found && as_found < sound,
        "{both} {chip} {as_found} {sound}"
    );
    // Staples speak of age by the rule of `repairs`, and so does the defect of that name.
    let stapled = with_condition(&plate, "staple-repair,overpaint");
    let seen = |id: &str| stapled.evidence().of(base.clue_id(id).unwrap()).is_some();
    assert!(seen("repairs") && seen("overpaint"));
}

fn with_condition(piece: &Piece, defects: &str) -> Piece {
    let expert = piece.expert();
    let saw = piece.evidence().observations();
    let found = condition::read(&expert.base, &guesses(), defects, saw).unwrap();
    piece.with_all(found)
}

#[test]
fn a_dearer_piece_is_never_better_advice() {
    let plate = with_condition(&old_plate(&["form=dinner-plate"]), "sound");
    let mut before: Option<ShelfAnswer> = None;
    for asking in ["0", "2", "5", "8", "12", "18", "30", "400"] {
        let answer = weighed(&plate, asking);
        assert!(answer.gist.most_to_pay.minor >= 0);
        for channel in &answer.channels {
            assert!(channel.most_to_pay.minor >= 0);
            assert!(
                (0.0..=1.0).contains(&channel.loss_chance),
                "{}",
                channel.loss_chance
            );
            assert!(channel.weeks_to_sell > 0.0 && channel.weeks_to_sell.is_finite());
        }
        match answer.gist.advice {
            Advice::Buy => assert!(answer.gist.asking.minor <= answer.gist.most_to_pay.minor),
            Advice::Offer => assert!(answer.gist.asking.minor > answer.gist.most_to_pay.minor),
            Advice::LookAgain => {
                let look = answer.gist.look.unwrap();
                assert!(look.worth.major() > look.cost.major() - 0.01, "{look:?}");
            }
            Advice::Leave => {}
        }
        if let Some(before) = before {
            assert_eq!(
                before.gist.most_to_pay, answer.gist.most_to_pay,
                "the piece is the same"
            );
            for (old, new) in before.channels.iter().zip(&answer.channels) {
                assert!(new.expected_net.minor < old.expected_net.minor);
                assert!(new.loss_chance >= old.loss_chance);
            }
        }
        before = Some(answer);
    }
    assert_eq!(
        before.unwrap().gist.advice,
        Advice::Leave,
        "400 for a plate"
    );
    assert_eq!(weighed(&plate, "1").gist.advice, Advice::Buy);
}

/// A look is proposed only where it could change what is done, and then it is worth more than it costs.
#[test]
fn a_look_is_advised_where_it_could_change_what_is_done() {
    let doubtful = case_of(
        &expert(),
        "thrift-shelf",
        &["print-colour=blue", "form=platter"],
    );
    let most = weighed(&doubtful, "1").gist.most_to_pay.major();
    let at_the_limit = weighed(&doubtful, &format!("{most:.2}"));
    assert_eq!(at_the_limit.gist.advice, Advice::LookAgain);
    let look = at_the_limit.gist.look.unwrap();
    // By no less than one in a hundred of what is asked, but for the rounding of both.
    let gain = look.worth.minor - look.cost.minor;
    assert!(gain as f64 >= most - 1.0, "{look:?} {most}");
    assert!(doubtful.evidence().of(look.clue).is_none());
    assert!(
        weighed(&doubtful, "5000").gist.look.is_none(),
        "nothing could make it worth that"
    );
}

fn sale(appearance: Appearance, price: &str, sold: Date) -> Sale {
    let price = Money::read(price, Currency::DOLLAR).unwrap();
    Sale {
        appearance,
        channel: "stall".to_owned(),
        listed: Date::new(sold.year() - 1, sold.month(), sold.day().min(28)).unwrap(),
        sold: Some((sold, price)),
    }
}

#[test]
fn own_sales_overrule_the_guesses_and_old_ones_fade() {
    let guesses = guesses();
    let terms = Terms::usual(&guesses, None);
    let plate = Appearance::of(&old_plate(&["form=dinner-plate"]), &guesses);
    let stall = |sales: &[Sale]| {
        let model = PriceModel::new(&guesses, &terms, sales, today());
        (
            model.outlook(&plate, 0).price_quantile(0.5),
            model.own_share(&plate, 0),
            model,
        )
    };
    let twelve = |year: i16| -> Vec<Sale> {
        let day = |n: u8| Date::new(year, 1 + n % 9, 3).unwrap();
        (0..12).map(|n| sale(plate.clone(), "60", day(n))).collect()
    };
    let (guessed, none, _) = stall(&[]);
    let (taught, some, model) = stall(&twelve(2026));
    let (faded, less, _) = stall(&twelve(2014));
    assert_eq!(none, 0.0);
    assert_eq!(model.own_sales, 12);
    assert!(
        taught > 2.0 * guessed && taught < 60.0,
        "{guessed} {taught}"
    );
    assert!(
        guessed < faded && faded < 0.7 * taught,
        "{guessed} {faded} {taught}"
    );
    assert!(0.0 < less && less < some && some < 1.0, "{less} {some}");
    // A year on the shelf for each of them, and one that still waits.
    let weeks = |m: &PriceModel| m.outlook(&plate, 0).weeks();
    let (_, _, untaught) = stall(&[]);
    assert!(weeks(&model) > 1.3 * weeks(&untaught), "{}", weeks(&model));
    let mut waiting = twelve(2026);
    waiting.push(Sale {
        listed: Date::new(2020, 1, 1).unwrap(),
        sold: None,
        ..waiting[0].clone()
    });
    let (unmoved, _, censored) = stall(&waiting);
    assert_eq!(unmoved, taught, "what did not sell has no price");
    assert!(weeks(&censored) > weeks(&model));
}

#[test]
fn sales_in_another_currency_are_converted_or_left_out() {
    let guesses = guesses();
    let terms = Terms::usual(&guesses, None);
    let part = Part {
        share: 1.0,
        group: Some(0),
        years: 160.0,
    };
    let plate = Appearance {
        parts: vec![part],
        classes: guesses
            .traits
            .iter()
            .map(|t| vec![0.0; t.classes.len()])
            .collect(),
        defects: vec![0.0; guesses.defects.len()],
    };
    let in_currency = |code: &str| Sale {
        sold: Some((
            today(),
            Money {
                minor: 2000,
                currency: Currency::new(code).unwrap(),
            },
        )),
        ..sale(plate.clone(), "20", today())
    };
    let model = PriceModel::new(
        &guesses,
        &terms,
        &[in_currency("GBP"), in_currency("XAU")],
        today(),
    );
    assert_eq!((model.own_sales, model.left_out), (1, 1));
}

#[test]
fn the_command_keeps_its_contract() {
    let arguments = |more: &[&str]| {
        let mut all = vec![
            "shelf",
            "--json",
            "--notes",
            "blue willow dinner plate, chip to rim",
        ];
        all.extend(more);
        let output = run(&all, b"");
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        serde_json::from_str::<Value>(&text(&output.stdout)).unwrap()
    };
    let answer = arguments(&["--asking", "12", "--condition", "chip,hairline"]);
    assert_eq!(answer["format"], 1);
    assert_eq!(
        answer["asking"],
        serde_json::json!({"minor": 1200, "currency": "USD"})
    );
    let advice = answer["advice"].as_str().unwrap();
    assert!(["buy", "offer", "leave", "look-again"].contains(&advice));
    assert!(answer["most_to_pay"]["minor"].as_i64().unwrap() >= 0);
    assert_eq!(answer["own_sales"], 0);
    assert_eq!(answer["look"].is_null(), advice != "look-again");
    let reasons = answer["reasons"].as_array().unwrap();
    assert!(
        reasons
            .iter()
            .any(|r| r.as_str().unwrap().starts_with("A hairline"))
    );
    for channel in answer["channels"].as_array().unwrap() {
        for key in [
            "id",
            "expected_net",
            "loss_chance",
            "most_to_pay",
            "weeks_to_sell",
        ] {
            assert!(!channel[key].is_null(), "{key}");
        }
    }
    let yen = arguments(&["--asking", "1200", "--currency", "jpy"]);
    assert_eq!(
        yen["asking"],
        serde_json::json!({"minor": 1200, "currency": "JPY"})
    );
    let unknown = arguments(&["--asking", "12", "--currency", "XOF"]);
    let said = unknown["reasons"].to_string();
    assert!(said.contains("No rate to XOF"), "{said}");
    let shelf = |more: &[&str], says: &str| refused(&[&["shelf"], more].concat(), b"", says);
    shelf(&["--asking", "-1"], "--asking");
    shelf(&["--asking", "twelve"], "--asking");
    shelf(&["--asking", "£12"], "--asking: 12.00 GBP");
    shelf(&["--asking", "12", "--currency", "dollars"], "--currency");
    shelf(&["--asking", "12", "--condition", "chipp"], "nearest: chip");
    shelf(&["--asking", "12", "--condition", "sound,chip"], "both");
}

#[test]
fn guidance_is_said_once() {
    let output = run(&["shelf", "--asking", "12"], b"");
    let said = text(&output.stdout);
    assert_eq!(said.matches("not an appraisal").count(), 1, "{said}");
}

#[test]
fn the_settings_written_say_what_holds_without_them() {
    let guesses = guesses();
    let dir = folder("settings");
    let path = dir.join("settings.ron");
    fs::write(&path, settings::template(&guesses)).unwrap();
    let read = |text: &str| {
        fs::write(&path, text).unwrap();
        settings::terms(&guesses, Some(&path), None)
    };
    let template = settings::template(&guesses);
    assert_eq!(read(&template).unwrap(), Terms::usual(&guesses, None));
    // Pounds at one's own rate: the guesses are converted by it.
    let pounds = template
        .replace("currency: \"USD\"", "currency: \"GBP\"")
        .replace("// rate: 0.78", "rate: 0.5");
    let pounds = read(&pounds).unwrap();
    assert_eq!((pounds.currency.code(), pounds.rate), ("GBP", 0.5));
    for (from, to, says) in [
        ("like: \"stall\"", "like: \"stal\"", "use stall, online"),
        ("commission: 0.14", "commission: 14", "no share"),
        ("id: \"online\"", "id: \"stall\"", "twice"),
        ("format: 1", "format: 2", "format 2"),
        ("rent: 0.15", "rent: -1", "rent"),
        ("currency: \"USD\"", "currency: \"Dollar\"", "no currency"),
        ("hour: 15", "hours: 15", "hours"),
    ] {
        let changed = template.replacen(from, to, 1);
        assert_ne!(changed, template, "{from}");
        let error = read(&changed).unwrap_err().to_string();
        assert!(
            error.contains(says) && error.lines().count() == 1,
            "{error}"
        );
    }
}

#[test]
fn the_verdict_screen_weighs_a_price() {
    use printseam::internals::screens::app::App;
    use printseam::internals::screens::kit::theme::Theme;
    use printseam::internals::screens::popups::shelf::Shelf;
    let keys = "<enter>11vb12<enter>";
    let (app, _) = after(expert(), keys, (80, 24));
    assert_eq!(title(&app), Some("Buy it?"));
    let popup: &dyn std::any::Any = app.popup().unwrap();
    let shown = popup.downcast_ref::<Shelf>().unwrap().answer().unwrap();
    let by_hand = weighed(app.piece(), "12");
    assert_eq!(shown.as_ref().unwrap(), &by_hand);
    let (app, _) = after(expert(), "<enter>11vbtwelve<enter>", (44, 20));
    let popup: &dyn std::any::Any = app.popup().unwrap();
    assert!(
        popup
            .downcast_ref::<Shelf>()
            .unwrap()
            .answer()
            .unwrap()
            .is_err()
    );
    // Back from a look the price still stands, for the piece as it is now; another piece has none.
    let seen = ["print-colour=blue", "form=platter"];
    let doubtful = case_of(&expert(), "thrift-shelf", &seen);
    let limit = weighed(&doubtful, "1").gist.most_to_pay.major();
    let limit = format!("{limit:.2}");
    let said = doubtful.evidence().observations();
    let app = App::opened(expert(), Theme::mono(), doubtful.setting(), said);
    let keys = format!("vb{limit}<enter><enter>1<enter>vb");
    let (app, _) = played(app, &keys, (80, 24));
    assert_eq!(app.piece().evidence().observations().len(), 3);
    let popup: &dyn std::any::Any = app.popup().unwrap();
    let shown = popup.downcast_ref::<Shelf>().unwrap().answer().unwrap();
    assert_eq!(shown.as_ref().unwrap(), &weighed(app.piece(), &limit));
    let (app, _) = after(expert(), "<enter>11vb12<enter><esc>ny11vb", (80, 24));
    let popup: &dyn std::any::Any = app.popup().unwrap();
    assert!(popup.downcast_ref::<Shelf>().unwrap().answer().is_none());
    // Rules without prices offer no such key.
    let (app, _) = after(small(), "<enter>11vb", (80, 24));
    assert_eq!(title(&app), None);
}
