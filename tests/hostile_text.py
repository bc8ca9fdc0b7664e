"""Hostile text: names, notes, files and headings that run something if a page takes them for HTML; and all panels of it.

Whatever of it runs sets `hostile` on the page's window.
"""

import csv
import datetime
import io
from pathlib import Path

from dropper import Lamp, lessons, sheet
from dropper.bench import table, waveform
from dropper.bench.checklist import checklist
from dropper.bench.diagnosis import Hunt
from dropper.components.kinds import LEDS, LedKind
from dropper.design import Brief, design
from dropper.solver.steady import steady_state
from panels_to_try import OF_LAMPS

ROOT = Path(__file__).resolve().parents[1] / "notebooks" / "lamps"
# At most 80 characters, as a lamp's name may have; an event of an element, a script, links, an attribute's end.
NAMES = (
    "\"><img src=x onerror=hostile=1><svg onload=hostile=1>' onfocus=hostile=1 q='",
    "</script><script>hostile=1</script> [x](javascript:hostile=1) <b>",
    "$\\href{javascript:hostile=1}{x}$</style></template><img src=x onerror=hostile=1>",
)
NOTE = " ".join(NAMES)
FILE = '"><img src=x onerror=hostile=1>'  # no name of a file has a slash
ASKING = ("Bench", *(name for name in OF_LAMPS if name != "Measurement"))
OF_A_LAMP = ("BenchList", "FaultFinding", "Hunt")


def write_files(folder, name):
    """Put a lamp, a brief with an LED of its own, a recording and an LED's table into a folder, all hostile."""
    lamps = Path(folder) / "lamps"
    (lamps / "briefs").mkdir(parents=True)
    (Path(folder) / "sheets").mkdir()
    lamp = Lamp.from_toml(ROOT / "stair_marker.toml").replace(name=name, readings__note=NOTE)
    lamp.to_toml(lamps / f"{FILE}.toml")
    brief = Brief.from_toml(ROOT / "briefs" / "door_number.toml")
    brief = brief.but(name=name, own_led=own_led(name))
    brief.to_toml(lamps / "briefs" / f"{FILE}.toml")
    rows = (ROOT / "stair_marker_scope.csv").read_text(encoding="utf-8").splitlines()
    rows = [row for row in rows if row[:1] in "-0123456789" and row.count(",") == 3]
    heads = [f"{kind} {name} ({unit})" for kind, unit in (("Time", "s"), ("CH1", "V"), ("CH2", "V"), ("CH3", "V"))]
    (lamps / f"{FILE}.csv").write_text("\n".join([_row(heads), *rows]), encoding="utf-8")
    table = (ROOT / "bench_led.csv").read_text(encoding="utf-8")
    table = table.replace("voltage (V), current (mA)", _row([f"voltage {name} (V)", f"current {name} (mA)"]))
    (lamps / "led.csv").write_text(table, encoding="utf-8")
    (Path(folder) / "sheets" / f"{FILE}.html").write_text(sheet.lamp_sheet(lamp).html, encoding="utf-8")
    return lamps / f"{FILE}.toml"


def own_led(name):
    """An LED kind with that name and source."""
    kind = next(kind for kind in LEDS if kind.name == "mid-power 0.2 W, one junction")
    return LedKind.from_record(kind.to_record() | {"name": name[:60]})


def panels(path, ask=True):
    """Every panel that the text reaches, by name, from the files that `write_files` wrote."""
    folder, lamp = Path(path).parent, Lamp.from_toml(path)
    for name in ASKING:
        yield name, getattr(lessons, name)(path, ask=ask)
    for name in OF_A_LAMP:
        yield name, getattr(lessons, name)(path)
    record = folder / f"{FILE}.csv"
    yield "Measurement", lessons.Measurement(path, ask, record, channels(record))
    designer = lessons.Designer(folder / "briefs" / f"{FILE}.toml", ask=ask)
    yield "Designer", designer
    yield "its sheet", designer.sheet()
    yield "LedCurve", lessons.LedCurve(folder / "led.csv", ask=ask)
    yield "Markings", lessons.Markings(ask=ask)
    yield "PartCheck", lessons.PartCheck(ask=ask)
    yield "SheetBox", lessons.SheetBox(lamp)
    yield "Task", lessons.Task(next(iter(lessons.QUESTIONS)), progress=folder / "progress.json")
    yield "Scorecard", lessons.Scorecard(1, progress=folder / "progress.json")
    yield "Guess", lessons.Guess(lamp.name, {"right": lamp.name, "other": NOTE}, lamp.name, "right")


def channels(record):
    """What the columns of the recording are."""
    time, *heads = table.read(record).columns
    volts, current, bus = heads
    return {
        "time": time,
        "mains_voltage": waveform.Channel(volts, factor=100.0),
        "line_current": waveform.Channel(current, shunt=10.0),
        "bus_voltage": waveform.Channel(bus, factor=10.0),
    }


def shown(path):
    """What a notebook shows of itself, by name."""
    lamp = Lamp.from_toml(path)
    brief = Brief.from_toml(Path(path).parent / "briefs" / f"{FILE}.toml")
    made = design(brief)
    yield "lamp", lamp
    yield "steady state", steady_state(lamp)
    yield "ratings", made.ratings
    yield "design", made
    yield "diagnosis", Hunt(lamp, 5).diagnosis()


def pages(path):
    """The printed pages, by name, as whole HTML documents."""
    lamp = Lamp.from_toml(path)
    brief = Brief.from_toml(Path(path).parent / "briefs" / f"{FILE}.toml")
    made = design(brief)
    entries = {"notes": NOTE[:300], "builder": lamp.name[:60]}
    yield "sheet", sheet.lamp_sheet(lamp, also=[NOTE], **entries).html
    yield "sheet of a design", sheet.lamp_sheet(made.lamp, design=made, **entries).html
    yield "bench list", sheet.bench_page(checklist(lamp), builder=lamp.name[:60]).html


def upload(name, content):
    """What the browser hands over of a file that was chosen."""
    return {
        "name": name,
        "type": "",
        "size": len(content),
        "content": memoryview(content),
        "last_modified": datetime.datetime.now(datetime.UTC),
    }


def _row(cells):
    text = io.StringIO()
    csv.writer(text, lineterminator="").writerow(cells)
    return text.getvalue()
