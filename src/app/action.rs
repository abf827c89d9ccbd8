//! One table of actions: what each is called, the key it comes with, where it works, and its help.
//!
//! The keys that work, the key bar, the help and `keys.toml` are all made from it. Must not know what an action does.

use super::focus::{Focus, Reach};

/// One row of the table.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    /// What is done.
    pub action: Action,
    /// Its name in `keys.toml`.
    pub name: &'static str,
    /// The keys it comes with, as [`super::Key::parse`] reads them.
    pub keys: &'static [&'static str],
    /// Where it works.
    pub reach: Reach,
    /// One or two words for the key bar; empty: not shown there.
    pub label: &'static str,
    /// One sentence for the help.
    pub help: &'static str,
}

/// Declares the actions and their table.
macro_rules! actions {
    ($($action:ident $name:literal [$($key:literal)+] $reach:expr, $label:literal: $help:literal;)+) => {
        /// Everything that a key can do.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[expect(missing_docs, reason = "each is told by the help of its row")]
        pub enum Action { $($action),+ }

        /// Every action, in the order of the help.
        pub const ACTIONS: &[Row] = &[$(Row {
            action: Action::$action, name: $name, keys: &[$($key),+], reach: $reach, label: $label, help: $help,
        }),+];
    };
}

use Focus::{
    Alternates, Checks, Compare, Fields, Grid, Letters, OnPage, Order, Plans, Question, Sheets, Strip,
};
use Focus::{Suggestions, Swatches, Typing, Wishes};
use Reach::{Bench, Both, In, Over, Sheet, Trial, Views, Wordings};

