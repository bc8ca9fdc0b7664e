"""No message repeats more than eighty characters of what was typed, on whatever way it went wrong."""

import dataclasses
import inspect
import re

import pytest
from dropper import Lamp, lessons, sheet
from dropper.bench import led_fit, table, waveform
from dropper.circuit.excerpt import excerpt, label
from dropper.circuit.lamp import replace_at
from dropper.circuit.parsing import parse
from dropper.circuit.units import UNITS
from dropper.components import kinds
from dropper.components.marks import bands, codes
from dropper.design import Brief
from for_every import for_every

MOST = 80
STAIR, NUMBER = "notebooks/lamps/stair_marker.toml", "notebooks/lamps/briefs/door_number.toml"
LONG = "Q" * 5000
LAMP, BRIEF = Lamp.from_toml(STAIR), Brief.from_toml(NUMBER)


def paths(part, before=""):
    """Every field of a lamp."""
    for field in dataclasses.fields(part):
        value = getattr(part, field.name)
        yield before + field.name
        if dataclasses.is_dataclass(value):
            yield from paths(value, f"{before}{field.name}.")


def ways():
    """What goes wrong with a long text, by name."""
    for path in paths(LAMP):
        yield f"lamp {path}", lambda path=path: replace_at(LAMP, path, LONG)
        yield f"no field {path}", lambda path=path: replace_at(LAMP, f"{path.rpartition('.')[0]}.{LONG}".lstrip("."), 1)
    for field in dataclasses.fields(Brief):
        yield f"brief {field.name}", lambda name=field.name: BRIEF.but(**{name: LONG})
    for key in (*(field.name for field in dataclasses.fields(Lamp)), LONG):
        for value in (f"'{LONG}'", LONG, f"['{LONG}']", f"{{{LONG} = 1}}", f"{{ led = '{LONG}' }}"):
            yield f"file {key[:20]}", lambda key=key, value=value: Lamp.from_toml_text(f"{key} = {value}", LONG)
            yield f"brief file {key[:20]}", lambda key=key, value=value: Brief.from_toml_text(f"{key} = {value}", LONG)
    yield "own led", lambda: BRIEF.but(own_led={LONG: 1})
    yield "fixed", lambda: BRIEF.but(fixed={LONG: 1})
    yield "fixed value", lambda: BRIEF.but(fixed={"dropper": LONG})
    for opened in (Lamp.from_toml, Brief.from_toml, sheet.open_sheet, table.read):
        yield f"path {opened.__qualname__}", lambda opened=opened: opened(f"{LONG}.html")
    for unit in UNITS:
        for text in (
            LONG,
            f"1 {LONG}",
            f"{LONG},1",
            f"1,{'2' * 500}",
            "9" * 5000,
            f"{'9' * 39}{LONG}",
            f"1e99999 {unit}",
        ):
            yield f"value in {unit}", lambda text=text, unit=unit: parse(text, unit, "field")
    for text in (LONG, "474" + LONG, LONG[:40], "4R7 " * 20):
        yield "print", lambda text=text: codes.read(text)
        yield "bands", lambda text=text: bands.read(["brown", "black", text])
    for text in (
        f"t,{LONG}\n0,{LONG}\n1,2\n",
        f"{LONG}\n{LONG}\n",
        f"{LONG},1\n0,{LONG}\n",
        f"t ({LONG}),v ({LONG})\n0,1\n1,2\n",
    ):
        yield "table", lambda text=text: table.read(text, name=LONG)
        yield "led table", lambda text=text: led_fit.read_csv(text)
        yield "recording", lambda text=text: waveform.load(table.read(text, name=LONG), time=LONG, mains_voltage=LONG)
        yield "column", lambda text=text: table.read("t,v\n0,1\n1,2\n", name=LONG).si(LONG, "V")
    for call in (kinds.led_kind, kinds.part, lessons.question, table.read):
        yield f"named {call.__qualname__}", lambda call=call: call(LONG)
    yield "notes", lambda: sheet.lamp_sheet(LAMP, notes=LONG)
    yield "builder", lambda: sheet.lamp_sheet(LAMP, builder=LONG)
    yield "paper", lambda: sheet.lamp_sheet(LAMP, paper=LONG)
    yield "date", lambda: sheet.lamp_sheet(LAMP, date=LONG)


def complaints_of(name):
    """What a panel's fields say of a long text."""
    wants = inspect.signature(getattr(lessons, name).__init__).parameters
    panel = getattr(lessons, name)(*([STAIR] if "path" in wants else []), **({"ask": False} if "ask" in wants else {}))
    for field in fields_of(panel):
        field.value = LONG
        yield panel.complaint.value


def fields_of(widget):
    import ipywidgets

    if isinstance(widget, ipywidgets.Text | ipywidgets.Textarea):
        yield widget
    for child in getattr(widget, "children", ()):
        yield from fields_of(child)


def repeated(message):
    """How many characters of the long text, or of its nines, a message has."""
    return max(map(len, re.findall(r"Q+|9+|2+", message)), default=0), len(re.findall("[Q92]", message))


@for_every(ways, ids=lambda way: way[0])
def test_no_message_repeats_more_than_eighty_characters(name, act):
    try:
        act()
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        longest, together = repeated(str(error))
        assert longest <= MOST and together <= 2 * MOST, f"{longest}, {together} in all: {str(error)[:300]}"


@pytest.mark.parametrize("name", ["FaultFinding", "Markings", "PartCheck"])
def test_no_panel_repeats_more_than_eighty_characters(name):
    for complaint in complaints_of(name):
        assert repeated(complaint)[0] <= MOST, complaint[:300]


def test_an_excerpt_says_that_it_is_one():
    assert excerpt("short") == "'short'" and excerpt(LONG).endswith("…'") and len(excerpt(LONG)) < MOST
    assert label("a\nb\u202ec") == "a b c" and label(LONG).endswith("…") and len(label(LONG)) < MOST
