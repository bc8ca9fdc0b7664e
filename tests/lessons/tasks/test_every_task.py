"""Every task over many learners: sensible values, an answer that is accepted, slips told by their names, honest hints."""

import functools
import math
import re
import subprocess
import sys

import pytest
from dropper import lessons
from dropper.components.marks.colours import DIGITS
from dropper.lessons.catalogue import number
from dropper.lessons.tasks.question import MOST_HINTS, Choice, Question
from dropper.lessons.tasks.random_values import UNITS, answer_text, value_text
from dropper.lessons.tasks.reply import NAMES, read
from for_every import for_every

SEEDS = range(40)
NUMBERS = [task for task in lessons.QUESTIONS.values() if isinstance(task, Question)]
CHOICES = [task for task in lessons.QUESTIONS.values() if isinstance(task, Choice)]
EVERY = [*NUMBERS, *CHOICES]
# What no lamp of this course, nor a heater on the mains, gets beyond; a slip of powers of ten would.
BOUNDS = {
    "A": (1e-3, 10),
    "V": (-400, 400),
    "W": (0, 200),
    "VA": (0.1, 50),
    "var": (0.1, 100),
    "F": (1e-8, 1e-3),
    "Ω": (5, 3e7),
    "C": (1e-6, 1e-2),
    "°": (-90, 180),
    "%": (0.05, 130),
    "": (0.01, 120),
    "s": (0.05, 20),
    "J": (1e-3, 0.5),
    "K": (1, 100),
    "°C": (20, 160),
    "h": (500, 1e6),
    "years": (0.1, 100),
}
# Behind a number in a prompt, where the unit is none that an answer is asked in.
TAILS = (" hours", " a kilowatt-hour", " K/W", "V/K", *(f" {name}" for name in DIGITS))


def key(task):
    return task.key


@functools.cache
def asked_by_key(name, seed):
    return lessons.question(name).ask(seed)


def asked(task, seed):
    """A task with the values of a seed, drawn once for all tests."""
    return asked_by_key(task.key, seed)


def typed(value, unit, digits=4):
    """A number with its unit, as a learner would type it."""
    return value_text(value, unit, digits)


def test_each_lesson_has_six_tasks_at_least():
    assert len(lessons.QUESTIONS) >= 80
    for lesson in range(1, 9):
        assert len(lessons.of_lesson(lesson)) >= 6
    numbers = [number(task.key) for task in lessons.of_lesson(2)]
    assert numbers == [f"2.{place}" for place in range(1, len(numbers) + 1)]


def test_a_task_that_is_not_there_is_named_with_those_that_are():
    with pytest.raises(KeyError, match=r"no task 'nonsense'.+string_current"):
        lessons.question("nonsense")
    assert lessons.of_lesson(99) == ()


def test_values_carry_the_units_of_the_glossary():
    from dropper.theory.engine.symbols import GLOSSARY

    glossary = {line.keyword: line.unit for line in GLOSSARY.values()}
    shared = set(UNITS) & set(glossary)
    assert len(shared) > 20
    for name in shared:
        assert UNITS[name] == glossary[name], name


@for_every(EVERY, ids=key)
def test_a_seed_draws_its_own_values_and_the_same_ones_again(task):
    drawn = [task.ask(seed).values for seed in SEEDS]
    assert drawn == [task.ask(seed).values for seed in SEEDS]
    assert len({tuple(sorted(values.items())) for values in drawn}) >= 7, (
        "hardly two learners should share their values"
    )


@for_every(EVERY, ids=key)
def test_the_prompt_shows_each_value_just_as_it_is(task):
    for seed in SEEDS:
        instance = asked(task, seed)
        assert "{" not in instance.prompt and "nan" not in instance.prompt
        used = set(re.findall(r"\{(\w+)\}", task.prompt + " ".join(task.hints) + "".join(_sentences(task))))
        assert used <= set(instance.values)
        for name, text in instance.texts.items():
            plain = text.replace("−", "-")
            for tail in TAILS:
                plain = plain.removesuffix(tail)
            unit = UNITS[name] if UNITS[name] in NAMES else ""
            assert read(plain, unit) == pytest.approx(instance.values[name], rel=1e-9), f"{name} is shown as {text}"
            assert len(re.sub(r"\D", "", plain.partition(" ")[0])) <= 4, f"{text} is no fun to type"


def _sentences(task):
    if isinstance(task, Question):
        return [slip.sentence for slip in task.slips]
    return [*task.wrong.values(), *task.options.values()]


