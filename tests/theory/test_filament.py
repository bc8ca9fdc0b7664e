"""A filament lamp's laws against the tables of tungsten and what an ohmmeter shows of a cold lamp."""

import numpy as np
import pytest
from dropper import theory

# Jones and Langmuir, General Electric Review 30 (1927): resistivity in µΩ·cm and radiated W/cm² of a tungsten wire at
# kelvins; values from memory.
TUNGSTEN = {300: (5.65, 0.0), 1000: (24.93, 0.602), 1500: (40.4, 5.52), 2000: (56.67, 24.0), 2500: (73.9, 69.8)}
LOSS = {"filament_rating": 40.0, "hot_temperature": 2500.0}
LAMP = {"filament_voltage": 230.0} | LOSS


@pytest.mark.parametrize("kelvins", TUNGSTEN)
def test_resistance_goes_as_in_the_tables_of_tungsten(kelvins):
    """Within 5 %: one power stands for a table that bends a little."""
    found = theory.filament_resistance(**LAMP, filament_temperature=kelvins)
    hot = theory.filament_hot_resistance(filament_voltage=230.0, filament_rating=40.0)
    assert hot == pytest.approx(230.0**2 / 40.0, rel=1e-12)
    assert found / hot == pytest.approx(TUNGSTEN[kelvins][0] / TUNGSTEN[2500][0], rel=0.05)


def test_a_cold_lamp_has_about_a_fourteenth_of_its_resistance():
    """An ohmmeter on a cold lamp shows a twelfth to a sixteenth of V²/P: common practice, no source."""
    found = theory.filament_resistance(
        filament_voltage=120.0, filament_rating=60.0, hot_temperature=2750.0, filament_temperature=295.0
    )
    assert 240.0 / 16 < found < 240.0 / 12


@pytest.mark.parametrize("kelvins", [1500, 2000])
def test_radiation_is_near_the_tables(kelvins):
    """The fourth power keeps the emissivity as it is; tungsten's rises with heat, so a cooler wire gives off less."""
    found = theory.filament_loss(**LOSS, filament_temperature=kelvins, cold_temperature=300.0, conducted_share=0.0)
    table = 40.0 * TUNGSTEN[kelvins][1] / TUNGSTEN[2500][1]
    assert table < found < 1.8 * table


def test_current_and_loss_agree_at_the_rating_and_rise_together():
    whole = LAMP | {"cold_temperature": 300.0, "conducted_share": 0.15}
    assert theory.filament_current(**whole, filament_temperature=2500.0) == pytest.approx(40 / 230, rel=1e-12)
    kelvins = np.linspace(310.0, 2600.0, 50)
    current = theory.filament_current(**whole, filament_temperature=kelvins)
    resistance = theory.filament_resistance(**LAMP, filament_temperature=kelvins)
    assert (np.diff(current) > 0).all()
    given_off = theory.filament_loss(**LOSS, cold_temperature=300.0, conducted_share=0.15, filament_temperature=kelvins)
    np.testing.assert_allclose(current**2 * resistance, given_off, rtol=1e-12)
