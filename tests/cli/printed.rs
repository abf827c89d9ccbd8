//! `order` on sheets of paper: which form, which paper, which files, and what is refused.
//!
//! Must not know what stands on the sheets.

use std::fs;
use std::path::{Path, PathBuf};

use super::shell::{Stash, Told, oddment, told};

/// A stash and a folder beside it in which the commands run.
struct Place {
    stash: Stash,
    folder: tempfile::TempDir,
}

impl Place {
    fn new() -> Self {
        Self { stash: Stash::sample(), folder: tempfile::TempDir::new().unwrap() }
    }

    /// Runs `order quayside-supper ARGS` in the folder.
    fn order(&self, args: &[&str]) -> Told {
        let mut command = oddment(&[&["order", "quayside-supper"], args].concat());
        command.arg("--stash").arg(self.stash.path()).current_dir(self.folder.path());
        told(command)
    }

    /// Orders what must be given without a word beside it.
    fn printed(&self, args: &[&str]) -> String {
        let answer = self.order(args);
        assert_eq!((answer.code, answer.err.as_str()), (0, ""), "{args:?}");
        answer.out
    }

    /// Orders what must be refused, and nothing written; gives back why, without the program's name.
    fn refused(&self, args: &[&str]) -> String {
        let before = (self.files(), self.stash_files());
        let answer = self.order(args);
        assert_eq!((answer.code, answer.out.as_str()), (2, ""), "{args:?}: {}", answer.err);
        assert_eq!((self.files(), self.stash_files()), before, "{args:?}");
        answer.err.strip_prefix("oddment: ").unwrap_or(&answer.err).trim_end().to_owned()
    }

    fn read(&self, file: &str) -> String {
        fs::read_to_string(self.folder.path().join(file)).unwrap()
    }

    fn read_bytes(&self, file: &str) -> Vec<u8> {
        fs::read(self.folder.path().join(file)).unwrap()
    }

    /// The names in the folder, in order.
    fn files(&self) -> Vec<String> {
        let mut names: Vec<String> = paths(self.folder.path()).iter().map(|path| name(path)).collect();
        names.sort();
        names
    }

    /// Every file of the stash with what it holds.
    fn stash_files(&self) -> Vec<(PathBuf, Vec<u8>)> {
        let mut folders = vec![self.stash.path()];
        let mut files = Vec::new();
        while let Some(folder) = folders.pop() {
            for path in paths(&folder) {
                if path.is_dir() {
                    folders.push(path);
                } else {
                    let bytes = fs::read(&path).unwrap();
                    files.push((path, bytes));
                }
            }
        }
        files.sort();
        files
    }
}

fn paths(folder: &Path) -> Vec<PathBuf> {
    fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect()
}

fn name(path: &Path) -> String {
    path.file_name().unwrap().to_str().unwrap().to_owned()
}

/// The size that an SVG file tells.
fn size(svg: &str) -> (&str, &str) {
    let side = |name: &str| svg.split_once(&format!(" {name}=\"")).unwrap().1.split('"').next().unwrap();
    (side("width"), side("height"))
}

#[test]
fn the_files_ending_tells_the_form_unless_it_is_named() {
    let place = Place::new();
    place.printed(&["-o", "quay.pdf"]);
    assert!(place.read_bytes("quay.pdf").starts_with(b"%PDF-"));
    place.printed(&["-o", "quay.txt"]);
    place.printed(&["-o", "quay"]);
    assert!(place.read("quay").starts_with("PLACEMENT ORDER"));
    assert_eq!(place.read("quay.txt"), place.read("quay"));
    place.printed(&["-o", "quay.SVG", "--sheet", "1"]);
    assert!(place.read("quay.SVG").contains("<svg "));
    place.printed(&["-o", "text.pdf", "--form", "text"]);
    assert_eq!(place.read("text.pdf"), place.read("quay"));
}

#[test]
fn each_sheet_of_an_svg_gets_a_file_and_they_are_told() {
    let place = Place::new();
    let answer = place.order(&["-o", "quay.svg"]);
    assert_eq!((answer.code, answer.out.as_str()), (0, ""));
    let names = place.files();
    assert!(names.len() > 1, "{names:?}");
    assert_eq!(answer.err, format!("oddment: wrote {}\n", names.join(", ")));
    for (place_of, name) in names.iter().enumerate() {
        let number = place_of + 1;
        assert_eq!(*name, format!("quay-{number}.svg"));
        let alone = place.printed(&["--form", "svg", "--sheet", &number.to_string()]);
        assert_eq!(place.read(name), alone);
    }
}

