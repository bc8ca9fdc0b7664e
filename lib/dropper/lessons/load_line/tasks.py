"""Tasks of lesson 2: how much current the dropper gives."""

from ..tasks.question import Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, mains, part, step_value
from ..tasks.solution import SHARE, TheoryStep

LESSON = 2
_TIMES = Tolerance("3 % is allowed: two digits show well enough how far a rule of thumb is off.", relative=0.03)


def _loaded(chance):
    """A lamp and a current that its dropper can give; so many mA per µF leave volts for a string."""
    values = mains(chance)
    values["dropper"] = part(chance, 6, 220e-9, 2.2e-6)
    per_microfarad = chance.choice((15, 20, 25, 30, 35, 40, 45) if values["voltage"] > 200 else (10, 15, 20, 25))
    return values | {"string_current_mean": float(f"{per_microfarad * 1e3 * values['dropper']:.2g}")}


def _wanted(chance):
    values = bridge_lamp(chance)
    del values["dropper"]
    return values | {"string_current_mean": chance.choice((0.005, 0.008, 0.010, 0.012, 0.015, 0.020, 0.025, 0.030))}


def _pump(chance):
    values = mains(chance)
    return values | {
        "dropper": part(chance, 6, 220e-9, 1.5e-6),
        "output_voltage": step_value(chance, 5.0, 40.0, 1.0),
        "diode_voltage": chance.choice((0.7, 0.8)),
    }


