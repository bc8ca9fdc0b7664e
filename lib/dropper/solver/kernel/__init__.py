"""Compiled kernels: one lamp through one mains cycle, step by step, and round again until it repeats.

The state is the dropper's voltage and the smoothing capacitor's. Each step is implicit and
solves one increasing equation for the string current, so it always has its one answer:

    (R + ...)·j + a_d·ln(1 + j/b_d) + V = ±(v - v_dropper)     the bridge conducts, j > 0
    j = y + V/R_b + C_s·dV/dt                                  current into the bus
    V = a_s·ln(1 + y/b_s) + r_s·y                              the string at current y

A step weighs its end against its start with one half, which conserves energy exactly and is
of second order. Where that would ring, the weight goes towards one as the step grows longer
than the time constant it has to follow: 1/(1 - exp(-z)) - 1/z, z = step/time constant. What a
weight above one half loses acts as a small resistance of the method's own; its loss is kept out
of every watt. The instant the bridge starts to conduct is found inside a step, which is split
there. The periodic state is found by Newton's method on the map from one (half) cycle to the
next.

Everything here is plain numbers, compiled once by numba and kept in its cache. For `steady`:
`columns` says where each number stands, `step` solves one step, `cycle` integrates over one cycle,
`periodic` finds the one that repeats, `dark` knows lamps through which next to nothing flows. For
the package `transient`: `network` solves the circuit of four diodes at one instant, `sdirk_step`
makes one step in time, `transient` integrates over many, `rush` looks for the peak of a rush alone.
"""
