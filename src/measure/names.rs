//! Colours by name: the owner's own names first, then the open CSS list; and what to offer for a name that is neither.
//!
//! Must not know where a colour is used.

use std::collections::BTreeMap;

use crate::words::nearest;

use super::{Colour, Lab, Tint, css_names};

/// Names that the owner gave to colours in `taste.toml`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ColourNames(BTreeMap<String, Colour>);

impl ColourNames {
    /// Names `colour`; an earlier one of that name is replaced. Case does not matter.
    pub fn name(&mut self, name: &str, colour: Colour) {
        self.0.insert(name.trim().to_lowercase(), colour);
    }

    /// Every own name, in order.
    pub fn iter(&self) -> impl Iterator<Item = (&str, Colour)> {
        self.0.iter().map(|(name, colour)| (name.as_str(), *colour))
    }

    /// Reads an own name, a CSS keyword or `#rrggbb`. A name is kept as it is written.
    ///
    /// # Errors
    /// What was found and which names would do: the nearest by spelling and three by meaning.
    pub fn read(&self, text: &str) -> Result<Tint, String> {
        let name = text.trim();
        if let Some(colour) = Colour::from_hex(name) {
            return Ok(Tint::plain(colour));
        }
        let own = || self.0.get(name).or_else(|| self.0.get(&name.to_lowercase())).copied();
        let own = if self.0.is_empty() { None } else { own() };
        match own.or_else(|| Colour::named(name)) {
            Some(colour) => Ok(Tint::called(name, colour)),
            None => Err(self.unknown(name)),
        }
    }

    /// Reads colours parted by commas or, where there are none, by spaces.
    ///
    /// # Errors
    /// As [`ColourNames::read`], for the first that cannot be read.
    pub fn read_several(&self, text: &str) -> Result<Vec<Tint>, String> {
        // The owner's own name for one colour may be of several words.
        if let Ok(only) = self.read(text) {
            return Ok(vec![only]);
        }
        let parts: Vec<&str> =
            if text.contains(',') { text.split(',').collect() } else { text.split_whitespace().collect() };
        let named = parts.into_iter().map(str::trim).filter(|part| !part.is_empty());
        named.map(|part| self.read(part)).collect()
    }

    /// How a file spells `tint`: its name where that still means the same colour, else `#rrggbb`.
    #[must_use]
    pub fn spell(&self, tint: &Tint) -> String {
        let named =
            tint.name.as_deref().filter(|name| self.read(name).is_ok_and(|read| read.colour == tint.colour));
        named.map_or_else(|| tint.colour.hex(), str::to_owned)
    }

    /// The names that `begun` may become, the likeliest first: those that begin with it, own names before the open list;
    /// those that hold it; then what the open list has for a word of the craft that begins with it. Case, spaces and
    /// hyphens do not matter. Nothing begun: every name, own ones first, the rest from hue to hue, greys last.
    #[must_use]
    pub fn offers(&self, begun: &str) -> Vec<Tint> {
        let squeezed = |text: &str| text.to_lowercase().replace([' ', '-', '_'], "");
        let wanted = squeezed(begun);
        let all: Vec<(&str, Colour)> = self.names().collect();
        if wanted.is_empty() {
            let (own, open) = all.split_at(self.0.len());
            let mut open = open.to_vec();
            open.sort_by_cached_key(|(_, colour)| by_hue(*colour));
            return own.iter().chain(&open).map(|(name, colour)| Tint::called(name, *colour)).collect();
        }
        let begins = all.iter().filter(|(name, _)| squeezed(name).starts_with(&wanted));
        let holds = all.iter().filter(|(name, _)| squeezed(name).find(&wanted).is_some_and(|at| at > 0));
        let craft =
            CRAFT_WORDS.iter().filter(|(word, _)| word.starts_with(&wanted)).flat_map(|(_, names)| names);
        let craft = craft.filter_map(|name| all.iter().find(|(one, _)| one == name));
        let mut offers: Vec<Tint> = Vec::new();
        for (name, colour) in begins.chain(holds).chain(craft) {
            let tint = Tint::called(name, *colour);
            if !offers.contains(&tint) {
                offers.push(tint);
            }
        }
        offers
    }

