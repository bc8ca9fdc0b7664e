"""The current through a person, against complex phasors."""

import pytest
from dropper import theory

CIRCUITS = [(230.0, 50.0, 330e-9, 1000.0), (230.0, 50.0, 1.5e-6, 5000.0), (120.0, 60.0, 680e-9, 2000.0)]


@pytest.mark.parametrize(("voltage", "frequency", "dropper", "ohms"), CIRCUITS)
def test_against_phasors(voltage, frequency, dropper, ohms):
    reactance = 1 / (2j * 3.141592653589793 * frequency * dropper)
    behind, direct = abs(voltage / (ohms + reactance)), voltage / ohms
    found = theory.body_current_behind_dropper(
        voltage=voltage, frequency=frequency, dropper=dropper, body_resistance=ohms
    )
    assert found == pytest.approx(behind, rel=1e-12)
    assert theory.body_current(voltage=voltage, body_resistance=ohms) == pytest.approx(direct, rel=1e-12)
    times = theory.times_turned(body_resistance=ohms, reactance=abs(reactance))
    assert times == pytest.approx(direct / behind, rel=1e-12)


def test_figures_of_the_trade_for_a_few_hundred_nanofarads():
    """By hand: 330 nF at 50 Hz has 9.65 kΩ; 230 V drive 23.7 mA through it and 1 kΩ, 230 mA through 1 kΩ alone."""
    lamp = {"voltage": 230.0, "frequency": 50.0, "dropper": 330e-9}
    assert 1e3 * theory.body_current_behind_dropper(**lamp, body_resistance=1000.0) == pytest.approx(23.7, abs=0.05)
    assert theory.body_current(voltage=230.0, body_resistance=1000.0) == pytest.approx(0.23)
    assert 1e3 * theory.body_current_behind_dropper(**lamp, body_resistance=1.0) == pytest.approx(23.8, abs=0.05)
