"""Beliefs: what is often held of these lamps and is not so, where it is predicted, and the tasks that know it."""

from dataclasses import dataclass

from ..circuit.fields import about, documented


@documented
@dataclass(frozen=True)
class Belief:
    """Something that is often held and is not so."""

    number: int = about("its place in the table")
    words: str = about("the belief, as who holds it would say it")
    lessons: tuple = about("the lessons that ask for it as a prediction")
    predictions: tuple = about("(what the question is called in the progress file, key of the wrong answer) of each")
    tasks: tuple = about("(key of the task, name of the slip or key of the option) of each, the best one first")


BELIEFS = (
    Belief(
        1,
        "The series resistor sets the brightness.",
        (0,),
        (("bench", "resistor"), ("00_inrush_resistor", "ohms")),
        (("larger_resistor", "dimmer"),),
    ),
    Belief(
        2,
        "The capacitor burns the voltage that is too much, as heat.",
        (1,),
        (("resistor_or_capacitor", "all"), ("01_lamp", "most")),
        (("dropper_power", "VA for W"), ("which_warms", "same"), ("film_loss", "volt-amperes for watts")),
    ),
    Belief(
        3,
        "The current is the mains over the reactance, whatever the LEDs.",
        (2,),
        (("02_rule", "rule"), ("load_line", "same")),
        (("string_current", "V over Xc"), ("dropper_for_string", "V over Xc"), ("rule_of_thumb", "the rule")),
    ),
    Belief(
        4,
        "So many milliamperes for each microfarad: that is the LED current.",
        (2,),
        (("02_rule", "rule"), ("02_rule", "mean")),
        (("rule_of_thumb", "the rule"), ("rule_excess", "string forgotten")),
    ),
    Belief(
        5,
        "It is a constant-current supply.",
        (2,),
        (("02_mains", "none"), ("load_line", "same")),
        (("mains_rise", "constant current"), ("groups_bridged", "constant current")),
    ),
    Belief(
        6,
        "A low power factor means a high bill.",
        (5,),
        (("powers", "bill"),),
        (("cost", "VA for W"), ("bill", "falls")),
    ),
    Belief(
        7,
        "A low power factor means that the lamp wastes most of its power.",
        (5,),
        (("powers", "waste"),),
        (("heat_in_lamp", "VA as waste"),),
    ),
    Belief(
        8,
        "The current lags; or the power factor is cos φ and nothing more.",
        (5,),
        (("powers", "lag"),),
        (
            ("factor_from_string", "displacement factor"),
            ("lead_or_lag", "lags"),
            ("displacement", "power factor"),
            ("current_lead", "minus sign"),
        ),
    ),
    Belief(
        9,
        "Twice the LEDs take twice the power.",
        (2, 9),
        (("02_twice", "twice"), ("strings", "more")),
        (("more_leds_power", "in proportion"), ("more_leds", "rises")),
    ),
    Belief(
        10,
        "Bridging a dead LED changes nothing, or kills the rest at once.",
        (2, 9),
        (("load_line", "same"), ("load_line", "burnt"), ("09_bridged", "none")),
        (("groups_bridged", "constant current"), ("dead_led_bridged", "falls")),
    ),
    Belief(
        11,
        "The smoothing capacitor has to stand the string's voltage only.",
        (7,),
        (("faults", "string"),),
        (("smoothing_open_voltage", "string's voltage"), ("diode_reverse", "string's voltage")),
    ),
    Belief(
        12,
        "The diodes have to stand the string's voltage only.",
        (7,),
        (("diode_volts", "string"),),
        (("diode_reverse", "string's voltage"), ("smoothing_open_voltage", "string's voltage")),
    ),
    Belief(
        13,
        "With one diode of the bridge open the lamp has half its light.",
        (3, 7),
        (("03_open", "half"), ("faults_open_D1", "half")),
        (("diode_missing", "every other"), ("diode_open", "dim")),
    ),
    Belief(
        14,
        "With one diode of the bridge shorted there is a bang, or darkness.",
        (7,),
        (("faults_short_D1", "bang"), ("faults_short_D1", "dark")),
        (("one_diode_short", "nothing"),),
    ),
    Belief(
        15,
        "A short at the output overloads the supply.",
        (7,),
        (("faults_short_smoothing", "away"),),
        (("output_short", "rises"),),
    ),
    Belief(
        16,
        "Half wave gives half of what a bridge gives.",
        (7,),
        (("faults_short_D1", "half"),),
        (("half_wave", "half of a bridge"), ("half_wave_dropper", "twice")),
    ),
    Belief(
        17,
        "The bleeder does nothing.",
        (6,),
        (("plugging", "leds"), ("plugging", "some")),
        (("left_on_pins", "no bleeder"),),
    ),
    Belief(
        18,
        "Tolerances do not matter.",
        (2, 10),
        (("02_mains", "none"),),
        (("both_high", "it does not matter"), ("brightest_corner", "as designed"), ("worst_case", "no weights")),
    ),
    Belief(
        19,
        "LEDs side by side share the current equally.",
        (9,),
        (("sharing", "same"),),
        (("pair_difference", "equal"), ("two_colours_side_by_side", "both")),
    ),
    Belief(
        20,
        "A capacitor that looks good is good.",
        (8,),
        (("ageing", "no"),),
        (("looks_good", "leds"), ("faded_current", "as built")),
    ),
    Belief(
        21,
        "An X2 capacitor fails open, so it takes care of itself in series.",
        (7, 10),
        (("10_x2", "open"), ("faults_short_dropper", "never")),
        (("dropper_short", "it fails open"),),
    ),
    Belief(
        22,
        "A film capacitor marked 400 V dc will do on 230 V.",
        (10,),
        (("10_film", "400"), ("10_film", "630")),
        (("film_on_the_mains", "the dc mark"),),
    ),
    Belief(
        23,
        "Few dc volts on the string: there one may touch it.",
        (7,),
        (("touch_current", "string"),),
        (("body_plug_turned", "string's volts"), ("minus_from_earth", "string")),
    ),
    Belief(
        24,
        "The dropper keeps a shock to a tingle, and the residual-current device does the rest.",
        (7,),
        (("touch_current", "dropper"), ("touch_current", "breaker")),
        (("breaker_hand_to_hand", "trips"), ("body_plug_turned", "behind the dropper")),
    ),
    Belief(
        25,
        "A stepped wave only makes the lamp brighter.",
        (14,),
        (("odd_mains", "bright"), ("odd_mains", "nothing")),
        (("stepped_heat", "as the light"),),
    ),
    Belief(
        26,
        "The inrush resistor's power rating follows from I²R.",
        (6,),
        (("rush", "more"), ("rush", "less")),
        (("rush_power", "I²R in use"), ("inrush_energy", "less in proportion")),
    ),
    Belief(
        27,
        "A few microfarads of smoothing are enough.",
        (4,),
        (("smoothing", "enough"), ("smoothing", "twice")),
        (("few_microfarads", "hardly"), ("string_resistance", "volts over amperes")),
    ),
)


def beliefs_of(task: str) -> tuple[int, ...]:
    """The numbers of the beliefs that a task knows.

    Examples
    --------
    >>> beliefs_of("one_diode_short")
    (14,)
    """
    return tuple(belief.number for belief in BELIEFS if any(key == task for key, _ in belief.tasks))