    /// The next name lighter than `colour`, or darker, most like it otherwise; `None` where there is none.
    #[must_use]
    pub fn next_shade(&self, colour: Colour, lighter: bool) -> Option<Tint> {
        /// A step of lightness that can be seen (CIE L*).
        const STEP: f64 = 2.0;
        let from = colour.lab();
        let rise = |lab: Lab| if lighter { lab.l() - from.l() } else { from.l() - lab.l() };
        // How far it strays in hue and chroma counts double against how far it goes.
        let apart = |lab: Lab| 2.0 * lab.at_lightness(from.l()).difference_exact(from) + rise(lab);
        let all = self.names().map(|(name, colour)| (name, colour, colour.lab()));
        let nearest = all.filter(|row| rise(row.2) >= STEP).min_by(|a, b| apart(a.2).total_cmp(&apart(b.2)));
        nearest.map(|(name, colour, _)| Tint::called(name, colour))
    }

    fn unknown(&self, name: &str) -> String {
        if name.starts_with('#') {
            return format!("{name:?} is no colour; write # and six of 0-9 and a-f, such as \"#2f3e46\"");
        }
        let mut offers: Vec<String> = Vec::new();
        if let Some(near) = nearest(name, self.names().map(|(name, _)| name)) {
            offers.push(format!("spelled alike: {near}"));
        }
        let meant = self.meant_by(name);
        if !meant.is_empty() {
            offers.push(format!("near in meaning: {}", meant.join(", ")));
        }
        let offers = if offers.is_empty() { String::new() } else { format!(" ({})", offers.join("; ")) };
        format!(
            "{name:?} is no colour; write a CSS name{offers}, \"#rrggbb\", or name it in taste.toml under [colours]"
        )
    }

    /// Own names, then those of the CSS list that no own name takes the place of, with one spelling of grey; in order.
    fn names(&self) -> impl Iterator<Item = (&str, Colour)> {
        let is_open = |name: &str| !name.contains("gray") && !self.0.contains_key(name);
        let mut open: Vec<_> = css_names().filter(|(name, _)| is_open(name)).collect();
        open.sort_unstable_by_key(|(name, _)| *name);
        self.iter().chain(open)
    }

    /// Up to three names near in meaning: those that share a word, then those of the craft's word for it, then what
    /// looks nearest to the first of these.
    fn meant_by(&self, name: &str) -> Vec<&str> {
        let lower = name.to_lowercase();
        let words: Vec<&str> = lower.split([' ', '-', '_']).filter(|word| word.len() > 2).collect();
        let mut found: Vec<&str> = Vec::new();
        for word in words.iter().rev() {
            let row = CRAFT_WORDS.iter().find(|(craft, _)| craft == word);
            found.extend(row.into_iter().flat_map(|(_, names)| *names));
            let mut sharing: Vec<&str> =
                self.names().map(|(name, _)| name).filter(|name| name.contains(word)).collect();
            sharing.sort_by_key(|name| name.len());
            found.extend(sharing);
        }
        let mut kept: Vec<&str> = Vec::new();
        for name in found {
            if !kept.contains(&name) {
                kept.push(name);
            }
        }
        if let Some(first) = kept.first().and_then(|name| self.read(name).ok()) {
            let lab = first.colour.lab();
            let mut alike: Vec<(&str, f64)> =
                self.names().map(|(name, colour)| (name, colour.lab().difference_exact(lab))).collect();
            alike.sort_by(|a, b| a.1.total_cmp(&b.1));
            let fresh: Vec<&str> =
                alike.iter().map(|row| row.0).filter(|name| !kept.contains(name)).take(3).collect();
            kept.extend(fresh);
        }
        kept.truncate(3);
        kept
    }
}