TASKS = (
    Question(
        "charge",
        LESSON,
        "Charge in each half cycle",
        "Mains of {voltage}, a dropper of {dropper}, and a string that holds the bridge at {clamped_voltage}. How much"
        " charge reaches the string in each half cycle?",
        bridge_lamp,
        "C",
        lambda q: q.charge_per_half_cycle,
        solution=(TheoryStep("peak_voltage"), TheoryStep("charge_per_half_cycle")),
        hints=(
            "In half a cycle the dropper's voltage is turned over, from one peak to the other.",
            "Its peak is the mains' peak less what the string holds; turned over, it changes by twice that.",
        ),
        slips=(
            Slip(
                "factor 2 forgotten",
                lambda q: q.charge_per_half_cycle / 2,
                "The dropper does not start empty: its voltage is turned over and changes by twice its peak.",
            ),
            Slip(
                "cycle for half cycle",
                lambda q: q.charge_per_half_cycle * 2,
                "That is the charge of a whole cycle; half a cycle is asked for.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("charge_per_half_cycle", peak_voltage=q.voltage),
                "You took the rms volts, {voltage}. The dropper charges to the peak, √2 times that.",
            ),
            Slip(
                "string forgotten",
                lambda q: q.using("charge_per_half_cycle", clamped_voltage=0.0),
                "The string keeps {clamped_voltage} back from the dropper.",
            ),
        ),
    ),
    Question(
        "string_current",
        LESSON,
        "Current of the string",
        "Mains of {voltage}, {frequency}, a dropper of {dropper}, and a string that holds the bridge at"
        " {clamped_voltage}. What mean current do the LEDs get?",
        bridge_lamp,
        "A",
        lambda q: q.mean_string_current,
        solution=(TheoryStep("peak_voltage"), TheoryStep("mean_string_current")),
        hints=(
            "A mean current is charge over time: how much in a half cycle, and how many half cycles a second?",
            "There are twice {frequency} half cycles a second, and in each one the dropper's voltage is turned over.",
        ),
        slips=(
            Slip(
                "V over Xc",
                lambda q: q.short_circuit_current,
                "That is mains over reactance: the rms current into a short circuit. It forgets the string, and takes"
                " rms for mean.",
            ),
            Slip(
                "rms for mean",
                lambda q: q.line_current_rms,
                "That is the rms current of the line. LEDs shine with the mean, which is less.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("mean_string_current", peak_voltage=q.voltage),
                "You took the rms volts, {voltage}. The dropper charges to the peak, √2 times that.",
            ),
            Slip(
                "half cycle for cycle",
                lambda q: q.mean_string_current / 2,
                "That is half of it: the bridge passes both half cycles on, and in each the dropper's voltage changes"
                " by twice its peak.",
            ),
            Slip(
                "string forgotten",
                lambda q: q.using("mean_string_current", clamped_voltage=0.0),
                "That is the mean current into a short circuit; the string keeps {clamped_voltage} back.",
            ),
            Slip(
                "difference over Xc",
                lambda q: (q.voltage - q.clamped_voltage) / q.reactance,
                "You took the plain difference of rms mains and direct volts, over the reactance: neither the"
                " difference nor the rms belongs here.",
            ),
        ),
    ),
    Question(
        "dropper_for_string",
        LESSON,
        "A dropper for a string",
        "A string holds the bridge at {clamped_voltage} and shall get a mean current of {string_current_mean} from"
        " {voltage}, {frequency}. Which dropper does it need?",
        _wanted,
        "F",
        lambda q: q.dropper_for_current,
        solution=(TheoryStep("peak_voltage"), TheoryStep("dropper_for_current")),
        hints=(
            "Turn the formula of the current round: what is known, what is wanted?",
            "The volts that count are the mains' peak less what the string holds.",
        ),
        slips=(
            Slip(
                "V over Xc",
                lambda q: q.string_current_mean / q.using("short_circuit_current", dropper=1e-6) * 1e-6,
                "You took mains over reactance. It forgets the string, and takes rms for mean: the LEDs would be too"
                " dim.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("dropper_for_current", peak_voltage=q.voltage),
                "You took the rms volts, {voltage}. The dropper charges to the peak, √2 times that.",
            ),
            Slip(
                "factor 2 forgotten",
                lambda q: q.dropper_for_current * 2,
                "Twice too much: both half cycles count, and each turns the dropper's voltage over.",
            ),
            Slip(
                "factor 2 too many",
                lambda q: q.dropper_for_current / 2,
                "Half of what is needed: a factor of 2 was counted twice.",
            ),
            Slip(
                "string forgotten",
                lambda q: q.using("dropper_for_current", clamped_voltage=0.0),
                "The string keeps {clamped_voltage} back; less is left to push the current.",
            ),
        ),
    ),
    Question(
        "operating_point",
        LESSON,
        "Volts left for the string",
        "A dropper of {dropper} on {voltage}, {frequency} gives a mean current of {string_current_mean}. At how many"
        " volts does the string hold the bridge?",
        _loaded,
        "V",
        lambda q: q.load_line,
        solution=(TheoryStep("peak_voltage"), TheoryStep("load_line")),
        hints=(
            "With no current at all the voltage would be the mains' peak.",
            "Each ampere costs 1/(4fC) volts; take that away from the peak.",
        ),
        slips=(
            Slip(
                "Xc for 1/(4fC)",
                lambda q: q.peak_voltage - q.string_current_mean * q.reactance,
                "You took the reactance as the slope. For the mean current behind a bridge it is 1/(4fC), which is"
                " π/2 times that.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("load_line", peak_voltage=q.voltage),
                "You started from the rms volts, {voltage}. Without current the bus reaches the peak.",
            ),
            Slip(
                "what is lost",
                lambda q: q.peak_voltage - q.load_line,
                "Those are the volts that are lost; what is asked for is what is left.",
            ),
        ),
        tolerance=Tolerance(
            "3 V or 2 % are allowed: so much lies between 1.4 and √2, and in a volt of diodes.", 0.02, 3.0
        ),
    ),
    Question(
        "rule_excess",
        LESSON,
        "How wrong the rule is",
        "A rule of thumb says that the LEDs get the mains over the reactance. With {voltage} and a string that holds"
        " the bridge at {clamped_voltage}: how many times the true mean current is that?",
        bridge_lamp,
        "",
        lambda q: q.reactance_rule_excess,
        solution=(TheoryStep("peak_voltage"), SHARE, TheoryStep("reactance_rule_excess")),
        hints=(
            "Frequency and capacitance cancel: only the clamped voltage as a share of the peak counts.",
            "With a short circuit the rule is 1.11 times too high, as rms is against mean. The string adds to it.",
        ),
        slips=(
            Slip(
                "string forgotten",
                lambda q: q.using("reactance_rule_excess", clamped_fraction=0.0),
                "1.11 is only the rms against the mean; the string of {clamped_voltage} is forgotten.",
            ),
            Slip(
                "rms for mean kept",
                lambda q: q.short_circuit_current / q.line_current_rms,
                "You compared with the rms current of the line; the LEDs shine with the mean.",
            ),
            Slip(
                "only the string",
                lambda q: (
                    q.short_circuit_current
                    / q.mean_string_current
                    / q.using("reactance_rule_excess", clamped_fraction=0.0)
                ),
                "That counts the string, but not that the rule takes rms for mean.",
            ),
            Slip(
                "upside down",
                lambda q: 1 / q.reactance_rule_excess,
                "That is the true current as a share of the rule's; turn it over.",
            ),
            Slip(
                "what is too much",
                lambda q: q.reactance_rule_excess - 1,
                "That is what is too much, as a share of the true current; how many times is one more.",
            ),
        ),
        tolerance=_TIMES,
    ),
    Question(
        "half_wave",
        LESSON,
        "Half a bridge",
        "A dropper of {dropper} on {voltage}, {frequency} feeds a half-wave supply with an output of {output_voltage};"
        " its diodes drop {diode_voltage} each. What mean current does it give?",
        _pump,
        "A",
        lambda q: q.half_wave_current,
        solution=(TheoryStep("peak_voltage"), TheoryStep("half_wave_current")),
        hints=(
            "Once a period the dropper hands its charge on; half a period later a diode charges it the other way.",
            "Its voltage swings from peak to peak of the mains, less the output and two diodes.",
        ),
        slips=(
            Slip(
                "a bridge",
                lambda q: q.using("mean_string_current", clamped_voltage=_held(q)),
                "That is what a bridge gives.",
            ),
            Slip(
                "half of a bridge",
                lambda q: q.using("mean_string_current", clamped_voltage=_held(q)) / 2,
                "Half wave is more than half of a bridge: the output is in the way once a period, not twice.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("half_wave_current", peak_voltage=q.voltage),
                "You took the rms volts; the dropper swings between the peaks.",
            ),
            Slip("V over Xc", lambda q: q.short_circuit_current, "That is mains over reactance, rms and for a short."),
            Slip(
                "one peak",
                lambda q: q.using("half_wave_current", peak_voltage=q.peak_voltage / 2),
                "The dropper's voltage swings from the negative to the positive peak: twice the peak, not once.",
            ),
        ),
    ),
)


def _held(q):
    """The clamped voltage of a bridge with the same output and diodes."""
    return q.using("clamped_voltage", string_voltage=q.output_voltage)
