//! A thing on the page: where it lies, what it is, and whether letters may lie on it.
//!
//! Must not know its neighbours.

use crate::measure::{Angle, Point, Polygon, Size, Tint};
use crate::words::words;

words! {
    /// What a thing on the page is.
    Kind {
        /// A photo.
        Photo = "photo",
        /// The paper or card behind a photo.
        Mat = "mat",
        /// Patterned or plain paper.
        Paper = "paper",
        /// A strip along an edge.
        Border = "border",
        /// A flower, a tag, a button.
        Embellishment = "embellishment",
        /// Room for handwriting.
        Journaling = "journaling",
        /// A small printed label.
        Label = "label",
    }
}

words! {
    /// The outline of a thing on the page.
    Outline {
        /// A rectangle.
        Rect = "rect",
        /// A circle or an ellipse that fills its box.
        Round = "round",
    }
}

words! {
    /// Whether letters may lie on a thing.
    Cover {
        /// They may not.
        Never = "never",
        /// They may overlap its edge.
        Edge = "edge",
        /// They may.
        Fine = "fine",
    }
}

/// A thing on the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Element {
    /// What the owner calls it.
    pub name: Option<String>,
    /// What it is.
    pub kind: Kind,
    /// There is no second one of it: a photo that cannot be reprinted.
    pub original: bool,
    /// Where it lies.
    pub lie: Lie,
    /// Its colours, the main one first; may be empty.
    pub colours: Vec<Tint>,
    /// Whether letters may lie on it; absent: by its kind.
    pub cover: Option<Cover>,
    /// Whether it is a backing that counts as bare paper; absent: by its size.
    pub bed: Option<bool>,
}

/// Where a thing lies, and its outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lie {
    /// Left and top edge, before it is turned.
    pub at: Point,
    /// Width and height.
    pub size: Size,
    /// Turned about its centre, clockwise positive.
    pub turn: Angle,
    /// Its outline.
    pub outline: Outline,
}

impl Lie {
    /// Its outline on the page, in mm, clockwise; one that is round has 48 corners.
    #[must_use]
    pub fn polygon(&self) -> Polygon {
        let half = (self.size.width.mm() / 2.0, self.size.height.mm() / 2.0);
        let centre = (self.at.x.mm() + half.0, self.at.y.mm() + half.1);
        let (sin, cos) = self.turn.sin_cos();
        let laid = |(x, y): (f64, f64)| {
            let (x, y) = (x * half.0, y * half.1);
            (centre.0 + x * cos - y * sin, centre.1 + x * sin + y * cos)
        };
        match self.outline {
            Outline::Rect => [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(laid).to_vec(),
            Outline::Round => {
                (0..48).map(|step| libm::sincos(f64::from(step) * 7.5_f64.to_radians())).map(laid).collect()
            }
        }
    }
}

impl Element {
    /// What the owner calls it, or else what it is.
    #[must_use]
    pub fn called(&self) -> &str {
        self.name.as_deref().unwrap_or(self.kind.as_str())
    }

    /// Whether `other` differs from it in no more than where and how large it lies.
    #[must_use]
    pub fn is_but_for_its_lie(&self, other: &Self) -> bool {
        let rest = |one: &Self| (one.kind, one.original, one.cover, one.bed);
        rest(self) == rest(other) && self.name == other.name && self.colours == other.colours
    }

    /// Whether letters may lie on it: photos, journaling and originals never, labels at the edge, the rest freely, unless
    /// the plan says otherwise (common practice, no source).
    #[must_use]
    pub fn cover(&self) -> Cover {
        self.cover.unwrap_or(match self.kind {
            _ if self.original => Cover::Never,
            Kind::Photo | Kind::Journaling => Cover::Never,
            Kind::Label => Cover::Edge,
            Kind::Mat | Kind::Paper | Kind::Border | Kind::Embellishment => Cover::Fine,
        })
    }

    /// Whether it is a backing that counts as bare paper on a page of `page`: a paper or mat of at least half the page,
    /// where that has a size, unless the plan says otherwise.
    #[must_use]
    pub fn is_bed(&self, page: Option<Size>) -> bool {
        let backing = matches!(self.kind, Kind::Paper | Kind::Mat);
        let area = |size: Size| size.width.mm() * size.height.mm();
        let is_large = || page.is_some_and(|page| area(self.lie.size) * 2.0 >= area(page));
        self.bed.unwrap_or_else(|| backing && is_large())
    }
}