/// Colours first from hue to hue, the lighter before the darker; then greys.
fn by_hue(colour: Colour) -> (bool, u16, i16) {
    /// Less chroma than this looks grey (measured on the open list's greys and snowy whites).
    const GREY: f64 = 8.0;
    let lab = colour.lab();
    let is_grey = lab.chroma() < GREY;
    // A twelfth of the circle looks like one hue.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 12, and -100 to 0")]
    let (hue, light) = ((lab.hue_degrees() / 30.0) as u16, -lab.l() as i16);
    (is_grey, if is_grey { 0 } else { hue }, light)
}

/// The craft's words for colours that the CSS list lacks, with the names there that come near. Common practice, no
/// source.
const CRAFT_WORDS: &[(&str, [&str; 3])] = &[
    ("amber", ["orange", "goldenrod", "darkorange"]),
    ("apricot", ["sandybrown", "peachpuff", "lightsalmon"]),
    ("ash", ["silver", "lightgrey", "gainsboro"]),
    ("aubergine", ["indigo", "purple", "darkslateblue"]),
    ("berry", ["mediumvioletred", "crimson", "purple"]),
    ("blush", ["mistyrose", "lavenderblush", "pink"]),
    ("brick", ["firebrick", "brown", "indianred"]),
    ("bronze", ["peru", "darkgoldenrod", "sienna"]),
    ("burgundy", ["maroon", "darkred", "brown"]),
    ("butter", ["khaki", "palegoldenrod", "lemonchiffon"]),
    ("caramel", ["peru", "chocolate", "sandybrown"]),
    ("champagne", ["bisque", "moccasin", "wheat"]),
    ("charcoal", ["darkslategrey", "dimgrey", "black"]),
    ("cherry", ["crimson", "firebrick", "red"]),
    ("chestnut", ["saddlebrown", "sienna", "brown"]),
    ("cinnamon", ["chocolate", "sienna", "peru"]),
    ("cobalt", ["royalblue", "mediumblue", "blue"]),
    ("coffee", ["saddlebrown", "sienna", "maroon"]),
    ("copper", ["chocolate", "peru", "sienna"]),
    ("cream", ["cornsilk", "ivory", "oldlace"]),
    ("denim", ["steelblue", "royalblue", "slateblue"]),
    ("ecru", ["wheat", "beige", "antiquewhite"]),
    ("eggshell", ["linen", "seashell", "ivory"]),
    ("emerald", ["mediumseagreen", "seagreen", "limegreen"]),
    ("forest", ["forestgreen", "darkgreen", "green"]),
    ("heather", ["thistle", "plum", "mediumpurple"]),
    ("honey", ["goldenrod", "orange", "gold"]),
    ("ink", ["midnightblue", "darkslateblue", "black"]),
    ("jade", ["mediumseagreen", "seagreen", "mediumaquamarine"]),
    ("kraft", ["tan", "burlywood", "rosybrown"]),
    ("lemon", ["lemonchiffon", "yellow", "khaki"]),
    ("lilac", ["plum", "thistle", "lavender"]),
    ("mauve", ["thistle", "plum", "rosybrown"]),
    ("mint", ["mintcream", "aquamarine", "palegreen"]),
    ("mocha", ["rosybrown", "saddlebrown", "tan"]),
    ("moss", ["olivedrab", "darkolivegreen", "olive"]),
    ("mustard", ["goldenrod", "darkgoldenrod", "gold"]),
    ("nude", ["bisque", "peachpuff", "wheat"]),
    ("ocean", ["steelblue", "darkcyan", "teal"]),
    ("ochre", ["darkgoldenrod", "goldenrod", "peru"]),
    ("peach", ["peachpuff", "lightsalmon", "sandybrown"]),
    ("pearl", ["whitesmoke", "ghostwhite", "linen"]),
    ("petrol", ["teal", "darkslategrey", "darkcyan"]),
    ("pewter", ["grey", "slategrey", "dimgrey"]),
    ("pumpkin", ["darkorange", "chocolate", "coral"]),
    ("raspberry", ["crimson", "mediumvioletred", "deeppink"]),
    ("rose", ["palevioletred", "pink", "mistyrose"]),
    ("russet", ["saddlebrown", "sienna", "brown"]),
    ("rust", ["sienna", "chocolate", "saddlebrown"]),
    ("saffron", ["orange", "gold", "goldenrod"]),
    ("sage", ["darkseagreen", "palegreen", "olivedrab"]),
    ("sand", ["sandybrown", "wheat", "burlywood"]),
    ("sapphire", ["mediumblue", "royalblue", "darkblue"]),
    ("scarlet", ["crimson", "red", "firebrick"]),
    ("sepia", ["saddlebrown", "sienna", "tan"]),
    ("slate", ["slategrey", "darkslategrey", "lightslategrey"]),
    ("soot", ["black", "darkslategrey", "dimgrey"]),
    ("stone", ["darkgrey", "tan", "silver"]),
    ("strawberry", ["crimson", "indianred", "lightcoral"]),
    ("tangerine", ["darkorange", "orange", "coral"]),
    ("taupe", ["rosybrown", "tan", "grey"]),
    ("terracotta", ["sienna", "indianred", "salmon"]),
    ("vanilla", ["cornsilk", "lemonchiffon", "beige"]),
    ("vermilion", ["orangered", "tomato", "red"]),
    ("wine", ["maroon", "darkred", "purple"]),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn craft_words_lead_to_names_that_are_there() {
        for name in CRAFT_WORDS.iter().flat_map(|(_, names)| names) {
            assert!(Colour::named(name).is_some(), "{name}");
        }
        assert!(CRAFT_WORDS.is_sorted_by_key(|row| row.0));
    }

    #[test]
    fn a_name_is_offered_by_how_it_begins() {
        let mut own = ColourNames::default();
        own.name("sea glass", Colour::named("darkseagreen").unwrap_or(Colour::BLACK));
        let first = |begun: &str| -> Vec<String> {
            own.offers(begun).iter().take(3).map(|tint| tint.name().into_owned()).collect()
        };
        assert_eq!(first("cor"), ["coral", "cornflowerblue", "cornsilk"]);
        assert_eq!(first("seag"), ["sea glass", "seagreen", "darkseagreen"]);
        assert_eq!(first("musta"), ["goldenrod", "darkgoldenrod", "gold"]);
        assert!(own.offers("xyz").is_empty());
        assert_eq!(first("")[0], "sea glass");
        assert!(own.offers("").len() > 130);
    }

    #[test]
    fn a_shade_lighter_or_darker_keeps_its_hue() {
        let names = ColourNames::default();
        let walk = |name: &str, lighter: bool| {
            let colour = Colour::named(name).unwrap_or(Colour::BLACK);
            names.next_shade(colour, lighter).map(|tint| tint.name().into_owned())
        };
        assert_eq!(walk("teal", true).as_deref(), Some("darkcyan"));
        assert_eq!(walk("mediumblue", false).as_deref(), Some("darkblue"));
        assert_eq!(walk("white", true), None);
        assert_eq!(walk("black", false), None);
    }

    #[test]
    fn own_names_go_before_the_open_list() {
        let mut own = ColourNames::default();
        own.name("Teal", Colour::BLACK);
        assert_eq!(own.read("teal"), Ok(Tint::called("teal", Colour::BLACK)));
        assert_eq!(own.read("#fff"), Ok(Tint::plain(Colour::WHITE)));
        assert_eq!(own.spell(&Tint::called("teal", Colour::WHITE)), "#ffffff");
    }
}