#[test]
fn what_a_longer_order_left_goes_and_is_told() {
    let place = Place::new();
    place.order(&["-o", "quay.svg"]);
    let (names, last) = (place.files(), place.files().len());
    let write = |name: &str, text: &str| fs::write(place.folder.path().join(name), text).unwrap();
    let sheet = place.read("quay-1.svg");
    write(&format!("quay-{}.svg", last + 2), &sheet);
    write("quay.svg", &sheet);
    let kept = ["quay-99.svg", "quay-01.svg", "quays-2.svg", "quay-2.txt"];
    write(kept[0], "<svg/>");
    kept[1..].iter().for_each(|name| write(name, &sheet));
    let told = format!("took away, of an earlier order: quay.svg, quay-{}.svg", last + 2);
    let wrote = format!("oddment: wrote {}; {told}\n", names.join(", "));
    assert_eq!(place.order(&["-o", "quay.svg"]).err, wrote);
    let mut left = [names, kept.map(str::to_owned).to_vec()].concat();
    left.sort();
    assert_eq!(place.files(), left);
    place.printed(&["-o", "quay.svg", "--sheet", "1"]);
    assert_eq!(place.files().len(), left.len() + 1, "one sheet alone takes none away");
}

#[test]
fn what_is_no_sheet_of_an_order_keeps_sheets_from_being_written() {
    let place = Place::new();
    fs::write(place.folder.path().join("quay-2.svg"), "<svg/>").unwrap();
    assert_eq!(
        place.refused(&["-o", "quay.svg"]),
        "quay-2.svg is no sheet of an order, and a sheet of this one would write over it; move it away, or save it as pdf"
    );
    assert_eq!(place.read("quay-2.svg"), "<svg/>");
}

#[test]
fn a_sheet_does_not_take_the_place_of_another_plans_order() {
    let place = Place::new();
    place.stash.write("pages/quay-2.toml", place.stash.read("pages/quayside-supper.toml"));
    let file = place.stash.path().join("orders/quay.svg");
    let why = "\"quay-2\" is another plan's name, and a sheet of this order would write over that plan's; save it as pdf";
    assert_eq!(place.refused(&["-o", file.to_str().unwrap()]), why);
}

#[test]
fn the_paper_goes_with_the_unit_unless_it_is_named() {
    let place = Place::new();
    let first = ["--form", "svg", "--sheet", "1"];
    let paper = |more: &[&str]| {
        let svg = place.printed(&[&first[..], more].concat());
        let (width, height) = size(&svg);
        format!("{width} {height}")
    };
    let plan = place.stash.read("pages/quayside-supper.toml");
    place.stash.write("pages/quayside-supper.toml", plan.replace("\"8.5 x 11 in\"", "\"200 x 300 mm\""));
    // ISO 216: A4 is 210 x 297 mm. ASME Y14.1: size A is 8.5 x 11 in.
    assert_eq!(paper(&[]), "210mm 297mm");
    assert_eq!(paper(&["--unit", "in"]), "215.9mm 279.4mm");
    assert_eq!(paper(&["--unit", "in", "--paper", "a4"]), "210mm 297mm");
    assert_eq!(paper(&["--paper", "letter"]), "215.9mm 279.4mm");
    assert_eq!(paper(&["--paper", "page"]), "200mm 300mm");
}

#[test]
fn a_page_that_is_no_paper_is_refused() {
    let place = Place::new();
    let plan = place.stash.read("pages/quayside-supper.toml");
    let size = plan.lines().find(|line| line.starts_with("size")).unwrap();
    place.stash.write("pages/quayside-supper.toml", plan.replace(size, "size = \"120 x 200 mm\""));
    assert_eq!(
        place.refused(&["--paper", "page", "-o", "quay.svg"]),
        "the page is 120.0 mm x 200.0 mm: too small for the check bars, which need 125 mm; choose a4 or letter"
    );
    place.stash.write("pages/quayside-supper.toml", plan.replace(size, ""));
    assert_eq!(
        place.refused(&["--paper", "page", "-o", "quay.pdf"]),
        "the plan gives no page size; choose a4 or letter, or give the plan a size"
    );
}

#[test]
fn the_date_is_printed_as_it_is_given() {
    let place = Place::new();
    let text = place.printed(&["--date", "5 November"]);
    assert!(text.lines().next().unwrap().ends_with(" 5 November"), "{text}");
    let svg = place.printed(&["--date", "<5 & 6>", "--form", "svg", "--sheet", "1"]);
    assert!(svg.contains("&lt;5 &amp; 6&gt;"), "{svg}");
    assert!(place.refused(&["--date", "5\n6"]).contains("it is printed on one line"));
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let place = Place::new();
    for file in ["one.pdf", "two.pdf"] {
        place.printed(&["-o", file]);
    }
    assert!(place.read_bytes("one.pdf") == place.read_bytes("two.pdf"));
    let to_output = oddment(&["order", "quayside-supper", "--form", "pdf", "--stash"])
        .arg(place.stash.path())
        .output()
        .unwrap();
    assert!(to_output.status.success() && to_output.stdout == place.read_bytes("one.pdf"));
    let to_dash = ["--form", "svg", "--sheet", "1", "-o", "-"];
    assert_eq!(place.printed(&to_dash), place.printed(&to_dash[..4]));
}

