//! Checks against the world outside: published standards, tables and other people's libraries, each named beside its check.
//!
//! Must not know how the program comes by its answers.

mod areas;
mod best_mix;
mod canonical_forms;
mod characters;
mod colour;
mod colour_pairs;
mod drawn_orders;
mod drawn_svg;
mod faces;
mod frequency;
mod grapheme_breaks;
mod lengths;
mod paper;
mod practice;
mod practice_of_place;
mod printed_order;
mod printed_pdf;
mod silhouettes;
mod spelling;
mod trapped_space;
mod wishes;
mod word_list;