@pytest.mark.slow
@for_every(NUMBERS, ids=key)
def test_the_answer_is_sensible_and_accepted_when_typed_back(task):
    low, high = BOUNDS[task.unit]
    for seed in SEEDS:
        instance = asked(task, seed)
        assert math.isfinite(instance.answer)
        if task.key not in ("cost", "rush_power"):
            assert low <= instance.answer <= high, f"{instance.prompt} {typed(instance.answer, task.unit)}"
        for digits in (3, 4, 6):
            verdict = instance.judge(typed(instance.answer, task.unit, digits))
            assert verdict.right and not verdict.slips, (
                instance.prompt,
                typed(instance.answer, task.unit, digits),
                verdict,
            )
        bare = instance.judge(f"{instance.answer:.6g}")
        assert bare.right, f"a number without a unit is taken in {task.unit}"


@for_every(NUMBERS, ids=key)
def test_rounding_the_peak_to_three_digits_does_not_cost_the_answer(task):
    """A learner works with √2 as 1.414; the answer has to stay within the tolerance."""
    for seed in SEEDS:
        instance = asked(task, seed)
        if "voltage" in instance.values and task.unit not in ("", "°"):
            from dropper.lessons.tasks.known import KnownQuantities

            rounded = KnownQuantities(
                instance.values | {"peak_voltage": float(f"{1.414 * instance.values['voltage']:.3g}")}
            )
            assert task.tolerance.holds(task.answer(rounded), instance.answer), instance.prompt


@for_every(NUMBERS, ids=key)
def test_every_slip_is_told_by_its_name(task):
    met = set()
    for seed in SEEDS:
        instance = asked(task, seed)
        for name, value, _ in instance.slips:
            verdict = instance.judge(typed(value, task.unit, 6))
            if task.tolerance.holds(value, instance.answer):
                assert verdict.right, "what is right is never called a slip"
                continue
            assert not verdict.right
            assert name in verdict.slips, f"{instance.prompt}: {typed(value, task.unit)} is {name}, not {verdict}"
            shares = [other for other, near, _ in instance.slips if task.tolerance.holds(value, near)]
            assert set(shares) <= set(verdict.slips), "all that fit are named"
            met.add(name)
    assert met == {slip.name for slip in task.slips}, "each slip shows itself for some values"


@for_every(NUMBERS, ids=key)
def test_slips_are_mostly_apart_from_the_answer_and_from_one_another(task):
    """A slip that looks like the answer for most learners teaches nothing."""
    for slip in task.slips:
        alike = 0
        for seed in SEEDS:
            instance = asked(task, seed)
            values = [value for name, value, _ in instance.slips if name == slip.name]
            alike += any(task.tolerance.holds(value, instance.answer) for value in values)
        assert alike <= len(SEEDS) * 0.4, f"{slip.name} looks right for {alike} of {len(SEEDS)}"


@for_every([task for task in NUMBERS if task.key != "dropper_power"], ids=key)
def test_slips_of_writing_are_recognised(task):
    for seed in SEEDS:
        instance = asked(task, seed)
        if task.unit in ("A", "V", "W", "VA", "F", "Ω", "C", "var", "s", "J"):
            for times in (1e3, 1e-3, 1e6):
                verdict = instance.judge(f"{instance.answer * times:.9g}")
                near = abs(instance.answer) < 2 * task.tolerance.absolute
                assert near or (not verdict.right and verdict.slips), (instance.prompt, verdict)
        elif task.unit == "%":
            verdict = instance.judge(f"{instance.answer / 100:.6g}")
            assert verdict.right or verdict.slips or instance.answer < 3, (instance.answer, verdict)
        elif task.unit == "°" and abs(instance.answer) > 20:
            verdict = instance.judge(f"{math.radians(instance.answer):.6g}")
            assert "radians for degrees" in verdict.slips or "rms for peak" in verdict.slips, verdict
            assert instance.judge(f"{math.radians(instance.answer):.6g} rad").right
        elif task.unit == "":
            assert instance.judge(f"{100 * instance.answer:.6g} %").right
            assert instance.judge(f"{100 * instance.answer:.6g}").slips


@for_every(EVERY, ids=key)
def test_hints_are_few_and_the_last_one_all_but_answers(task):
    for seed in range(8):
        instance = asked(task, seed)
        assert 1 <= len(instance.hints) == instance.hint_count <= MOST_HINTS
        assert len(set(instance.hints)) == len(instance.hints)
        if isinstance(task, Question):
            last = instance.hints[-1]
            assert "$$" in last or re.search(r"\d", last), last
            result = typed(instance.answer, task.unit)
            assert f"= {result}" not in last.replace("**", ""), "all but the answer"


