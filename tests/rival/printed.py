"""Has programs that print measure what an order is printed as: poppler the PDF, librsvg the SVG of each sheet.

Must not know how either is written. Exit 1 on any difference; the files are kept then.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from html import unescape
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = ROOT / "target" / "release" / "oddment"
STASH = ROOT / "sample-stash"
KEPT = ROOT / "target" / "rival-printed"

# An inch is 25.4 mm (international yard and pound agreement, 1959); a point of PDF is 1/72 in (ISO 32000-1, 8.3.2.3).
POINT = 25.4 / 72
# Width and height in mm: A4 of ISO 216, size A of ASME Y14.1.
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
BARS = {"100 mm": 100.0, "4 in": 4 * 25.4}
# Dots an inch at which sheets are drawn, and what a measure may be off by, in mm.
DOTS = 254
SLACK = 0.15
# What a word may be off along its line: librsvg kerns, and takes no account of the length that a text is to have.
KERNED = 1.0


@dataclass(frozen=True)
class Word:
    """A word where it stands on a page, in mm."""

    text: str
    left: float
    bottom: float


def run(*command: object) -> bytes:
    """What a command prints; it must end well."""
    return subprocess.run([str(part) for part in command], check=True, stdout=subprocess.PIPE).stdout


def sizes(pdf: Path) -> list[tuple[float, float]]:
    """The pages' width and height in mm, as pdfinfo tells them."""
    told = run("pdfinfo", "-f", 1, "-l", 9999, pdf).decode()
    pairs = re.findall(r"^Page +\d+ size: +([\d.]+) x ([\d.]+) pts", told, re.MULTILINE)
    return [(float(width) * POINT, float(height) * POINT) for width, height in pairs]


def words(pdf: Path, page: int) -> list[Word]:
    """The words of a page, as pdftotext finds them."""
    told = run("pdftotext", "-bbox", "-f", page, "-l", page, pdf, "-").decode()
    found = re.findall(r'<word xMin="([\d.]+)".*?yMax="([\d.]+)">(.*?)</word>', told)
    return [Word(unescape(text), float(left) * POINT, float(bottom) * POINT) for left, bottom, text in found]


def same(ones: list[Word], others: list[Word]) -> bool:
    """Whether all words of one page stand on another, at the same places; drawings have words in no order."""
    left = list(others)
    for one in ones:
        near = (
            other
            for other in left
            if one.text == other.text
            and abs(one.left - other.left) <= KERNED
            and abs(one.bottom - other.bottom) <= SLACK
        )
        match = next(near, None)
        if match is None:
            return False
        left.remove(match)
    return not left


def drawn(pdf: Path, page: int) -> np.ndarray:
    """A page as pdftoppm draws it: whether each dot is dark."""
    image = run("pdftoppm", "-r", DOTS, "-gray", "-f", page, "-l", page, pdf)
    match = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", image)
    width, height = int(match[1]), int(match[2])
    return np.frombuffer(image, np.uint8, width * height, match.end()).reshape(height, width) < 128


def bar(dots: np.ndarray, left: float, top: float) -> float | None:
    """The length of the bar below a point, between the middles of its ticks: on rows with just these two dark stretches."""
    scale = DOTS / 25.4
    lengths = []
    for row in range(round((top - 0.5) * scale), round((top + 4.5) * scale)):
        dark = np.flatnonzero(np.diff(np.pad(dots[row, : round((left + 110) * scale)].astype(np.int8), 1)))
        if len(dark) == 4 and dark[2] - dark[1] > 20:
            lengths.append((dark[2] + dark[3] - dark[0] - dark[1]) / 2 / scale)
    return float(np.median(lengths)) if len(lengths) > 5 else None


def bars(pdf: Path, page: int) -> dict[str, float | None]:
    """The bars of a page by what they are called, as long as they are drawn."""
    found: dict[str, float | None] = {}
    all_words = words(pdf, page)
    for number, unit, said in zip(all_words, all_words[1:], all_words[2:]):
        called = f"{number.text} {unit.text.rstrip(':')}"
        if called in BARS and unit.text.endswith(":") and said.text == "measure":
            found[called] = bar(drawn(pdf, page), number.left, number.bottom)
    return found


def faults(plan: str, paper: str, folder: Path) -> list[str]:
    """What is wrong with the order of a plan on a paper."""
    common = [PROGRAM, "order", plan, "--stash", STASH, "--paper", paper, "--date", "5 November"]
    pdf = folder / f"{plan}-{paper}.pdf"
    run(*common, "-o", pdf)
    subprocess.run([*map(str, common), "-o", str(folder / f"{plan}-{paper}.svg")], check=True, stderr=subprocess.DEVNULL)
    pages = sizes(pdf)
    svgs = [folder / f"{plan}-{paper}-{number}.svg" for number in range(1, len(pages) + 1)]
    wrong = []
    measured = 0
    for number, (page, svg) in enumerate(zip(pages, svgs), 1):
        here = f"{plan} on {paper}, sheet {number}"
        again = svg.with_suffix(".pdf")
        run("rsvg-convert", "--format", "pdf", "--output", again, svg)
        for by, size in (("poppler", page), ("librsvg", sizes(again)[0])):
            if any(abs(one - other) > SLACK for one, other in zip(sorted(size), PAPERS[paper])):
                wrong.append(f"{here}: {by} tells a size of {size}")
        if not same(words(pdf, number), words(again, 1)):
            wrong.append(f"{here}: PDF and SVG do not say the same in the same places")
        for by, found in (("poppler", bars(pdf, number)), ("librsvg", bars(again, 1))):
            for called, length in found.items():
                measured += 1
                if length is None or abs(length - BARS[called]) > SLACK:
                    wrong.append(f"{here}: {by} draws the bar of {called} {length} mm long")
    if measured < 8:
        wrong.append(f"{plan} on {paper}: only {measured} bars were found")
    return wrong


def main() -> int:
    """Measures the orders of the sample's plans on both papers."""
    folder = Path(tempfile.mkdtemp(prefix="printed-"))
    plans = sorted(path.stem for path in (STASH / "pages").glob("*.toml"))
    wrong = [fault for plan in plans for paper in PAPERS for fault in faults(plan, paper, folder)]
    for fault in wrong:
        print(fault)
    if wrong:
        shutil.rmtree(KEPT, ignore_errors=True)
        shutil.copytree(folder, KEPT)
        print(f"the files are in {KEPT}")
    else:
        print(f"{len(plans)} orders on {len(PAPERS)} papers are printed as large as they say")
    shutil.rmtree(folder)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
