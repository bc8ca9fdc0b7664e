"""Tasks of lesson 5: what the meter shows, what the bill says, and what a rule demands."""

from ..tasks.question import PARTS, Choice, Question, Slip, Tolerance
from ..tasks.random_values import meter_reading, step_value
from ..tasks.solution import SumStep, TheoryStep

LESSON = 5
_MONEY = Tolerance("2 % is allowed: the price moves more in a year.")
_HOURS = (1000.0, 1460.0, 1825.0, 2190.0, 2920.0, 4380.0)
_PRICES = (0.15, 0.20, 0.25, 0.28, 0.32, 0.35)


def _year(chance):
    return meter_reading(chance) | {"hours_a_year": chance.choice(_HOURS), "price_of_energy": chance.choice(_PRICES)}


def _lit(chance):
    values = meter_reading(chance)
    return values | {"led_power": round(values["real_power"] * chance.uniform(0.6, 0.9), 2)}


def _two_factors(chance):
    values = _year(chance)
    values.pop("line_current_rms")
    return values | {
        "power_factor": step_value(chance, 0.2, 0.4, 0.05),
        "better_factor": step_value(chance, 0.8, 0.95, 0.05),
    }


def _ruled(chance):
    return {
        "real_power": chance.choice((2.0, 3.0, 4.0, 6.0, 7.0, 8.0, 9.0, 12.0, 15.0, 18.0)),
        "clamped_fraction": chance.choice((0.2, 0.25, 0.3, 0.35, 0.4, 0.55, 0.6, 0.8)),
    }