actions! {
    SlotLeft "slot-left" ["left"] In(Strip), "": "Choose the slot to the left.";
    SlotRight "slot-right" ["right"] In(Strip), "slot": "Choose the slot to the right.";
    SlotFirst "slot-first" ["home"] In(Strip), "": "Choose the first slot.";
    SlotLast "slot-last" ["end"] In(Strip), "": "Choose the last slot.";
    SwapBetter "swap-better" ["up"] In(Strip), "": "Swap in the alternate before this one: a better one.";
    SwapNext "swap-next" ["down"] In(Strip), "swap": "Swap in the next alternate, the best first.";
    ListAlternates "alternates" ["enter"] In(Strip), "alternates": "List the letters that could stand here, and why each is where it is.";
    TakeOff "take-off" ["delete" "backspace" "d"] In(Strip), "take off": "Take the letter off the strip.";
    Exchange "exchange" ["x"] In(Strip), "exchange": "Mark this slot; on a second slot, exchange the two letters.";
    NudgeLeft "nudge-left" [","] In(Strip), "": "Nudge the letter to the left by 0.5 mm, or 1/16 in.";
    NudgeRight "nudge-right" ["."] In(Strip), "nudge": "Nudge the letter to the right by 0.5 mm, or 1/16 in.";
    NudgeFarLeft "nudge-far-left" ["<"] In(Strip), "": "Nudge the letter to the left by 5 mm, or 1/4 in.";
    NudgeFarRight "nudge-far-right" [">"] In(Strip), "": "Nudge the letter to the right by 5 mm, or 1/4 in.";
    Raise "raise" ["+" "="] In(Strip), "raise": "Raise the letter off its line by 0.5 mm, or 1/16 in.";
    Lower "lower" ["-"] In(Strip), "": "Lower the letter by 0.5 mm, or 1/16 in.";
    TiltLeft "tilt-left" ["["] In(Strip), "": "Tilt the letter 1 degree to the left.";
    TiltRight "tilt-right" ["]"] In(Strip), "tilt": "Tilt the letter 1 degree to the right.";
    Straighten "straighten" ["0"] In(Strip), "": "Undo the letter's nudge, raise and tilt.";
    Pin "pin" ["p"] In(Strip), "pin": "Pin the letter, so that suggestions leave it alone; or unpin it.";
    OneMore "one-more" ["m"] In(Strip), "one more": "Tell what one more of this slot's letter would do, and of which kind.";
    LiftOne "lift-one" ["l"] In(Strip), "lift": "Tell that this stuck-down letter came off: whole, or torn.";
    ByHand "by-hand" ["b"] In(Strip), "by hand": "Stand a thing that is no sticker here, such as a button for an O.";

    ChipLeft "chip-left" ["left"] In(Grid), "": "Go to the chip on the left.";
    ChipRight "chip-right" ["right"] In(Grid), "": "Go to the chip on the right.";
    ChipUp "chip-up" ["up"] In(Grid), "": "Go a row up.";
    ChipDown "chip-down" ["down"] In(Grid), "": "Go a row down.";
    ChipPageUp "chip-page-up" ["page-up"] In(Grid), "": "Go a page up.";
    ChipPageDown "chip-page-down" ["page-down"] In(Grid), "": "Go a page down.";
    ChipFirst "chip-first" ["home"] In(Grid), "": "Go to the first chip.";
    ChipLast "chip-last" ["end"] In(Grid), "": "Go to the last chip.";
    Stand "stand" ["enter" "space"] In(Grid), "stand": "Stand the chip's letter in the chosen slot, if it can serve there.";
    Group "group" ["g"] In(Grid), "group": "Group the chips by character, by sheet, by colour or by height.";

    FindingUp "finding-up" ["up"] In(Checks), "": "Go to the finding before.";
    FindingDown "finding-down" ["down"] In(Checks), "": "Go to the next finding.";
    FindingFirst "finding-first" ["home"] In(Checks), "": "Go to the first finding.";
    FindingLast "finding-last" ["end"] In(Checks), "": "Go to the last finding.";
    Cure "cure" ["enter"] In(Checks), "cure": "Go to the slot it means, and list the letters that would cure it; where a place is amiss, to the page.";
    Accept "accept" ["a"] In(Checks), "accept": "Be content with findings of this kind on this strip; or no longer.";

    CarryLeft "carry-left" ["left"] In(OnPage), "": "Carry what is chosen 1 mm, or 1/16 in, to the left; put down a strip that is not on the page.";
    CarryRight "carry-right" ["right"] In(OnPage), "carry": "Carry it to the right by 1 mm, or 1/16 in.";
    CarryUp "carry-up" ["up"] In(OnPage), "": "Carry it up the page by 1 mm, or 1/16 in.";
    CarryDown "carry-down" ["down"] In(OnPage), "": "Carry it down the page by 1 mm, or 1/16 in.";
    CarryFarLeft "carry-far-left" ["shift-left" "H"] In(OnPage), "": "Carry it to the left by 10 mm, or 1/2 in.";
    CarryFarRight "carry-far-right" ["shift-right" "L"] In(OnPage), "": "Carry it to the right by 10 mm, or 1/2 in.";
    CarryFarUp "carry-far-up" ["shift-up" "K"] In(OnPage), "": "Carry it up the page by 10 mm, or 1/2 in.";
    CarryFarDown "carry-far-down" ["shift-down" "J"] In(OnPage), "": "Carry it down the page by 10 mm, or 1/2 in.";
    AddThing "add" ["a"] In(OnPage), "add": "Add a thing by one typed line, such as: photo 6 x 4 in teal tan.";
    Near "near" ["z"] In(OnPage), "zoom": "Look at what is chosen from near, or at the whole page.";
    ThingNext "thing-next" ["tab"] In(OnPage), "next": "Choose the next thing on the page: the strips, then the topmost first.";
    ThingBefore "thing-before" ["shift-tab"] In(OnPage), "": "Choose the thing before.";
    RestNext "rest-next" ["n"] In(OnPage), "rest": "Send the strip to its next resting place, the best first: it touches something and traps nothing.";
    RestBefore "rest-before" ["p"] In(OnPage), "": "Send the strip to the resting place before.";
    ChangeThing "change" ["enter"] In(OnPage), "change": "Change the chosen thing by one typed line; of a strip: go to the bench, to its letters.";
    TurnLeft "turn-left" ["["] In(OnPage), "": "Turn it 1 degree to the left.";
    TurnRight "turn-right" ["]"] In(OnPage), "turn": "Turn it 1 degree to the right.";
    TurnLeftFine "turn-left-fine" ["{"] In(OnPage), "": "Turn it a tenth of a degree to the left.";
    TurnRightFine "turn-right-fine" ["}"] In(OnPage), "": "Turn it a tenth of a degree to the right.";
    TurnStraight "turn-straight" ["0"] In(OnPage), "": "Turn it straight.";
    PutAt "put-at" ["g"] In(OnPage), "place": "Type where it lies, from the left and the top edge, and how it is turned.";
    MatUnder "mat" ["m"] In(OnPage), "mat": "Put a mat under the chosen thing, 4 mm larger all round or as typed.";
    TakeAway "take-away" ["delete" "backspace" "d"] In(OnPage), "take away": "Take the chosen thing, or the strip, off the page.";
    StackUp "stack-up" ["page-up"] In(OnPage), "": "Lay it over the thing above it in the stack.";
    StackDown "stack-down" ["page-down"] In(OnPage), "": "Lay it under the thing below it in the stack.";
    SizeThing "size" ["e"] In(OnPage), "size": "Type its size: width x height.";
    Larger "larger" ["+" "="] In(OnPage), "": "Make it larger by 1 mm, or 1/16 in, all round.";
    Smaller "smaller" ["-"] In(OnPage), "": "Make it smaller by as much all round.";
    Wider "wider" [">"] In(OnPage), "": "Make it wider by 1 mm, or 1/16 in.";
    Narrower "narrower" ["<"] In(OnPage), "": "Make it narrower by as much.";
    Taller "taller" [")"] In(OnPage), "": "Make it taller by 1 mm, or 1/16 in.";
    Shorter "shorter" ["("] In(OnPage), "": "Make it less tall by as much.";
    ColourThing "colour" ["c"] In(OnPage), "colour": "Type its colours, the main one first.";
    NameThing "name" ["r"] In(OnPage), "name": "Type what it is called.";
    KindNext "kind" ["k"] In(OnPage), "": "Change what it is: photo, mat, paper, border, embellishment, journaling, label.";
    ShapeNext "shape" ["f"] In(OnPage), "": "Change its shape: rect, round.";
    CoverNext "cover" ["v"] In(OnPage), "": "Change whether letters may lie on it: as its kind has it, never, edge, fine.";
    BedNext "bed" ["b"] In(OnPage), "": "Change whether it counts as bare paper: by its size, yes, no.";
    Original "original" ["!"] In(OnPage), "": "Mark the photo as an original that cannot be printed again; or not.";
    PageSize "page-size" ["P"] In(OnPage), "page size": "Type or choose the page's size.";
    Ground "ground" ["G"] In(OnPage), "ground": "Type the colour of the paper under everything.";
    Margin "margin" ["M"] In(OnPage), "": "Type how much is kept clear along the page's edges.";

    SheetUp "sheet-up" ["up"] In(Sheets), "": "Go to the sheet before.";
    SheetDown "sheet-down" ["down"] In(Sheets), "sheet": "Go to the next sheet.";
    SheetPageUp "sheet-page-up" ["page-up"] In(Sheets), "": "Go a page up.";
    SheetPageDown "sheet-page-down" ["page-down" "space"] In(Sheets), "": "Go a page down.";
    SheetFirst "sheet-first" ["home"] In(Sheets), "": "Go to the first sheet.";
    SheetLast "sheet-last" ["end"] In(Sheets), "": "Go to the last sheet.";
    CountIn "count-in" ["a"] In(Sheets), "new sheet": "Count in a new sheet like the chosen one: its colour, then its letters.";
    CountAnew "count-anew" ["r"] In(Sheets), "recount": "Count all letters of the sheet anew.";
    CountMore "count-more" ["+" "="] In(Sheets), "count in": "Count more letters in on this sheet.";
    CountOut "count-out" ["-"] In(Sheets), "count out": "Count letters out of this sheet.";
    TellSheet "tell-sheet" ["enter"] In(Sheets), "change": "Change what is told of the sheet: its name, tag, height, colours and the rest.";
    SetAside "set-aside" ["x"] In(Sheets), "set aside": "Set the sheet aside, so that its letters are not offered; or use it again.";
    History "history" ["h"] In(Sheets), "history": "Show what happened to the sheet, the newest first.";
    FindSheet "find-sheet" ["/"] In(Sheets), "find": "Show only some sheets: words of what is told of them, or letters that they have.";
    FindAll "find-all" ["esc"] In(Sheets), "": "Show all sheets again.";

    FieldUp "field-up" ["up"] In(Fields), "": "Go to the field before.";
    FieldDown "field-down" ["down"] In(Fields), "field": "Go to the next field.";
    FieldNext "field-next" ["right" "space"] In(Fields), "change": "Change the field to the next that it can be.";
    FieldBefore "field-before" ["left"] In(Fields), "": "Change the field to the one before.";
    TypeField "type-field" ["enter"] In(Fields), "type": "Type what the field is; or change it to the next that it can be.";
    FieldsDone "fields-done" ["tab"] In(Fields), "go on": "Go on to the colour and the letters; of a sheet that is counted already: be done.";
    SwatchLeft "swatch-left" ["left"] In(Swatches), "": "Go to the colour on the left.";
    SwatchRight "swatch-right" ["right"] In(Swatches), "colour": "Go to the colour on the right.";
    SwatchUp "swatch-up" ["up"] In(Swatches), "": "Go a row of colours up.";
    SwatchDown "swatch-down" ["down"] In(Swatches), "": "Go a row of colours down.";
    Lighter "lighter" ["+" "="] In(Swatches), "lighter": "Go to the next lighter shade that has a name.";
    Darker "darker" ["-"] In(Swatches), "darker": "Go to the next darker shade that has a name.";
    TakeColour "take-colour" ["enter" "tab"] In(Swatches), "take": "Take this colour, and count its letters.";
    LotLeft "lot-left" ["left"] In(Letters), "": "Go back to the colour before.";
    LotRight "lot-right" ["right"] In(Letters), "colour": "Go to the next colour that the sheet has.";
    OtherColour "other-colour" ["tab"] In(Letters), "another colour": "Choose another colour for the letters that follow.";
    TakeBack "take-back" ["backspace" "delete"] In(Letters), "take back": "Take the last letter back.";
    Counted "counted" ["enter"] In(Letters), "done": "Be done: the letters are counted.";
    ToFields "to-fields" ["ctrl-e"] Sheet, "fields": "Change what is told of the sheet.";
    LeaveSheet "leave-sheet" ["esc" "ctrl-c"] Sheet, "leave it": "Leave it; asks first where letters were counted.";
    HelpOnSheet "help-on-sheet" ["f1"] Sheet, "keys": "List every key that works here.";

    FindIdeas "ideas" ["g"] Wordings, "ideas": "Look for words that can be spelled now: how long, with which letters, how many scarce ones.";
    UseWording "use-wording" ["enter"] Wordings, "use": "Give this wording to the strip in hand, and go to the bench.";
    AddWish "add-wish" ["a"] Wordings, "wish": "Add this wording to the wishes.";
    ExplainWording "explain" ["x"] Wordings, "explain": "Tell what stands in for what, why it may, and what is short.";
    WordingUp "wording-up" ["up"] Wordings, "": "Go to the wish or the idea before.";
    WordingDown "wording-down" ["down"] Wordings, "go": "Go to the next wish, or the next idea.";
    WordingPageUp "wording-page-up" ["page-up"] Wordings, "": "Go a page up.";
    WordingPageDown "wording-page-down" ["page-down"] Wordings, "": "Go a page down.";
    WordingFirst "wording-first" ["home"] Wordings, "": "Go to the first.";
    WordingLast "wording-last" ["end"] Wordings, "": "Go to the last.";
    OtherList "other-list" ["tab" "shift-tab"] Wordings, "list": "Go to the other list: the wishes, the ideas.";
    DropWish "drop-wish" ["delete" "backspace" "d"] In(Wishes), "": "Drop the wish; asks first.";
    MustWish "must" ["space"] In(Wishes), "must": "Say that this wish must be among those made together; or no longer.";
    LookAhead "look-ahead" ["r"] Wordings, "ahead": "Tell which letters run out first, what a sheet on sale would unlock, what spent sheets still make.";
    SparePlans "spare-plans" ["p"] Wordings, "": "Leave alone the letters that page plans speak for; or no longer.";
    SpellCase "spell-case" ["K"] Wordings, "": "Change which case may be used: any, as-written, upper, lower.";
    SpellForms "spell-forms" ["F"] Wordings, "": "Change which forms may be used: any, tile, die-cut.";
    SpellHeights "spell-heights" ["H"] Wordings, "heights": "Type which heights may be used, such as 18-26; nothing: any.";

    OrderUp "order-up" ["up"] In(Order), "": "Go up in the words, or on a sheet seen from near; of the sheets of paper: go to the one before.";
    OrderDown "order-down" ["down"] In(Order), "go": "Go down in the words, or on a sheet seen from near; of the sheets of paper: go to the next.";
    OrderPageUp "order-page-up" ["page-up"] In(Order), "": "Go a screenful up in the words; to the sheet of paper before.";
    OrderPageDown "order-page-down" ["page-down" "space"] In(Order), "": "Go a screenful down in the words; to the next sheet of paper.";
    OrderFirst "order-first" ["home"] In(Order), "": "Go to the beginning of the words, or to the first sheet of paper.";
    OrderLast "order-last" ["end"] In(Order), "": "Go to the end of the words, or to the last sheet of paper.";
    PaperBefore "paper-before" ["left"] In(Order), "": "Go to the sheet of paper before.";
    PaperNext "paper-next" ["right"] In(Order), "sheet": "Go to the next sheet of paper.";
    WriteOrder "write-order" ["s" "ctrl-s"] In(Order), "save": "Save the order beside the plans, in the form that is chosen.";
    StickDown "stick-down" ["k"] In(Order), "stick down": "Take the letters off the stash: they are stuck down. Asks once.";
    LiftAll "lift-all" ["l"] In(Order), "lift": "Put the letters that are stuck down back into the stash: they came off. Asks once.";
    NextForm "next-form" ["f"] In(Order), "form": "Choose the next form: text, svg (a file a sheet), pdf (all sheets).";
    NextPaper "next-paper" ["p"] In(Order), "paper": "Choose the next paper: a4, letter, or sheets as large as the album page.";
    PaperNear "paper-near" ["z"] In(Order), "zoom": "Look at the sheet of paper from near, as wide as the screen, or at all of it.";
    OtherSide "order-side" ["tab" "shift-tab"] In(Order), "words, sheets": "Go to the other look: the words, the sheets of paper.";
    LeaveOrder "leave-order" ["esc"] In(Order), "back": "Go back to the view that you came from.";

    PaneNext "pane-next" ["tab"] Bench, "pane": "Go to the next pane: strip, chips, checks.";
    PaneBefore "pane-before" ["shift-tab"] Bench, "": "Go to the pane before.";
    Suggest "suggest" ["n"] Bench, "suggest": "Suggest letters for all that is not pinned; once stopped, go on from there.";
    Filter "filter" ["/"] Bench, "filter": "Show only some chips: a letter, a colour, a height band as 20-26, tile or die-cut.";
    Fits "fits" ["f"] Bench, "fits": "Show only the chips that could serve the chosen slot, or all.";
    EvenGaps "even-gaps" ["e"] Bench, "": "Even out the gaps: undo every nudge on the strip.";
    Spacing "spacing" ["E"] Bench, "": "Space the letters evenly, or by the eye.";
    LineUp "line-up" ["L"] Bench, "": "Line the letters up by their feet, or by their middles.";
    Mix "mix" ["M"] Bench, "": "Change how mixed the line is meant to look: lively, words, plain.";
    Forms "forms" ["F"] Bench, "": "Change which forms the strip is made of: any, tile, die-cut.";
    Case "case" ["K"] Bench, "": "Change the case rule: any, as-written, upper, lower.";
    Keep "keep" ["k"] Bench, "": "Keep this trial to compare others with.";
    CompareKept "compare" ["c"] Bench, "compare": "Put the kept trial and this one side by side.";

    ToBench "to-bench" ["1"] Views, "bench": "Go to the bench: the letters, the strip and the checks.";
    ToPage "to-page" ["2"] Views, "page": "Go to the page: what lies on it, and the strips where they lie.";
    ToStash "to-stash" ["3"] Views, "stash": "Go to the stash: its sheets, and what is left of each.";
    ToWording "to-wording" ["4"] Views, "wording": "Go to the wordings: what can be spelled, the wishes, ideas.";
    ShowOrder "order" ["5" "o"] Views, "order": "Go to the placement order: what it says, and the sheets of paper as they will print.";
    StopLooking "stop" ["esc"] Trial, "": "Stop what is being looked for, and show the best so far; on the page, go back to the whole of it.";
    Undo "undo" ["u"] Trial, "undo": "Take the last change back.";
    Redo "redo" ["U" "ctrl-r"] Trial, "": "Make again what was taken back.";
    Save "save" ["s" "ctrl-s"] Trial, "save": "Save the page plan.";
    Wording "wording" ["w"] Trial, "wording": "Change the wording; letters that still serve stay. Among the wordings: type one, and see whether it can be spelled.";
    OtherStrip "other-strip" ["t"] Trial, "strip": "Go to the next strip; with one strip only, begin a subtitle.";
    PageColours "page-colours" ["y"] Trial, "": "Name the page's colours: main, second, accents.";
    OpenPlan "plans" ["O"] Views, "": "List the page plans and open another.";
    Unit "unit" ["i"] Views, "": "Show millimetres, or inches.";
    Quit "quit" ["q" "ctrl-c"] Views, "quit": "Leave; asks first where something is not saved.";

    Help "help" ["?" "f1"] Both, "keys": "List every key that works here.";

    Up "up" ["up"] Over, "": "Go up.";
    Down "down" ["down"] Over, "go": "Go down.";
    PageUp "page-up" ["page-up"] Over, "": "Go a page up.";
    PageDown "page-down" ["page-down" "space"] Over, "": "Go a page down.";
    First "first" ["home"] Over, "": "Go to the top.";
    Last "last" ["end"] Over, "": "Go to the end.";
    Take "take" ["enter"] In(Alternates), "take": "Stand this letter in the slot.";
    WhyNot "why-not" ["w"] In(Alternates), "why not": "Why not this one? What makes the difference, and the best mix that has it here.";
    TakeSuggestion "take-suggestion" ["enter"] In(Suggestions), "take": "Take this suggestion: one change, which undo takes back.";
    SuggestNext "suggest-next" ["right" "n"] In(Suggestions), "next": "Go to the next suggestion, or look for it.";
    SuggestBefore "suggest-before" ["left" "p"] In(Suggestions), "": "Go to the suggestion before.";
    StopSuggesting "stop-suggesting" ["s"] In(Suggestions), "stop": "Stop looking for more, or go on.";
    StopOneMore "stop-one-more" ["s"] In(Focus::OneMore), "stop": "Stop looking, or go on.";
    TakeKept "take-kept" ["enter"] In(Compare), "take the kept one": "Go on with the kept trial; this one is kept in its place.";
    TakePlan "open" ["enter"] In(Plans), "open": "Open this plan.";
    Close "close" ["esc" "q"] Over, "close": "Close this and go back.";

    Finish "finish" ["enter"] In(Typing), "done": "Take what was typed.";
    Abandon "abandon" ["esc" "ctrl-c"] In(Typing), "leave it": "Leave all as it was.";

    Yes "yes" ["y" "enter"] In(Question), "yes": "Yes; enter says it only where yes loses nothing.";
    No "no" ["n"] In(Question), "no": "No.";
    Back "back" ["esc" "ctrl-c"] In(Question), "back": "Neither: go back.";
}
