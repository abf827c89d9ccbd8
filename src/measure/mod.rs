//! Lengths, angles, points of the score, and colour.
