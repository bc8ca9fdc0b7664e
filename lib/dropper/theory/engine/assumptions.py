"""Assumptions that several derivations share, and sources, each worded once.

A source that no one had at hand while this was written says "from memory".
"""

# assumptions
SINE = "The mains is a sine wave without harmonics."
CLAMP = (
    "The smoothing capacitor is large and the string steep, so the bridge's ac side is held at plus or minus the "
    "clamped voltage while current flows."
)
NO_RESISTANCE = "Nothing but the dropper stands in the line: inrush resistor and wiring drop next to nothing."
RESISTOR_ALONE = "Nothing but the resistor stands in the line: no dropper, and wiring drops next to nothing."
NO_LEAK = "The bleeder across the dropper draws next to nothing."
IDEAL_LAMP = (SINE, CLAMP, NO_RESISTANCE, NO_LEAK)
LOSSLESS = "The dropper is lossless and keeps its capacitance."
FORWARD = "The current is far above the saturation current, as in any LED that shines."
PURE_LOAD = "The load is a plain resistance that keeps its value, as of a heater; it takes a sine current."
SAME_LEDS = "All LEDs are alike and equally warm."
SMALL_CHANGE = "The change is small enough for the LED's curve to be taken as straight."
SINE_SWING = "Only the swing at twice the mains frequency is counted, and the string stays lit all through it."
LIGHT_FOLLOWS = "The light follows the string's current, as small LEDs do closely."
STEP = (
    "The mains hardly moves during the pulse, whose time constant is far below a period.",
    "The smoothing capacitor is so much larger than the dropper that its own voltage hardly moves.",
    "The bleeders draw next to nothing.",
)
WORST_PLUG = "The worst moment: plugged in at the crest, everything behind the dropper empty and its drops neglected."

# sources
FIRST_PRINCIPLES = "First principles: the steps above."
CAPACITOR_LAW = "Law of the capacitor, i = C dv/dt, in any textbook of circuit theory (from memory)."
OHMS_LAW = "Ohm's law, and the heat of a current in a resistor, in any textbook of circuit theory (from memory)."
DISSIPATION = "Dissipation factor as in IEC 60384-1, fixed capacitors (from memory)."
LOOP_LAW = "Voltages around a loop, Kirchhoff's law, in any textbook of circuit theory (from memory)."
RMS = "Root mean square as in IEC 60050, the International Electrotechnical Vocabulary (from memory)."
HALF_WAVE_NOTE = (
    "Atmel user guide 7597B-AVR-10/07, appendix 2, section 7.2: the same charge in a cycle of a half-wave supply."
)
FULL_BRIDGE_NOTE = (
    "Texas Instruments SBVS343A (2019), Table 2: the same current behind the bridge, followed by a 4:1 charge pump."
)
SURGE_NOTE = "Support note to Texas Instruments SBVS343A (2019): surge resistor as mains peak over surge current."
HARVESTERS = (
    "Ottman et al. 2002; Shu and Lien 2006, Smart Materials and Structures 15:1499, who meet the same circuit in "
    "vibration harvesters (from memory)."
)
FIGURE_OF_MERIT = "Figure of merit of rectifiers, IEEE Xplore document 8891681, eq. (1): f C times voltage squared."
POWER_TERMS = "IEEE 1459-2010 for real and apparent power, power factor and displacement factor (from memory)."
FOURIER = "Fourier's integrals for the fundamental, in any textbook of analysis (from memory)."
INRUSH_BOOK = "Rashid, Power Electronics, 4th edition, example 2.4: peak current, energy and decay with a resistor."
REFERENCE_IMPEDANCE = (
    "To put in for the mains: 0.4 Ω + j0.25 Ω at 50 Hz, the reference impedance of IEC TR 60725 (abstract of its "
    "edition of 1981); most sockets have less of both."
)
RIPPLE_BOOK = "Malvino and Bates, Electronic Principles, 7th edition, examples 4-7 to 4-9: ripple as I / (2 f C)."
DISCHARGE_BOOK = "Exponential discharge in any textbook of circuit theory (from memory)."
DISCHARGE_LIMITS = (
    "Limits to put in: IEC 60335-1, 22.5 (34 V, 1 s after unplugging); other standards differ, and local codes decide."
)
SHOCKLEY = "W. Shockley, Bell System Technical Journal 28 (1949), p. 435: the junction law (from memory)."
SI_CONSTANTS = (
    "Exact values of the Boltzmann constant and the elementary charge: SI brochure, 9th edition, 2019 (from memory)."
)
LIFE_NOTE = "Cosel FAQ a0057: electrolytic capacitors, life doubled by each 10 K less."
FLICKER_TERMS = (
    "IEEE 1789-2015 for percent flicker and flicker index, after the IES Lighting Handbook's definitions (from memory)."
)
VISIBILITY_TERMS = "IEC TR 63158:2018, stroboscopic visibility measure; its threshold curve from memory."
RESISTOR_RATINGS = (
    "Makers' data sheets of film resistors: rated power at 70 °C, limiting element voltage, power falling to nothing "
    "at 155 °C."
)
THERMAL_LAW = "Heat through a thermal resistance, as makers' data sheets of parts state it (from memory)."
LED_WARMTH = "Makers' data sheets of LEDs: change of forward voltage with temperature, as −2 mV/K of a yellow one."
FILM_LOSS = (
    "No standard gives a loss for each year; IEC 60384-14 gives what a test may cost: 10 % in the endurance test of "
    "class X2, 5 % in damp heat."
)
FILAMENT_LAW = (
    "M. Carlà, American Journal of Physics 81 (2013), p. 512: a lamp's filament loses one part by radiation, with the "
    "fourth power of its temperature, and one by conduction, with the first (volume and page from memory)."
)
TUNGSTEN = (
    "Resistance of tungsten with about the 1.2th power of its temperature, after the tables of Jones and Langmuir 1927 "
    "(from memory)."
)
