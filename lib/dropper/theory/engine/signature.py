"""Signature of a formula: its values by name, for Tab, `help` and `?`, and what is wrong with a call in words."""

from __future__ import annotations

import difflib
import inspect
from collections.abc import Callable, Collection, Sequence
from inspect import Parameter, Signature

import numpy as np

from .symbol import SymbolInfo

NUMBER = float | np.ndarray


class KeywordMethod:
    """A method that takes a derivation's values by name; bound to one, its signature lists them."""

    def __init__(self, method: Callable):
        self.method = method
        self.__doc__ = method.__doc__

    def __get__(self, derivation, owner=None):
        return self.method if derivation is None else BoundKeywordMethod(self.method, derivation)


class BoundKeywordMethod:
    """Such a method of one derivation, to be called."""

    def __init__(self, method: Callable, derivation):
        self.method = method
        self.derivation = derivation
        self.__doc__ = method.__doc__

    def __call__(self, *positional: object, **values: object):
        """The method's result for these values."""
        return self.method(self.derivation, *positional, **values)

    @property
    def __signature__(self) -> Signature:
        method = inspect.signature(self.method, eval_str=True)
        options = [option for option in method.parameters.values() if option.kind is Parameter.KEYWORD_ONLY]
        return Signature(
            [*map(_parameter, self.derivation.inputs), *options], return_annotation=method.return_annotation
        )


def check_names(
    name: str, inputs: Sequence[SymbolInfo], positional: Collection[object], names: Collection[str]
) -> None:
    """Raise TypeError, saying what is wanted, for a value without a name or a name unknown or missing."""
    keywords = [line.keyword for line in inputs]
    if positional:
        call = ", ".join(f"{keyword}=…" for keyword in keywords)
        wanted = "takes its values by name" if keywords else "takes no values"
        raise TypeError(f"{name}() {wanted}: write {name}({call})")
    unknown = [_unknown(keyword, keywords) for keyword in names if keyword not in keywords]
    missing = [_missing(line) for line in inputs if line.default is None and line.keyword not in names]
    if unknown or missing:
        wrong = {"unknown": unknown, "missing": missing}
        parts = [f"{what}: {', '.join(words)}" for what, words in wrong.items() if words]
        raise TypeError(f"{name}() expects {_expected(inputs)}; {'; '.join(parts)}")


def _parameter(line: SymbolInfo) -> Parameter:
    default = Parameter.empty if line.default is None else line.default
    return Parameter(line.keyword, Parameter.KEYWORD_ONLY, default=default, annotation=NUMBER)


def _expected(inputs: Sequence[SymbolInfo]) -> str:
    values = (line.keyword if line.default is None else f"{line.keyword}={line.default:g}" for line in inputs)
    return ", ".join(values) or "no values"


def _unknown(keyword: str, keywords: list[str]) -> str:
    nearest = difflib.get_close_matches(keyword, keywords, n=1)
    return f"{keyword} (is {nearest[0]} meant?)" if nearest else keyword


def _missing(line: SymbolInfo) -> str:
    return f"{line.keyword} ({line.meaning}; {line.allowed})"
