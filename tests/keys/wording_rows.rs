//! For every action of the wording's view at least one row: the line before, the keys, and what is there after.
//!
//! Must not know how a row is tried.

use super::rows::Case;

/// One row or more for every action. The wishes are LANE, WAKE and QUAY.
pub(super) const CASES: &[Case] = &[
    ("to-wording", "[A] N", "4", "[A] N  'AN' now; wish 1 of 3"),
    ("to-bench", "[A] N", "4 1", "[A] N"),
    ("wording", "[A] N", "4 w", "[A] N  typing 'AN'"),
    ("finish", "[A] N", "4 w ctrl-u 'LLL' enter", "[A] N  'LLL' only with mixed heights; wish 1 of 3"),
    ("finish", "[A] N", "4 w ctrl-u 'WREN' enter", "[A] N  'WREN' now; wish 1 of 3"),
    ("finish", "[A] N", "4 w ctrl-u 'QAAAAA' enter", "[A] N  'QAAAAA' short of A, Q; wish 1 of 3"),
    ("finish", "[A] N", "4 w ctrl-u 'A|B|C' enter", "[A] N  typing 'A|B|C'"),
    ("abandon", "[A] N", "4 w ctrl-u 'WREN' esc", "[A] N  'AN' now; wish 1 of 3"),
    ("wording-down", "[A] N", "4 down", "[A] N  'LANE' now; wish 1 of 3"),
    ("wording-down", "[A] N", "4 down down down down", "[A] N  'QUAY' short of Q, U, Y; wish 3 of 3"),
    ("wording-up", "[A] N", "4 end up", "[A] N  'WAKE' now; wish 2 of 3"),
    ("wording-page-down", "[A] N", "4 page-down", "[A] N  'QUAY' short of Q, U, Y; wish 3 of 3"),
    ("wording-page-up", "[A] N", "4 end page-up", "[A] N  'LANE' now; wish 1 of 3"),
    ("wording-first", "[A] N", "4 end home", "[A] N  'LANE' now; wish 1 of 3"),
    ("wording-last", "[A] N", "4 end", "[A] N  'QUAY' short of Q, U, Y; wish 3 of 3"),
    ("use-wording", "[A] N", "4 end enter", "[Q] U A Y"),
    ("use-wording", "[kelp/A] N", "4 down enter", "[L] kelp/A N E"),
    ("add-wish", "[A] N", "4 a", "[A] N  'AN' now; wish 1 of 3 -> AddWish(AN)"),
    ("add-wish", "[A] N", "4 end a", "[A] N  'QUAY' short of Q, U, Y; wish 3 of 3"),
    ("add-wish", "[A] N", "@held 4 a", "[A] N  'AN' now; wish 1 of 3"),
    ("drop-wish", "[A] N", "4 d", "[A] N  DropWish(LANE)?"),
    ("yes", "[A] N", "4 end d y", "[A] N  'QUAY' short of Q, U, Y; wish 3 of 3 -> DropWish(QUAY)"),
    ("no", "[A] N", "4 d n", "[A] N  'AN' now; wish 1 of 3"),
    ("must", "[A] N", "4 down space", "[A] N  'LANE' now; wish 1 of 3, must"),
    ("must", "[A] N", "4 down space space", "[A] N  'LANE' now; wish 1 of 3"),
    ("ideas", "[A] N", "4 g", "[A] N  typing ''"),
    ("finish", "[A] N", "4 g '4 with WR' enter", "[A] N  'AN' now; wish 1 of 3  looking -> LookForIdeas"),
    ("finish", "[A] N", "4 g 'harbour' enter", "[A] N  typing 'harbour'"),
    ("wording-down", "[A] N", "4 g '4 with WR' enter @ideas @work down", "[A] N  'WARM' now; idea 1 of 10"),
    ("other-list", "[A] N", "4 tab", "[A] N  'AN' now; idea 1 of 0"),
    ("other-list", "[A] N", "4 tab tab", "[A] N  'LANE' now; wish 1 of 3"),
    ("stop", "[A] N", "4 g enter @ideas esc", "[A] N  'AN' now; idea 1 of 0"),
    ("explain", "[A] N", "4 x", "[A] N  what the stash says to AN from 1"),
    (
        "spare-plans",
        "[kelp/A] kelp/N",
        "4 w ctrl-u 'AAA' enter p",
        "[kelp/A] kelp/N  'AAA' only with mixed heights; wish 1 of 3",
    ),
    ("spell-case", "[A] N", "4 w ctrl-u 'alan' enter K", "[A] N  'alan' short of a; wish 1 of 3"),
    ("spell-forms", "[A] N", "4 w ctrl-u 'WE' enter F", "[A] N  'WE' with stand-ins; wish 1 of 3"),
    ("spell-heights", "[A] N", "4 H", "[A] N  typing ''"),
    ("finish", "[A] N", "4 H '5-12' enter", "[A] N  'AN' with stand-ins; wish 1 of 3"),
    ("finish", "[A] N", "4 H 'tall' enter", "[A] N  typing 'tall'"),
];
