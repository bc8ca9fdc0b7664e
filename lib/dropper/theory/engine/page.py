"""Page: a derivation set out for readers, Markdown with LaTeX, plain text, and a docstring."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .example import Example
from .latex import latex
from .plain_text import plain_text

UNIT_WORDS = {
    "V": "volt",
    "A": "ampere",
    "Hz": "hertz",
    "F": "farad",
    "Ω": "ohm",
    "W": "watt",
    "VA": "volt-ampere",
    "var": "var, the volt-ampere of nonactive power",
    "lm": "lumen",
    "lm/A": "lumen per ampere",
    "%": "per cent",
    "Wh": "watt-hour",
    "kWh": "kilowatt-hour",
    "/kWh": "money per kilowatt-hour",
    "C": "coulomb",
    "J": "joule",
    "s": "second",
    "h": "hour",
    "K": "kelvin",
    "°C": "degree Celsius",
    "": "no unit",
    "rad": "radian",
    "rad/s": "radian per second",
    "H": "henry",
    "J/K": "joule per kelvin",
    "K/W": "kelvin per watt",
    "V/K": "volt per kelvin",
    "A²s": "ampere squared times second",
}


def markdown(derivation: Any) -> str:
    """Title, question, symbols, numbered steps with LaTeX, result, assumptions and sources."""
    lines = [f"**{derivation.title}**", "", f"*{derivation.question}*", ""]
    for number, step in enumerate(derivation.steps, start=1):
        lines += [f"{number}. {step.sentence} *({step.justification.words()})*", ""]
        lines += [f"   $$ {latex(step.equation)} $$", ""]
        if step.assumption:
            lines += [f"   Assuming: {step.assumption}", ""]
    lines += [f"**Result:** ${latex(derivation.result)}$", ""]
    lines += ["| symbol | stands for | unit |", "|---|---|---|"]
    for symbol, line in derivation.symbols.items():
        lines.append(f"| ${latex(symbol)}$ | {line.meaning} | {line.unit or '–'} |")
    lines.append("")
    lines += _list("**Assumptions**", [f"- {text}" for text in derivation.assumptions])
    lines += _list("**Sources**", [f"- {text}" for text in derivation.sources])
    return "\n".join(lines)


@dataclass(frozen=True)
class FoldedDerivation:
    """A derivation of which a notebook shows the result; steps and symbols unfold on a click."""

    derivation: Any

    def _repr_markdown_(self) -> str:
        head = f"**{self.derivation.title}**\n\n$$ {latex(self.derivation.result)} $$\n\n"
        steps = markdown(self.derivation)
        return f"{head}<details><summary>Step by step, with every symbol</summary>\n\n{steps}\n\n</details>"


def plain(derivation: Any) -> str:
    """The same in lines that can be read aloud; no LaTeX and no stacked fractions."""
    lines = [derivation.title, f"Question: {derivation.question}", ""]
    lines += ["Symbols:"]
    lines += [f"{name}: {line.meaning}, {UNIT_WORDS[line.unit]}." for name, line in _by_name(derivation)]
    lines.append("")
    for number, step in enumerate(derivation.steps, start=1):
        lines.append(f"Step {number} ({step.justification.words()}). {step.sentence}")
        lines.append(f"  {plain_text(step.equation)}")
        if step.assumption:
            lines.append(f"  Assuming: {step.assumption}")
    lines += ["", f"Result: {plain_text(derivation.result)}", ""]
    lines += _list("Assumptions:", derivation.assumptions)
    lines += _list("Sources:", derivation.sources)
    return "\n".join(lines).rstrip()


def docstring(derivation: Any) -> str:
    """What `help` shows: equation, parameters with units and ranges, errors, a worked example, sources."""
    lines = [f"{derivation.title}.", "", derivation.question, ""]
    lines += _section("Equation", [f"    {plain_text(derivation.result)}"])
    parameters = []
    for line in derivation.inputs:
        default = "" if line.default is None else f"; {line.default:g} if not given"
        parameters.append(f"{line.keyword} : float or array, by keyword only")
        parameters.append(f"    {line.name}, {line.meaning}; {line.unit or 'no unit'}, {line.allowed}{default}.")
    lines += _section("Parameters", parameters or ["none"])
    output = derivation.output
    returns = [
        f"{output.keyword} : float or array",
        f"    {output.name}, {output.meaning}; {output.unit or 'no unit'}.",
    ]
    lines += _section("Returns", returns)
    errors = ["TypeError", "    A keyword unknown or missing, or a value that is not a number."]
    errors += ["ValueError", "    A value outside its range or not finite, or arrays whose shapes do not go together."]
    errors += [f"    Unless {relation.words()}: {relation.reason}." for relation in derivation.conditions]
    lines += _section("Raises", errors)
    example = derivation.example or Example.typical(derivation.inputs)
    lines += _section("Examples", example.lines(derivation.name, derivation(**example.numbers), output.unit))
    lines += _section("Assumptions", derivation.assumptions)
    lines += _section("Sources", derivation.sources)
    return "\n".join(lines).rstrip() + "\n"


def _by_name(derivation: Any):
    return ((line.name, line) for line in derivation.symbols.values())


def _list(heading: str, items) -> list[str]:
    items = list(items)
    return [heading, *([""] if heading.startswith("**") else []), *items, ""] if items else []


def _section(heading: str, lines) -> list[str]:
    lines = list(lines)
    return [heading, "-" * len(heading), *lines, ""] if lines else []
