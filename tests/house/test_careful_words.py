"""Discharging and measuring said one way on every page: nothing reads as leave to touch, nothing asks for haste."""

import functools
import json
import re
from html import unescape
from pathlib import Path

import pytest
from dropper import Lamp, replace_at, sheet
from dropper.bench.checklist import checklist
from dropper.bench.diagnosis.measurements import HAZARDS, MEASUREMENTS
from dropper.standards.cautions import DISCHARGE, caution_texts

ROOT = Path(__file__).resolve().parents[2]
LAMPS = sorted((ROOT / "notebooks" / "lamps").glob("*.toml"))

# OSHA 1910.333 and HSE GS38: what is not proved dead counts as live, and the prover is proved before and after.
LEAVE = re.compile(
    r"before you touch|before touching|safe to touch|now safe|touch-safe|may be touched now|can be touched now", re.I
)
HASTE = re.compile(r"at once hold|hold \S+ at once|time the decay|quickly (?:measure|hold|probe)", re.I)
AGAIN = re.compile(r"\b(?:pull|unplug|probe|time it|time the|hold)[^.]{0,90}\b(?:several|ten) times", re.I)
LOW_PROOF = re.compile(
    r"batter(?:y|ies)[^.]{0,60}\b(?:prove|proof|know|once more|still)|(?:prove|proof|know)[^.]{0,60}\bbatter", re.I
)
FORBIDDEN = {"leave to touch": LEAVE, "haste": HASTE, "again and again": AGAIN, "a battery as a proof": LOW_PROOF}


def list_text(lamp):
    """All that a check-list says."""
    listed = checklist(lamp)
    steps = [" ".join((step.do, step.expect, step.stop, step.why)) for step in listed.steps]
    return "\n".join([*(stage.caution for stage in listed.stages), *steps])


def page_text(html):
    """A page without its tags and styles."""
    return unescape(re.sub(r"<[^>]+>", " ", re.sub(r"<style.*?</style>", " ", html, flags=re.S)))


@functools.cache
def pages():
    """Every text that a person reads, by its name."""
    texts = {"README.md": (ROOT / "README.md").read_text(encoding="utf-8")}
    for path in sorted((ROOT / "notebooks").rglob("*.md")):
        texts[path.name] = path.read_text(encoding="utf-8")
    for path in sorted((ROOT / "notebooks").glob("[01][0-9]_*.ipynb")):
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        texts[path.name] = "\n".join("".join(cell["source"]) for cell in cells)
    for path in sorted((ROOT / "lib").rglob("*.py")):
        texts[str(path.relative_to(ROOT))] = path.read_text(encoding="utf-8")
    for path in LAMPS:
        lamp = Lamp.from_toml(path)
        texts[f"list of {lamp.name}"] = list_text(lamp)
        texts[f"cautions of {lamp.name}"] = "\n".join(caution_texts(lamp))
        texts[f"bench list of {lamp.name}"] = page_text(sheet.bench_page(checklist(lamp)).html)
        texts[f"sheet of {lamp.name}"] = page_text(sheet.lamp_sheet(lamp).html)
    texts["measurements"] = "\n".join([*HAZARDS, *(each.words for each in MEASUREMENTS.values())])
    return texts


@pytest.mark.parametrize("what", FORBIDDEN)
def test_no_page_says_it(what):
    found = [
        f"{name}: …{text[max(0, hit.start() - 40) : hit.end() + 40]}…".replace("\n", " ")
        for name, text in pages().items()
        for hit in FORBIDDEN[what].finditer(text)
    ]
    assert not found, f"{what}:\n" + "\n".join(found)


@pytest.mark.parametrize(
    ("what", "text"),
    [
        ("leave to touch", "Measure, discharge through a resistor, and measure again, before you touch."),
        ("haste", "Unplug first, then at once hold the insulated probes to the pins"),
        ("again and again", "pull the plug ten times and read the volts"),
        ("again and again", "hold the insulated probes to the pins and time the decay; several times."),
        ("a battery as a proof", "Measure a voltage that you know: a battery's."),
        ("a battery as a proof", "Measure once more, then the battery once more."),
    ],
)
def test_the_search_finds_what_it_is_for(what, text):
    assert FORBIDDEN[what].search(text)


@pytest.mark.parametrize("kind", ["list", "cautions", "bench list", "sheet"])
def test_nothing_for_the_bench_is_to_be_done_several_times(kind):
    for name, text in pages().items():
        if name.startswith(f"{kind} of"):
            assert not re.search(r"\b(?:several|ten) times\b|\bat once hold\b|before you touch", text), name


def mains_lamps():
    """The lamps of the course that are for the mains, and one that lacks what can be lacking."""
    lamps = [Lamp.from_toml(path) for path in LAMPS if path.stem != "classroom_twin"]
    bare = lamps[0]
    for path, value in (("bleeder", None), ("smoothing_bleeder", None), ("inrush_resistor", 0.0)):
        bare = replace_at(bare, path, value)
    return [*lamps, bare]


@pytest.mark.parametrize("lamp", mains_lamps(), ids=lambda lamp: f"{lamp.name}, {lamp.bleeder}")
def test_pins_are_proved_dead_then_the_case_is_opened_then_each_capacitor_is_measured(lamp):
    text = list_text(lamp)
    for way in (text, page_text(sheet.bench_page(checklist(lamp)).html)):
        way = " ".join(way.split())
        order = (
            "leave the case closed",
            "Wait ",
            "Prove the meter on a known voltage of the size that is looked for",
            "measure from pin to pin",
            "Do not take 0 V between the pins for an empty dropper",
            "prove the meter once more on the same known voltage and range. Only then open the case",
            "measure across the leads of each capacitor",
            "is discharged through",
            "then prove the meter once more, on the same known voltage and range",
        )
        places = [way.find(words) for words in order]
        assert -1 not in places, order[places.index(-1)]
        assert places == sorted(places), "the order is what protects"
    assert text.index("leave the case closed") < text.index("open the case")


@pytest.mark.parametrize(
    "name", ["README.md", "00_start_here.ipynb", "06_plug_in_pull_out.ipynb", "11_read_the_parts.ipynb"]
)
def test_pages_that_speak_of_discharging_leave_it_and_measuring_to_the_trained(name):
    text = " ".join(pages()[name].split())
    assert re.search(
        r"[Mm]easuring[^.]{0,40} (?:and discharging are|across its own leads, by) [^.]{0,20}people trained", text
    ) or ("people trained and allowed to do it have discharged it and proved it dead by measuring" in text)
    assert re.search(r"proved\W+before and after|prove the tester before and after", re.sub(r"\W+", " ", text))


def test_the_cautions_for_the_mains_are_the_same_on_lists_and_sheets():
    lamp = Lamp.from_toml(ROOT / "notebooks" / "lamps" / "stair_marker.toml")
    for text in caution_texts(lamp):
        for name in (f"bench list of {lamp.name}", f"sheet of {lamp.name}"):
            assert text in " ".join(pages()[name].split()), f"{name} lacks: {text}"
    for words in ("insulated device", "screwdriver", "resistor held in the hand", "people trained and allowed to do"):
        assert words in DISCHARGE and words in " ".join(caution_texts(lamp))