@for_every(NUMBERS, ids=key)
def test_the_last_hint_holds_numbers_that_lead_to_the_answer(task):
    """Each value that the last step takes stands in the hint, or a number that follows from it."""
    for seed in range(8):
        instance = asked(task, seed)
        last = instance.hints[-1].replace(r"\,", " ").replace(r"\mathrm{", "").replace(r"\mu{}", "µ").replace("}", "")
        step = task.solution[-1]
        if hasattr(step, "derivation") and not task.last_hint:
            working = instance.known.working(step.derivation, **step.inputs_by_hand(instance.known))
            for value in working.numbers.values():
                first = f"{value:.3e}".split("e")[0].replace(".", "").rstrip("0")
                assert first[:3] in last.replace(".", ""), (value, last)
        else:
            assert any(text.split(" ")[0] in last for text in instance.texts.values()) or re.findall(r"\d+\.\d+", last)


@pytest.mark.slow
@for_every(NUMBERS, ids=key)
def test_the_worked_answer_shows_the_learners_numbers_and_the_same_result(task):
    for seed in range(8):
        instance = asked(task, seed)
        solution = instance.solution()
        assert f"Answer: **{answer_text(instance.answer, task.unit, task.tolerance.exact)}**" in solution
        plain = (
            solution.replace(r"\,", " ")
            .replace(r"\mathrm{", "")
            .replace(r"\mu{}", "µ")
            .replace("{", "")
            .replace("}", "")
        )
        plain = plain.replace(r"\Omega", "Ω")
        needed = [text for name, text in instance.texts.items() if _counts(task, instance, name)]
        for text in needed:
            first = re.sub(r"[^\d.]", "", text.split(" ")[0]).replace(".", "").strip("0")
            assert first in plain.replace(".", ""), f"{task.key}: {text} is not in {plain}"


def _counts(task, instance, name):
    """Whether the answer depends on a given value."""
    from dropper.lessons.tasks.known import KnownQuantities

    value = instance.values[name]
    changed = KnownQuantities(instance.values | {name: value + 1 if isinstance(value, int) else value * 1.001})
    return abs(task.answer(changed) - instance.answer) > 1e-9 * abs(instance.answer)


@pytest.mark.slow
@for_every(CHOICES, ids=key)
def test_a_choice_is_judged_by_what_was_computed(task):
    answers = set()
    for seed in SEEDS:
        instance = asked(task, seed)
        answers.add(instance.answer)
        assert instance.judge(instance.answer).right
        assert instance.options[instance.answer] in instance.solution()
        assert "nan" not in instance.solution()
        for option in instance.options:
            verdict = instance.judge(option)
            assert verdict.right == (option == instance.answer)
            assert verdict.right or (verdict.slips == (option,) and len(verdict.sentence) > 40)
    assert set(task.wrong) == set(task.options) >= answers
    for nothing in (None, "", "somewhere", 3):
        verdict = instance.judge(nothing)
        assert not verdict.right and not verdict.counts and "Choose" in verdict.sentence


@for_every(EVERY, ids=key)
def test_a_prompt_says_whether_volts_are_of_each_part_or_of_all_together(task):
    """And whether a voltage of the mains is its rms value or its crest."""
    for seed in range(4):
        prompt = asked(task, seed).prompt
        many = re.sub(r"\b(Two LEDs|an? LED|LED package) of [\d.]+ V", "", prompt)
        assert not re.search(r"LEDs of [\d.]+ V(?! each)", many), prompt
        assert not re.search(r"diodes drop [\d.]+ V(?! each)", prompt), prompt
        assert not re.search(r"LEDs .{0,40}(bridged|short\.)", prompt) or "took" in prompt or "each" in prompt, prompt
        assert not re.search(r"crest of \d", prompt), prompt


def test_choices_that_depend_on_the_values_do_so():
    for name in (
        "more_leds",
        "which_pair",
        "other_string",
        "which_line",
        "displacement_rule",
        "worst_moment",
        "rules_disagree",
        "worst_unplugging",
        "which_diode",
        "groups_short",
        "dropper_lost",
        "two_colours_side_by_side",
        "dead_led_bridged",
        "open_in_group",
    ):
        assert len({lessons.question(name).ask(seed).answer for seed in SEEDS}) >= 2, name


def test_moments_lie_well_away_from_where_conduction_changes():
    from dropper.lessons.conduction.diodes_tasks import _seen

    for seed in SEEDS:
        instance = lessons.question("which_pair").ask(seed)
        seen, moment = _seen(instance.known), instance.values["moment"]
        for border in (seen.start, seen.end, seen.start + 180, seen.end + 180):
            assert abs((moment - border + 180) % 360 - 180) > 6, instance.prompt


