"""The hunt for a hidden fault: buy readings one at a time, accuse, and see how the best way would have gone."""

import random
from html import escape
from pathlib import Path

import ipywidgets as widgets

from ...bench import diagnosis
from ...bench.diagnosis.share_code import SEEDS
from ...circuit.lamp import Lamp, replace_at
from ...solver.transient.faults import Fault
from ..kit import sliders
from ..kit.css import STYLE
from ..kit.lamp_box import LampBox
from . import hunt_figure, hunt_view

_LABEL = {"description_width": "150px"}
_WIDE, _PICTURE = "620px", "780px"
_LOT = "drawn by lot"


def _choice(name, width=_WIDE):
    return widgets.Dropdown(description=name, options=[("–", "")], style=_LABEL, layout=widgets.Layout(width=width))


class Hunt(widgets.VBox):
    """A lamp with a hidden fault, to be found with few and safe measurements.

    Parameters
    ----------
    path
        The lamp file; the files beside it are offered too.
    seed
        Number of the first hunt, 0 to 99999; by lot unless given.
    fault
        Fixes the fault of the first hunt.
    code
        A teacher's code, in place of the two.
    """

    def __init__(self, path: str | Path, seed: int | None = None, fault: Fault | None = None, code: str | None = None):
        self._path, self._busy = Path(path), False
        self._lamp = replace_at(Lamp.from_toml(path), "mains.harmonics", {})
        self._wrong, self._said, self._table, self._result = (sliders.words() for _ in range(4))
        self._curves = widgets.HTML()
        layers = [widgets.HTML(hunt_figure.backdrop()), self._curves]
        for layer in layers:
            layer.layout = widgets.Layout(grid_area="1 / 1", width="100%", margin="0")
        self._stack = widgets.GridBox(layers, layout=widgets.Layout(width=_PICTURE))
        self._act, self._accused = _choice("measurement"), _choice("accuse")
        self._odds = widgets.Checkbox(
            value=False,
            description="show the odds (help, costs points)",
            indent=False,
            layout=widgets.Layout(width="auto"),
        )
        self._odds.observe(lambda _: self._show(), "value")
        self._price = sliders.words()
        self._act.observe(lambda _: self._tell_price(), "value")
        super().__init__(
            [
                widgets.HTML(STYLE),
                LampBox(self._path.parent, self._path.name, self._put_lamp, self.complain),
                self._wrong,
                sliders.words(escape(hunt_view.CAUTION)),
                self._teacher(),
                widgets.HBox([self._act, sliders.button("Measure", "Takes this measurement", self.measure)]),
                self._price,
                widgets.HBox([self._accused, sliders.button("Accuse", "Names this as the fault", self.accuse)]),
                widgets.HBox(
                    [
                        sliders.button("Hint", "Says what to measure next; costs points", self.hint),
                        self._odds,
                        sliders.button("Give up", "Shows the fault", self.give_up),
                    ]
                ),
                self._result,
                self._table,
                self._stack,
                self._said,
            ]
        )
        self.add_class("dropper-hunt")
        self._begin(
            lambda: (
                diagnosis.Hunt.from_code(self._lamp, code)
                if code
                else diagnosis.Hunt(self._lamp, random.randrange(SEEDS) if seed is None else seed, fault)
            )
        )

    # what a learner does

    def measure(self) -> None:
        """Take the measurement that is chosen."""
        if not self._act.value:
            return self.complain("Choose a measurement first.")
        self._try(lambda: self.hunt.measure(self._act.value))
        return None

    def accuse(self) -> None:
        """Name the chosen cause as the fault."""
        if not self._accused.value:
            return self.complain("Choose whom to accuse first.")
        score = self._try(lambda: self.hunt.accuse(self._accused.value))
        if score is not None:
            self._tell(score.words)
        return None

    def hint(self) -> None:
        """Say what to measure next."""
        if not self.hunt.over:
            self._tell(self.hunt.hint())

    def give_up(self) -> None:
        """Show the fault."""
        if not self.hunt.over:
            self._tell(self.hunt.give_up().words)
            self._show()

    def new(self) -> None:
        """Begin the hunt of the number in the box."""
        self._begin(lambda: diagnosis.Hunt(self._lamp, self._seed.value, live=self._live.value))

    def open_code(self) -> None:
        """Begin the hunt that a code stands for."""
        self._begin(lambda: diagnosis.Hunt.from_code(self._lamp, self._code.value))

    def make_code(self) -> None:
        """Write the code of a hunt, its fault chosen or drawn; the hunt on the panel goes on."""
        kind = self._chosen.value or None
        made = self._caught(lambda: diagnosis.Hunt(self._lamp, self._seed.value, kind, live=self._live.value))
        if made is not None:
            self._made.value = (
                f'<div class="dropper-words" role="status">Code for a class, with the {escape(self._lamp.name)}:'
                f" <b>{made.code}</b></div>"
            )

    def complain(self, text: str) -> None:
        """Say what was wrong; nothing else changes."""
        self._wrong.value = f'<div class="dropper-words wrong" role="alert">{escape(text)}</div>' if text else ""

    def _teacher(self):
        self._seed = widgets.BoundedIntText(
            value=1, min=0, max=SEEDS - 1, description="hunt number", style=_LABEL, layout=widgets.Layout(width="270px")
        )
        self._live = widgets.Checkbox(
            value=True, description="live measurements allowed", indent=False, layout=widgets.Layout(width="auto")
        )
        self._code = widgets.Text(
            description="teacher's code",
            placeholder="such as 7KQ4-9XN",
            style=_LABEL,
            layout=widgets.Layout(width="390px"),
        )
        self._chosen, self._made = _choice("hide this fault", "520px"), sliders.words()
        rows = [
            widgets.HBox([self._seed, self._live, sliders.button("New hunt", "Begins this number's hunt", self.new)]),
            widgets.HBox([self._code, sliders.button("Open the code", "Begins the code's hunt", self.open_code)]),
        ]
        make = sliders.button("Make a code", "Writes a code for the class; it does not show the fault", self.make_code)
        place = widgets.VBox([widgets.HBox([self._chosen, make]), self._made], layout=widgets.Layout(display="none"))
        teaches = widgets.Checkbox(value=False, description="I teach: make a code for a class", indent=False)
        teaches.observe(lambda change: setattr(place.layout, "display", None if change["new"] else "none"), "value")
        return widgets.VBox([*rows, teaches, place])

    # what is shown

    def _put_lamp(self, lamp):
        sine = replace_at(lamp, "mains.harmonics", {})
        self._begin(lambda: diagnosis.Hunt(sine, self._seed.value, live=self._live.value))

    def _begin(self, make):
        made = self._caught(make)
        if made is None:
            return
        self.hunt, self._lamp = made, made.lamp
        self._seed.value, self._live.value = made.seed, made.live
        self._accused.options = [("–", ""), *made.suspects()]
        self._chosen.options = [(_LOT, ""), *made.suspects()]
        self._accused.value = ""
        self._odds.value = False
        self._tell("")
        self._show()

    def _caught(self, act):
        try:
            done = act()
        except (ValueError, ArithmeticError) as error:
            self.complain(str(error))
            return None
        self.complain("")
        return done

    def _try(self, act):
        done = self._caught(act)
        if done is not None:
            self._show()
        return done

    def _tell(self, text):
        self._result.value = f'<div class="dropper-words question" role="status">{escape(text)}</div>' if text else ""

    def _tell_price(self):
        act = diagnosis.ACTS.get(self._act.value)
        self._price.value = (
            ""
            if act is None
            else (
                f'<div class="dropper-words">Cost {act.cost:g}. {escape(act.danger[0].upper() + act.danger[1:])}.</div>'
            )
        )

    def _show(self):
        self.view = hunt_view.view_of(self.hunt, self._odds.value)
        left = [] if self.hunt.over else [(act.words, act.key) for act in self.hunt.choices()]
        self._act.options = [("–", ""), *left]
        self._tell_price()
        words = hunt_figure.sentence(self.view)
        self._stack.layout.display = None if self.view.bars else "none"
        self._curves.value = hunt_figure.overlay(self.view.bars, words) if self.view.bars else ""
        self._said.value = f'<div class="dropper-words said" role="status">{escape(words)}</div>'
        rows = "".join(
            f"<li><b>{escape(done)}:</b> {escape(read)} <i>({escape(danger)})</i></li>"
            for done, read, danger in self.view.rows
        )
        self._table.value = rows and f'<div class="dropper-words"><b>Measured so far</b><ol>{rows}</ol></div>'