TASKS = (
    Question(
        "cost",
        LESSON,
        "What a year costs",
        "A plug-in meter shows {voltage}, {line_current_rms} and {real_power}. The lamp is on for {hours_a_year} a"
        " year, and energy costs {price_of_energy}. What does a year cost?",
        _year,
        "",
        lambda q: q.cost_of_a_year,
        solution=(TheoryStep("cost_of_a_year"),),
        hints=("A household meter counts real power times hours.", "Watt-hours, over 1000, are kilowatt-hours."),
        slips=(
            Slip(
                "VA for W",
                lambda q: q.using("cost_of_a_year", real_power=q.voltage * q.line_current_rms),
                "You paid for volt-amperes. A household meter counts watts only.",
            ),
            Slip(
                "Wh for kWh",
                lambda q: 1000 * q.cost_of_a_year,
                "The price is for a kilowatt-hour, a thousand watt-hours.",
            ),
            Slip(
                "every hour",
                lambda q: q.using("cost_of_a_year", hours_a_year=8760.0),
                "You counted every hour of the year; the lamp is on for {hours_a_year}.",
            ),
        ),
        tolerance=_MONEY,
    ),
    Question(
        "hidden_by_digit",
        LESSON,
        "What a digit hides",
        "A plug-in meter shows {real_power}, and its last digit is {watt_digit}. By how many per cent may the true"
        " power lie above the display, for the digit alone?",
        lambda chance: {"real_power": step_value(chance, 0.3, 3.5, 0.1), "watt_digit": 0.1},
        "%",
        lambda q: _hidden(q),
        solution=(
            SumStep(
                lambda q: f"100 × ({q.watt_digit:g} W / 2) / {q.real_power:g} W",
                "Half of the digit over the display, in per cent:",
            ),
        ),
        hints=("The display rounds: up to half of its last digit is lost on each side.",),
        slips=(
            Slip("whole digit", lambda q: 2 * _hidden(q), "A display that rounds is off by half of its digit at most."),
            Slip("of one watt", lambda q: 100 * q.watt_digit / 2, "That is half of the digit against one watt."),
        ),
        tolerance=PARTS,
    ),
    Question(
        "heat_in_lamp",
        LESSON,
        "What becomes heat",
        "A plug-in meter shows {voltage}, {line_current_rms} and {real_power}. {led_power} reach the LEDs. How much"
        " do resistors, diodes and bleeders turn to heat?",
        _lit,
        "W",
        lambda q: q.real_power - q.led_power,
        solution=(
            SumStep(
                lambda q: f"{q.real_power:g} W − {q.led_power:g} W",
                "All power that the lamp takes becomes light or heat; what the LEDs do not get is the rest:",
            ),
        ),
        hints=("Which of the three readings is power?", "Watts go in; some of them reach the LEDs."),
        slips=(
            Slip(
                "VA as waste",
                lambda q: _volt_amperes(q) - q.real_power,
                "You took all volt-amperes that are no watts for heat. The dropper gives them back in the same period.",
            ),
            Slip(
                "VA for W",
                lambda q: _volt_amperes(q) - q.led_power,
                "You took the volt-amperes for the power; only the watts are taken from the mains.",
            ),
            Slip(
                "power factor as efficiency",
                lambda q: q.real_power * (1 - q.real_power / _volt_amperes(q)),
                "You took the power factor for an efficiency. It says nothing of where the watts go.",
            ),
        ),
        tolerance=Tolerance("Two hundredths of a watt are allowed.", relative=0.03, absolute=0.02),
    ),
    Choice(
        "bill",
        LESSON,
        "A better power factor",
        "A lamp of {real_power} with a power factor of {power_factor} is changed for one of {real_power} with"
        " {better_factor}. Both are on for {hours_a_year} a year. What does a household's bill do?",
        _two_factors,
        {"falls": "it falls in proportion", "same": "it stays", "rises": "it rises"},
        lambda q: "same" if _paid(q, q.power_factor) == _paid(q, q.better_factor) else "falls",
        {
            "falls": "A household pays for kilowatt-hours. A low power factor means more amperes for the same watts:"
            " they load the wires, not the bill.",
            "rises": "Same watts, same hours, same kilowatt-hours.",
            "same": "The bill follows what the meter counts.",
        },
        lambda q: (
            f"Both take {q.real_power:g} W for {q.hours_a_year:g} hours: {q.cost_of_a_year:.3g} a year at,"
            f" say, {q.price_of_energy:g} a kilowatt-hour. Only the amperes differ:"
            f" {q.real_power / q.power_factor / q.voltage * 1e3:.3g} mA and"
            f" {q.real_power / q.better_factor / q.voltage * 1e3:.3g} mA."
        ),
        (
            "What does a household's meter count: watts or volt-amperes?",
            "Watts times hours: {real_power} for {hours_a_year}, with either lamp.",
        ),
    ),
    Choice(
        "displacement_rule",
        LESSON,
        "A rule for the displacement factor",
        "A white lamp of {real_power} has its bridge held at {clamped_fraction} of the mains' peak. Does its"
        " displacement factor meet EU 2019/2020, Annex II? (The curve of the ideal lamp; local rules differ.)",
        _ruled,
        {"meets": "yes, it meets the rule", "fails": "no, it is too low", "none": "no value is demanded of it"},
        lambda q: _rule(q),
        {
            "meets": "The rule asks for 0.5 from above 5 W to 10 W, 0.7 to 25 W and 0.9 above, and this string's"
            " displacement factor has to be compared with it; up to 5 W nothing is demanded.",
            "fails": "Either nothing is demanded at so few watts, or this string is long enough for the rule.",
            "none": "Nothing is demanded up to 5 W; this lamp takes more.",
        },
        lambda q: (
            f"Its displacement factor is {q.displacement_factor:.2f}. At {q.real_power:g} W the rule demands"
            f" {_demanded(q) or 'nothing'}."
        ),
        (
            "First look at the watts: up to 5 W nothing is demanded, up to 10 W it is 0.5, up to 25 W it is 0.7.",
            "The displacement factor follows from D over the peak, {clamped_fraction} here; at one half it is 0.54.",
        ),
    ),
)


def _volt_amperes(q):
    return q.voltage * q.line_current_rms


def _hidden(q):
    return 100 * q.watt_digit / 2 / q.real_power


def _demanded(q):
    from ... import standards

    return standards.least_displacement_factor(q.real_power)


def _rule(q):
    demanded = _demanded(q)
    if not demanded:
        return "none"
    return "meets" if q.displacement_factor >= demanded else "fails"


def _paid(q, factor):
    """A year's cost of a lamp whose amperes follow from its power factor."""
    amperes = q.real_power / factor / q.voltage
    return round(q.using("cost_of_a_year", real_power=factor * q.voltage * amperes), 9)