def test_the_rule_is_not_asked_for_a_lamp_on_its_border():
    for seed in SEEDS:
        instance = lessons.question("displacement_rule").ask(seed)
        for border in (0.5, 0.7, 0.9):
            assert abs(instance.known.displacement_factor - border) > 0.02


def test_the_answers_to_a_fault_say_where_its_words_change():
    from dropper.lessons.faults.tasks import WORDS
    from dropper.solver import state

    assert tuple(WORDS) == state.WORDS
    bounds = {"dark": state.DARK, "dim": state.DIM, "same": 1 - state.DIM, "brighter": state.OVER - 1}
    for word, bound in bounds.items():
        assert f"{100 * bound:.0f} %" in WORDS[word], word
    assert pytest.approx(1 - state.DIM) == state.BRIGHTER - 1
    assert state.OVER == 1.5 and "half more" in WORDS["over"]


def test_how_deep_the_light_swings_is_not_asked_near_where_the_words_change():
    for seed in SEEDS:
        instance = lessons.question("few_microfarads").ask(seed)
        flicker = _whole(instance).percent_flicker
        for border in (10, 50):
            assert abs(flicker / border - 1) > 0.1, (instance.prompt, flicker)


def _whole(instance):
    from dropper.lessons.tasks.lamps import lamp_of
    from dropper.solver.steady import steady_state

    return steady_state(lamp_of(instance.known), 512)


def test_faults_lie_well_away_from_where_the_words_change():
    """A learner who works with the closed form comes to the same word as the solver."""
    from dropper.solver import state

    for name in ("diode_open", "bleeder_open", "groups_short", "dropper_lost"):
        for seed in SEEDS:
            instance = lessons.question(name).ask(seed)
            before, after = _faulty(instance)
            for bound in (state.DARK, state.DIM, state.BRIGHTER, state.OVER):
                share = after.string_current_mean / before.string_current_mean
                assert abs(share - bound) > 0.009 * max(bound, 1), (instance.prompt, share)


def _faulty(instance):
    from dropper.lessons.tasks.lamps import before_and_after

    values = instance.values
    faults = {
        "diode_open": ("open", "D1"),
        "bleeder_open": ("open", "bleeder"),
        "groups_short": ("short", "groups", values.get("more")),
        "dropper_lost": ("lost", "dropper", values.get("lost", 0) / 100),
    }
    return before_and_after(instance.known, *faults[instance.question.key])


def test_one_diode_short_is_what_the_solver_finds():
    """The closed form of the task against the circuit with four separate diodes, at a string that hardly ripples."""
    from dropper.lessons.tasks.known import KnownQuantities
    from dropper.lessons.tasks.lamps import before_and_after

    lamp = {"voltage": 230.0, "frequency": 50.0, "dropper": 330e-9, "in_series": 30, "smoothing": 470e-6}
    _, after = before_and_after(KnownQuantities(lamp), "short", "D1")
    instance = lessons.question("one_diode_short").with_values(
        {
            "voltage": 230.0,
            "frequency": 50.0,
            "dropper": 330e-9,
            "string_voltage": after.bus_voltage_mean,
            "diode_voltage": 0.8,
        }
    )
    assert instance.answer == pytest.approx(after.string_current_mean, rel=0.01)


def test_bleeders_in_series_each_stand_their_share():
    for seed in SEEDS:
        instance = lessons.question("bleeders_in_series").ask(seed)
        count, peak = round(instance.answer), instance.known.peak_voltage
        limit, watts = instance.values["limiting_voltage"], instance.values["rated_power"]
        assert peak / count <= limit and (count == 1 or peak / (count - 1) > limit), instance.prompt
        assert instance.values["voltage"] ** 2 / instance.values["bleeder"] < 0.7 * watts * count, "the volts decide"


def test_no_task_calls_a_part_safe():
    for task in EVERY:
        words = " ".join([task.prompt, *task.hints, *_sentences(task)]).lower()
        assert not re.search(r"\b(safe|safely|harmless)\b", words), task.key


def test_tolerances_say_why():
    for task in NUMBERS:
        why = task.tolerance.why
        assert why.endswith(".") and (re.search(r"allowed", why) or "Only nought" in why)


def test_asking_needs_neither_sympy_nor_the_solver():
    code = (
        "import sys; from dropper import lessons\n"
        "for task in lessons.QUESTIONS.values(): task.ask(1).prompt\n"
        "print('sympy' in sys.modules)"
    )
    assert (
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip()
        == "False"
    )
