//! A thing on the page: where it lies, what it is, and whether letters may lie on it.
//!
//! Must not know its neighbours.

use crate::measure::{Angle, Point, Size, Tint};
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
    /// A photo that cannot be reprinted.
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

impl Element {
    /// What the owner calls it, or else what it is.
    #[must_use]
    pub fn called(&self) -> &str {
        self.name.as_deref().unwrap_or(self.kind.as_str())
    }

    /// Whether letters may lie on it: photos and journaling never, labels at the edge, the rest freely, unless the
    /// plan says otherwise (common practice, no source).
    #[must_use]
    pub fn cover(&self) -> Cover {
        self.cover.unwrap_or(match self.kind {
            Kind::Photo | Kind::Journaling => Cover::Never,
            Kind::Label => Cover::Edge,
            Kind::Mat | Kind::Paper | Kind::Border | Kind::Embellishment => Cover::Fine,
        })
    }

    /// Whether it is a backing that counts as bare paper on a page of `page`: a paper or mat of at least half the page,
    /// unless the plan says otherwise.
    #[must_use]
    pub fn is_bed(&self, page: Size) -> bool {
        let backing = matches!(self.kind, Kind::Paper | Kind::Mat);
        let area = |size: Size| size.width.mm() * size.height.mm();
        self.bed.unwrap_or(backing && area(self.lie.size) * 2.0 >= area(page))
    }
}

/// Where a thing lies, in mm, worked out once for many points.
#[derive(Debug, Clone, Copy)]
pub struct Footprint {
    centre: (f64, f64),
    half: (f64, f64),
    sin_cos: (f64, f64),
    /// Nothing of it is further from its centre, across and down.
    reach: (f64, f64),
    outline: Outline,
}

impl Lie {
    /// Its footprint.
    #[must_use]
    pub fn footprint(&self) -> Footprint {
        let half = (self.size.width.mm() / 2.0, self.size.height.mm() / 2.0);
        let (sin, cos) = self.turn.sin_cos();
        let reach = |of_width: f64, of_height: f64| half.0 * of_width.abs() + half.1 * of_height.abs() + 1e-6;
        Footprint {
            centre: (self.at.x.mm() + half.0, self.at.y.mm() + half.1),
            half,
            sin_cos: (sin, cos),
            reach: (reach(cos, sin), reach(sin, cos)),
            outline: self.outline,
        }
    }
}

impl Footprint {
    /// Whether a row of the page, at `y` mm from its top edge, can meet it at all.
    #[must_use]
    pub fn meets_row(&self, y: f64) -> bool {
        (y - self.centre.1).abs() <= self.reach.1
    }

    /// Whether the point at `x`, `y` in mm from the page's left and top edge lies on it; its edge does.
    #[must_use]
    pub fn covers(&self, x: f64, y: f64) -> bool {
        let (dx, dy) = (x - self.centre.0, y - self.centre.1);
        if dx.abs() > self.reach.0 || dy.abs() > self.reach.1 {
            return false;
        }
        let (sin, cos) = self.sin_cos;
        // Turned back: on the page y runs down, so clockwise is the positive sense.
        let (across, down) = ((dx * cos + dy * sin) / self.half.0, (dy * cos - dx * sin) / self.half.1);
        match self.outline {
            Outline::Rect => across.abs() <= 1.0 && down.abs() <= 1.0,
            Outline::Round => across * across + down * down <= 1.0,
        }
    }
}
