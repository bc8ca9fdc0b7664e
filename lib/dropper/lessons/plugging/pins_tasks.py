"""Tasks of lesson 6, third part: what a meter between the pins shows, and what it does not prove."""

from ...circuit.series import preferred
from ..tasks.lamps import lamp_of
from ..tasks.question import Choice, Question, Slip
from ..tasks.random_values import part
from ..tasks.solution import TextStep, TheoryStep

LESSON = 6
_METER = 10e6  # Ω
_NO_PROOF = (
    "0 V between the pins proves no dropper empty. What a capacitor holds is measured across its own leads, each time,"
    " by those who are trained and allowed to, as local codes ask."
)


def _pulled(chance):
    """What two capacitors hold a moment after the pull, the dropper well above the bus and not twice it."""
    bus = chance.randrange(40, 92, 2)
    return {
        "dropper_voltage": float(bus + chance.choice((24, 34, 130, 140, 150))),
        "bus_voltage": float(bus),
        "diode_voltage": chance.choice((0.4, 0.45, 0.5)),
    }


def _plain_lamp(chance):
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 220e-9, 1e-6),
        "in_series": chance.randint(15, 26),
        "smoothing": part(chance, 6, 10e-6, 47e-6),
    }


def _waited(chance):
    """A lamp with a bleeder, after some two of its time constants or after seven and more."""
    pairs = [(c, r) for c in preferred(6, 220e-9, 1e-6) for r in preferred(6, 220e3, 2.2e6) if 0.25 <= c * r <= 0.5]
    dropper, bleeder = chance.choice(pairs)
    low, high = chance.choice(((1.9, 2.5), (7.0, 9.0)))
    times = [n / 10 for n in range(3, 50) if low <= n / 10 / (dropper * bleeder) <= high]
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "in_series": chance.randint(18, 28),
        "dropper": dropper,
        "bleeder": bleeder,
        "smoothing": part(chance, 6, 10e-6, 47e-6),
        "time": chance.choice(times),
    }


TASKS = (
    Choice(
        "which_bites",
        LESSON,
        "What a meter at the plug shows",
        "A lamp of {in_series} LEDs in series, 3 V each, on {voltage} has a dropper of {dropper} without a bleeder,"
        " and {smoothing} of smoothing. A second after it was unplugged at a crest, what does a meter of 10 MΩ"
        " between the pins show?",
        _plain_lamp,
        {
            "dropper": "what the dropper holds",
            "difference": "what the dropper holds, less what the smoothing capacitor holds",
            "smoothing": "what the smoothing capacitor holds",
            "sum": "what both hold, added",
        },
        lambda q: _shown(q),
        {
            "dropper": "The way from pin to pin leads through the bridge and the smoothing capacitor too, and what that"
            " holds stands against the dropper.",
            "difference": "Here the bridge lets the dropper out to the pins without the bus against it.",
            "smoothing": "It is far larger, and it does hold charge; but the bridge lets current in, never out. It"
            " cannot drive a meter: it only stands against the dropper.",
            "sum": "The two are not in one direction. The dropper drives the current into the bus, so what the bus"
            " holds is taken off.",
        },
        lambda q: (
            f"The solver finds {_volts(q)[0]:.3g} V between the pins; the dropper holds {_volts(q)[1]:.3g} V, the"
            f" smoothing capacitor {_volts(q)[2]:.3g} V. {_NO_PROOF}"
        ),
        (
            "Follow the current from one pin to the other: what does it pass?",
            "It passes the dropper, a diode, the smoothing capacitor and a diode. Which of them drives it, and which"
            " stands against it?",
        ),
    ),
    Question(
        "pins_reading",
        LESSON,
        "Between the pins",
        "A plug has just been pulled. The dropper holds {dropper_voltage}, the smoothing capacitor {bus_voltage}, and a"
        " diode takes {diode_voltage} at a few microamperes. What does a meter between the pins show?",
        _pulled,
        "V",
        lambda q: q.pins_voltage,
        solution=(TextStep(lambda q: _NO_PROOF), TheoryStep("pins_voltage")),
        hints=(
            "Go once round: meter, dropper, diode, smoothing capacitor, diode.",
            "The dropper drives the current; the bus and two diodes stand against it.",
        ),
        slips=(
            Slip(
                "the dropper's own",
                lambda q: q.dropper_voltage,
                "That is what the dropper holds. The charged bus stands against it, and the meter shows less.",
            ),
            Slip(
                "added",
                lambda q: q.dropper_voltage + q.bus_voltage,
                "The bus does not help the dropper: the current flows into it, so its volts are taken off.",
            ),
            Slip(
                "the bus",
                lambda q: q.bus_voltage,
                "The bridge lets nothing out of the bus. It stands against the dropper; it does not show itself.",
            ),
        ),
    ),
    Choice(
        "nothing_shown",
        LESSON,
        "Nothing on the meter",
        "A lamp of {in_series} LEDs in series, 3 V each, on {voltage}, a dropper of {dropper} with a bleeder of"
        " {bleeder} across it, {smoothing} of smoothing. {time} after unplugging at a crest a meter of 10 MΩ between"
        " the pins shows 0 V. What does the dropper hold then?",
        _waited,
        {
            "volts": "10 V or more",
            "little": "less than 1 V, for the bleeder has had time enough",
            "proved": "nothing, for the meter shows 0 V",
        },
        lambda q: "volts" if _volts(q)[1] >= 10 else "little",
        {
            "volts": "So many times bleeder times capacitance have passed that hardly anything is left. But the sum"
            " says so, not the meter at the pins.",
            "little": "After one bleeder times capacitance 37 % is left, after two 14 %. Count how many of them fit in"
            " {time}.",
            "proved": "The meter shows what the dropper holds beyond the bus. As long as the bus is charged, 0 V there"
            " proves nothing of the dropper.",
        },
        lambda q: (
            f"The solver finds {_text(_volts(q)[0])} between the pins, {_text(_volts(q)[1])} in the dropper and"
            f" {_text(_volts(q)[2])} in the smoothing capacitor, which stands against it. {_NO_PROOF}"
        ),
        (
            "What stands between the dropper and the pins?",
            "The meter tells nothing of it; bleeder and time do. How long is {bleeder} times {dropper}?",
            "It starts from about the mains' peak less the string, and falls to 37 % in each such time.",
        ),
    ),
)


def _text(volts):
    return "less than 0.1 V" if volts < 0.1 else f"{volts:.3g} V"


def _volts(q):
    """Volts between the pins, in the dropper and in the smoothing capacitor after a time, a meter on the pins."""
    from ...solver.transient import unplug

    trace = unplug(lamp_of(q), 90.0, seconds=q.values.get("time", 1.0), across=_METER)
    return tuple(abs(float(wave[-1])) for wave in (trace.pins_voltage, trace.dropper_voltage, trace.bus_voltage))


def _shown(q):
    pins, dropper, bus = _volts(q)
    sums = {"dropper": dropper, "difference": dropper - bus, "smoothing": bus, "sum": dropper + bus}
    return min(sums, key=lambda name: abs(sums[name] - pins))
