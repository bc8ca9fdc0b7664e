"""Columns: where each number stands in the arrays that the kernel takes and fills."""

# Columns of a lamp's row of numbers, SI units; conductance 0 where nothing is fitted.
(
    PEAK,
    FREQUENCY,
    C,
    G_C,
    R,
    CS,
    G_S,
    A_D,
    B_D,
    R_D,
    A_S,
    B_S,
    R_S,
    R_SERIES,
    LEAST,  # current from which the bridge counts as conducting
    LEAK,  # reverse current of the bridge's diodes, 0 where it is not worth a thought
) = range(16)
ROW = 16

# Columns of the sums over a cycle: mean values of ...
(
    SQUARE,  # line current squared
    POWER,  # power into the lamp's terminals
    STRING,  # string current
    BUS,  # bus voltage
    DROPPER_SQUARE,  # dropper voltage squared
    BUS_SQUARE,  # bus voltage squared
    HEAT_R,
    HEAT_BLEEDER,
    HEAT_DIODES,
    HEAT_SMOOTHING_BLEEDER,
    HEAT_SERIES,
    HEAT_LEDS,
    CONDUCTING,  # share of the time in which the bridge conducts
    LINE_PEAK,
    STRING_MAX,
    STRING_MIN,
    BUS_MAX,
    BUS_MIN,
    DROPPER_PEAK,
    SETTLED,  # 1 if the cycle repeats
    SWEEPS,  # how many cycles it took
    FLICKER_INDEX,  # of the string current
) = range(22)
SUMS = 22

# Rows of the recorded waveforms.
LINE, DROPPER, BUS_WAVE, STRING_WAVE = range(4)

# At the end of a cycle: what the two states have gained, and how the gains answer to the states at its start.
GAIN_DROPPER, GAIN_BUS, BY_00, BY_01, BY_10, BY_11 = range(6)
ENDS = 6
