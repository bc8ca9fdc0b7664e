"""Design: from what is wanted to a lamp, every value preferred, every kind one that stands its worst, and why.

    from dropper.design import Brief, alternatives, compare, design, nearest

    brief = Brief("warm white, 5 mm", in_series=20, current=0.015, place="Europe", flicker="low risk")
    lamp = design(brief)                    # Infeasible says which wish fails, why, and the nearest brief
    lamp.lamp, lamp.of("smoothing").sentence, lamp.rows(), lamp.advice
    lamp, given_up = nearest(brief)         # the same, wishes given up one by one until it can be met
    [other.sentence for other in alternatives(lamp)]
    compare([lamp, design(brief.but(in_series=25))])

Values come from the solver in the corners of mains, tolerances and LEDs; kinds from `ratings`, in the same corners and
with every single fault that parts are chosen for. A real part stands what its own data sheet says; parts that meet the
mains are chosen as local codes and licensed practice ask. No design makes a live part fit to be touched.
"""

import lazy_loader as lazy

__getattr__, __dir__, __all__ = lazy.attach(
    __name__,
    submodules=["ratings", "tolerance", "uncertainty"],
    submod_attrs={
        "alternatives": ["Alternative", "alternatives", "two_in_parallel"],
        "brief": ["Brief"],
        "chosen_part": ["ChosenPart"],
        "comparison": ["compare"],
        "fit": ["fit_words", "order_list", "part_sizes"],
        "infeasible": ["Infeasible"],
        "pipeline": ["design", "nearest", "size"],
        "result": ["Design"],
        "sizing": ["Sizing"],
        "topologies": ["topologies"],
    },
)