#[test]
fn a_sheet_that_is_not_there_is_told_with_how_many_there_are() {
    let place = Place::new();
    place.order(&["-o", "quay.svg"]);
    let count = place.files().len();
    for form in ["svg", "pdf"] {
        assert_eq!(
            place.refused(&["--form", form, "--sheet", "999", "-o", "other"]),
            format!("there is no sheet 999; this order has {count} sheets")
        );
    }
    assert!(place.refused(&["--form", "svg", "--sheet", "0"]).contains("--sheet <N>"));
    assert_eq!(
        place.refused(&["--form", "svg"]),
        format!(
            "an SVG holds one sheet, and this order has {count}: choose one with --sheet N, or write all: -o quayside-supper.svg"
        )
    );
}

#[test]
fn a_pdf_of_one_sheet_has_one() {
    let place = Place::new();
    place.printed(&["-o", "all.pdf"]);
    place.printed(&["-o", "one.pdf", "--sheet", "1"]);
    assert!(place.read_bytes("one.pdf").len() < place.read_bytes("all.pdf").len());
}

#[test]
fn text_takes_no_paper_and_an_order_gives_no_json() {
    let place = Place::new();
    let no_paper = "text is not set on sheets of paper; --paper and --sheet go with --form svg or pdf";
    assert_eq!(place.refused(&["--paper", "a4"]), no_paper);
    assert_eq!(place.refused(&["--sheet", "1", "-o", "quay.txt"]), no_paper);
    assert_eq!(
        place.refused(&["--json"]),
        "an order has no JSON; leave --json out, or ask check, suggest or places"
    );
}

#[test]
fn it_is_written_only_where_nothing_else_is_lost() {
    let place = Place::new();
    fs::create_dir(place.folder.path().join("drawer")).unwrap();
    fs::write(place.folder.path().join("note"), "x").unwrap();
    let pages = place.stash.path().join("pages");
    let (plan, other) = (pages.join("quayside-supper.toml"), pages.join("new.pdf"));
    let sheet = place.stash.path().join("sheets/net-floats.toml");
    let [plan, other, sheet] = [&plan, &other, &sheet].map(|path| path.to_str().unwrap());
    for (file, why) in [
        ("drawer", "drawer is a folder; name a file in it".to_owned()),
        ("new/", "new/ is a folder; name a file in it".into()),
        ("attic/quay.pdf", "there is no folder attic; make it first".into()),
        ("note/quay.pdf", "note is a file, not a folder".into()),
        ("note/deep/quay.pdf", "there is no folder note/deep; make it first".into()),
        (plan, format!("{plan} is the page plan itself; name another file")),
        (sheet, format!("{sheet} is among the stash's own files; write to its folder orders, or elsewhere")),
        (other, format!("{other} is among the stash's own files; write to its folder orders, or elsewhere")),
    ] {
        for form in ["text", "svg", "pdf"] {
            assert_eq!(place.refused(&["-o", file, "--form", form]), why);
        }
    }
}

#[test]
fn one_file_in_the_way_keeps_all_sheets_from_being_written() {
    let place = Place::new();
    fs::create_dir(place.folder.path().join("quay-2.svg")).unwrap();
    assert_eq!(place.refused(&["-o", "quay.svg"]), "quay-2.svg is a folder; name a file in it");
}

#[test]
fn the_stash_takes_orders_into_its_own_folder_for_them() {
    let place = Place::new();
    let file = place.stash.path().join("orders/quay.pdf");
    place.printed(&["-o", file.to_str().unwrap()]);
    assert!(fs::read(&file).unwrap().starts_with(b"%PDF-"));
}

#[cfg(unix)]
#[test]
fn what_is_no_file_is_not_replaced_and_what_may_not_be_written_is_told() {
    use std::os::unix::fs::{PermissionsExt as _, symlink};
    let place = Place::new();
    let why = "/dev/null is no file that can be replaced; leave -o out to print the order";
    assert_eq!(place.refused(&["-o", "/dev/null"]), why);
    let sheet = place.stash.path().join("sheets/net-floats.toml");
    symlink(sheet, place.folder.path().join("link.txt")).unwrap();
    assert!(place.refused(&["-o", "link.txt"]).starts_with("link.txt is among the stash's own files"));
    symlink(place.stash.path().join("sheets/fresh.toml"), place.folder.path().join("fresh.txt")).unwrap();
    assert!(place.refused(&["-o", "fresh.txt"]).starts_with("fresh.txt is among the stash's own files"));
    let locked = place.folder.path().join("locked.pdf");
    fs::write(&locked, "kept").unwrap();
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o444)).unwrap();
    let answer = place.order(&["-o", "locked.pdf"]);
    assert_eq!((answer.code, answer.out.as_str()), (3, ""));
    assert!(answer.err.starts_with("oddment: cannot write locked.pdf: "), "{}", answer.err);
    assert_eq!(fs::read_to_string(&locked).unwrap(), "kept");
}
