//! Whether the colours of the pages can be read, and told apart.

use std::collections::BTreeMap;

use super::THEME;

/// Red, green and blue as light, from 0 to 1.
type Light = [f64; 3];

/// The colours of one medium by name.
type Colours = BTreeMap<String, Light>;

/// Colours of words and of marks; lines that only part rows need no contrast.
const WORDS: [&str; 7] = ["ink", "muted", "accent", "clear", "small", "none", "open"];
const MARKS: [&str; 9] = [
    "attacker", "defender", "accent", "series-0", "series-1", "series-2", "series-3", "series-4",
    "series-5",
];

/// The sheet's colours for light, dark and print.
fn media() -> [(&'static str, Colours); 3] {
    let parts: Vec<&str> = THEME.split("@media").collect();
    let [light, dark, print] = parts[..] else { panic!("{} parts", parts.len()) };
    assert!(dark.starts_with(" (prefers-color-scheme: dark)") && print.starts_with(" print"));
    [("light", colours(light)), ("dark", colours(dark)), ("print", colours(print))]
}

fn colours(sheet: &str) -> Colours {
    let rules = sheet.split_once(":root").expect("a rule for the page").1;
    let colour = |rule: &str| {
        let (name, value) = rule.split_once(": #")?;
        Some((name.to_owned(), light(value.split_once(';')?.0)))
    };
    rules.split("--").skip(1).filter_map(colour).collect()
}

/// A colour of six hexadecimal digits as light: IEC 61966-2-1 as WCAG 2.2 states it.
fn light(hex: &str) -> Light {
    assert_eq!(hex.len(), 6, "{hex}");
    [0, 2, 4].map(|n| {
        let c = f64::from(u8::from_str_radix(&hex[n..n + 2], 16).expect("digits")) / 255.0;
        if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    })
}

/// Contrast ratio of WCAG 2.2, from 1 to 21, by its relative luminance.
fn contrast(a: Light, b: Light) -> f64 {
    let luminance = |[r, g, b]: Light| 0.2126 * r + 0.7152 * g + 0.0722 * b;
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// How eyes see a colour.
#[derive(Clone, Copy, Debug)]
enum Eyes {
    Usual,
    Protanope,
    Deuteranope,
}

/// Light to the answers of long, middle and short cones: Viénot, Brettel & Mollon (1999), Color
/// Research & Application 24:243-252, from memory, as are the reductions below.
const CONES: [Light; 3] =
    [[17.8824, 43.5161, 4.11935], [3.45565, 27.1554, 3.86714], [0.029_956_6, 0.184_309, 1.46709]];
/// The inverse of [`CONES`].
const BACK: [Light; 3] = [
    [0.080_944_4, -0.130_504, 0.116_721],
    [-0.010_248_5, 0.054_019_3, -0.113_615],
    [-0.000_365_297, -0.004_121_61, 0.693_511],
];

fn times(matrix: [Light; 3], v: Light) -> Light {
    matrix.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

/// A colour as those eyes see it. The paper first draws the range of colours in a little.
fn seen(colour: Light, eyes: Eyes) -> Light {
    let within = |scale: f64, lift: f64| times(CONES, colour.map(|c| scale * c + lift));
    let cones = match eyes {
        Eyes::Usual => return colour,
        Eyes::Protanope => {
            let [_, m, s] = within(0.992_052, 0.003_974);
            [2.02344 * m - 2.52581 * s, m, s]
        }
        Eyes::Deuteranope => {
            let [l, _, s] = within(0.957_237, 0.021_381_4);
            [l, 0.494_207 * l + 1.24827 * s, s]
        }
    };
    times(BACK, cones).map(|c| c.clamp(0.0, 1.0))
}

/// CIE 1976 L*a*b*, white D65, by the matrix of IEC 61966-2-1.
fn lab([r, g, b]: Light) -> Light {
    let x = (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505;
    let y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    let z = (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089;
    let root =
        |t: f64| if t > 216.0 / 24389.0 { t.cbrt() } else { (24389.0 / 27.0 * t + 16.0) / 116.0 };
    let [x, y, z] = [x, y, z].map(root);
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

/// Distance of two colours in CIE Lab as those eyes see them.
fn apart(a: Light, b: Light, eyes: Eyes) -> f64 {
    let (a, b) = (lab(seen(a, eyes)), lab(seen(b, eyes)));
    a.iter().zip(b).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt()
}

/// Values of WCAG 2.2: black on white is 21 by its definition; #767676 is widely told as the lightest
/// grey for words on white, 4.54 (common practice, from memory).
#[test]
fn contrast_is_that_of_the_guidelines() {
    let on_white = |hex| contrast(light(hex), light("ffffff"));
    assert!((on_white("000000") - 21.0).abs() < 1e-9);
    assert!((on_white("767676") - 4.54).abs() < 0.005, "{}", on_white("767676"));
    assert!(on_white("777777") < 4.5);
}

/// Both matrices undo each other, greys stay grey, and red and green of like brightness, far apart to
/// usual eyes, come near each other. Lab of white is 100, 0, 0 by its definition.
#[test]
fn eyes_are_simulated_as_stated() {
    for n in 0..3 {
        let unit: Light = std::array::from_fn(|k| f64::from(u8::from(n == k)));
        for (k, found) in times(BACK, times(CONES, unit)).into_iter().enumerate() {
            assert!((found - unit[k]).abs() < 1e-4, "{n} {k}: {found}");
        }
    }
    for (found, expected) in lab([1.0; 3]).into_iter().zip([100.0, 0.0, 0.0]) {
        assert!((found - expected).abs() < 0.05, "{found}");
    }
    for eyes in [Eyes::Protanope, Eyes::Deuteranope] {
        let grey = lab(seen(light("808080"), eyes));
        assert!(grey[1].abs() < 2.0 && grey[2].abs() < 2.0, "{eyes:?}: {grey:?}");
    }
    let (red, green) = (light("cc4444"), light("448800"));
    assert!(apart(red, green, Eyes::Usual) > 80.0);
    assert!(apart(red, green, Eyes::Deuteranope) < 30.0);
}

/// WCAG 2.2, 1.4.3: words have a contrast of at least 4.5.
#[test]
fn words_can_be_read_on_paper_and_band() {
    for (medium, colours) in media() {
        for ground in ["paper", "band"] {
            for word in WORDS {
                let found = contrast(colours[word], colours[ground]);
                assert!(found >= 4.5, "{medium}: {word} on {ground}: {found:.2}");
            }
        }
    }
}

/// WCAG 2.2, 1.4.11: marks that mean something have a contrast of at least 3.
#[test]
fn marks_stand_out_on_paper_and_band() {
    for (medium, colours) in media() {
        for ground in ["paper", "band"] {
            for mark in MARKS {
                let found = contrast(colours[mark], colours[ground]);
                assert!(found >= 3.0, "{medium}: {mark} on {ground}: {found:.2}");
            }
        }
    }
}

/// Our bounds: 20 for any two of the first four series, 35 for the sides. A distance of about 2.3 is
/// just noticed (Mahy et al. 1994, from memory), so that of the series is some nine times as far.
#[test]
fn sides_and_series_stay_apart_for_all_eyes() {
    let series = ["series-0", "series-1", "series-2", "series-3"];
    for (medium, colours) in media() {
        for eyes in [Eyes::Usual, Eyes::Protanope, Eyes::Deuteranope] {
            let sides = apart(colours["attacker"], colours["defender"], eyes);
            assert!(sides >= 35.0, "{medium}, {eyes:?}: sides {sides:.1}");
            for (n, a) in series.iter().enumerate() {
                for b in &series[n + 1..] {
                    let found = apart(colours[*a], colours[*b], eyes);
                    assert!(found >= 20.0, "{medium}, {eyes:?}: {a} and {b} {found:.1}");
                }
            }
        }
    }
}

#[test]
fn every_medium_has_every_colour() {
    let [(_, light), (_, dark), (_, print)] = media();
    let names = |colours: &Colours| colours.keys().cloned().collect::<Vec<_>>();
    assert_eq!(names(&light), names(&dark));
    assert_eq!(names(&light), names(&print));
    assert!(WORDS.iter().chain(&MARKS).all(|name| light.contains_key(*name)));
}
