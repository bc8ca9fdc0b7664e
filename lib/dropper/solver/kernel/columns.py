"""Columns: where each number stands in the arrays that the kernel takes and fills."""

# Columns of a lamp's row of numbers, SI units; conductance 0 where nothing is fitted.
(PEAK, FREQUENCY, C, G_C, R, CS, G_S, A_D, B_D, R_D, A_S, B_S, R_S, R_SERIES) = range(14)

# Columns of the sums over a cycle: mean values of ...
(
    SQUARE,  # line current squared
    POWER,  # power into the lamp's terminals
    STRING,  # string current
    BUS,  # bus voltage
    DROPPER_SQUARE,  # dropper voltage squared
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
) = range(20)
SUMS = 20

# Rows of the recorded waveforms.
LINE, DROPPER, BUS_WAVE, STRING_WAVE = range(4)

# At the end of a cycle: the two states and the string current, and how the
# states change with those at its start.
END_DROPPER, END_BUS, END_STRING, BY_00, BY_01, BY_10, BY_11 = range(7)
ENDS = 7
