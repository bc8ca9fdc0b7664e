"""Odd files and slips of hand: refused before they cost anything, in a sentence that says what is wrong, or what was meant."""

import resource
import sys
from pathlib import Path

import pytest
from dropper import Lamp, LampFileError
from dropper.circuit.fields import Spec, check_value
from dropper.circuit.lampfile import LARGEST
from dropper.circuit.parsing import parse
from dropper.design import Brief

GOOD = Path("notebooks/lamps/stair_marker.toml").read_text(encoding="utf-8")
# Each but the last takes tomllib seconds or minutes, or all of a stack.
DEEP = {
    "dots": "a" + ".a" * 20_000 + " = 1",
    "dots in quotes": '"a"' + '."a"' * 12_000 + " = 1",
    "dots apart": "a" + " . a" * 20_000 + " = 1",
    "header": "[" + "a." * 20_000 + "a]",
    "lists": "a = " + "[" * 40_000,
    "tables": "a = " + "{a=" * 30_000,
    "dots in a table": "a = {" + "a." * 20_000 + "a=1}",
    "behind a text": "note = '''[\n'''\na" + ".a" * 9,
}


@pytest.mark.parametrize("kind", [Lamp, Brief])
@pytest.mark.parametrize("how", DEEP)
def test_what_is_too_deep_is_refused_before_it_is_read(how, kind, monkeypatch):
    from dropper.circuit import lampfile

    monkeypatch.setattr(lampfile.tomllib, "loads", None)
    with pytest.raises(LampFileError, match=r"odd\.toml: line \d: tables more than 6 deep"):
        kind.from_toml_text(DEEP[how], "odd.toml")


@pytest.mark.parametrize("kind", [Lamp, Brief])
def test_what_is_too_long_is_refused_before_it_is_read(kind):
    with pytest.raises(LampFileError, match="longer than 100,000 bytes"):
        kind.from_toml_text(GOOD + "#" * LARGEST)


def test_dots_and_brackets_in_texts_and_remarks_are_no_depth():
    odd = "a.b.c.d.e.f.g.h.i [[[[[[[[ {{{{{{{{"
    for text in (f"name = '{odd}'", f'name = "\\"{odd}"', f"name = '''{odd}'''", f"name = 'x' # {odd} ' \""):
        lamp = Lamp.from_toml_text(GOOD.replace('name = "stair marker"', text))
        assert lamp.name in (odd, f'"{odd}', "x")


@pytest.mark.skipif(sys.platform != "linux", reason="the memory a process has had at most is counted in kB on Linux")
def test_a_deep_file_takes_no_memory():
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for text in DEEP.values():
        with pytest.raises(LampFileError):
            Lamp.from_toml_text(text)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 50_000, "kB"


def test_an_empty_file_is_answered_with_all_that_is_missing():
    with pytest.raises(LampFileError) as caught:
        Lamp.from_toml_text("", "new.toml")
    for word in ("[mains] with voltage and frequency", "[string] with led and in_series", "dropper", "missing are"):
        assert word in str(caught.value), caught.value
    with pytest.raises(LampFileError, match="missing are led; in_series; current"):
        Brief.from_toml_text("")


@pytest.mark.parametrize(
    "name", ["lampe\u00a0à côté", "family \U0001f468\u200d\U0001f469\u200d\U0001f467", "מנורה", "مصباح", "階段の灯"]
)
def test_names_of_every_script_are_accepted_and_come_back(name):
    lamp = Lamp.from_toml_text(GOOD).replace(name=name, readings__note=name)
    assert Lamp.from_toml_text(lamp.to_toml_text()) == lamp


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("a\u202eb", r"character 2 of .* cannot be printed \(U\+202E\)"),
        ("a\u2066b", r"cannot be printed \(U\+2066\)"),
        ("bell\a", r"character 5 of .* cannot be printed \(U\+0007\)"),
        ("two\nlines", "must be one line of text"),
        ("x" * 81, "has 81 characters; at most 80"),
        (5, "must be one line of text"),
    ],
)
def test_a_name_that_cannot_be_is_refused_for_the_true_reason(name, why):
    with pytest.raises(ValueError, match=f"Lamp.name: .*{why}"):
        Lamp.from_toml_text(GOOD).replace(name=name)


DROPPER, SMOOTHING = Spec("F", 1e-10, 1e-4), Spec("F", 1e-9, 1e-2, zero=True)
BLEEDER, INRUSH, AMPERES = Spec("Ω", 1e3, 1e9), Spec("Ω", 0, 1e5), Spec("A", 0, 10)


@pytest.mark.parametrize(
    ("text", "spec", "hint"),
    [
        ("474", DROPPER, "the code 474 on a capacitor means 470 nF"),  # IEC 60062: two digits, then zeros, in pF
        ("104", DROPPER, "the code 104 on a capacitor means 100 nF"),
        ("10 mF", DROPPER, "did you mean 10 µF or 10 nF?"),
        ("470 MF", SMOOTHING, "did you mean 470 µF?"),
        ("1 mΩ", BLEEDER, "did you mean 1 MΩ?"),
        ("26", AMPERES, "did you mean 26 mA?"),
    ],
)
def test_a_plain_slip_gets_its_hint(text, spec, hint):
    with pytest.raises(ValueError, match="is out of range; allowed is .*") as caught:
        check_value("field", text, spec)
    assert str(caught.value).endswith(f"; {hint}")
    with pytest.raises(ValueError) as of_a_number:
        check_value("field", parse(text, spec.unit), spec)
    assert "mean" not in str(of_a_number.value), "a number was not typed so"


@pytest.mark.parametrize(
    ("text", "unit", "why"),
    [
        ("1m", "Ω", "could be 1 mΩ or 1 MΩ"),
        ("325 Vp", "V", "is a peak; asked is the rms value, for a sine 230 V"),  # 325 V / √2
        ("650 Vpp", "V", "is from peak to peak; asked is the rms value, for a sine 230 V"),
        ("0,1 A peak", "A", "is a peak; asked is the rms value, for a sine 0.0707 A"),
    ],
)
def test_a_value_that_says_two_things_is_asked_about(text, unit, why):
    with pytest.raises(ValueError, match="field: .*") as caught:
        parse(text, unit, "field")
    assert why in str(caught.value)


@pytest.mark.parametrize("text", ["1 mΩ", "4R7", "1k5", "330", "0.5", "1 M"])
def test_what_can_be_read_is_still_read(text):
    assert parse(text, "Ω") > 0


def test_a_slip_in_a_lamp_file_gets_its_hint_with_the_line():
    with pytest.raises(LampFileError, match=r"line 3: dropper: 474 F .* on a capacitor means 470 nF"):
        Lamp.from_toml_text(GOOD.replace('dropper = "330 nF"', 'dropper = "474"'))
