"""Of several arguments that are wrong the first is told, in the order in which they stand in the call."""

from __future__ import annotations

from typing import Any

from each import each

from brinecalc import registry
from brinecalc.describe import NUMBERS, worked_examples

SPOILT = frozenset((*NUMBERS, "amount", "name", "column"))
ELSEWHERE = {
    ("BRINE_COST", "ingredients"): "any text is a name that may have its price",
    ("BRINE_COST", "price_names"): "any text is a name",
    ("BRINE_COST", "unit_costs"): "only the prices that the mix uses are read",
    ("BRINE_PH", "masses"): "read beside its ingredient",
    ("BRINE_SODIUM", "ingredients"): "read with its shares",
    ("BRINE_SODIUM", "shares"): "read with its ingredients",
    ("BRINE_CONVERT", "value"): "read by its scale, which stands after it",
    ("BRINE_METER", "reading"): "read by its instrument, which stands after it",
    ("BRINE_CHECK", "headings"): "any text may head a column",
    ("BRINE_FINDINGS", "headings"): "any text may head a column",
    ("BRINE_LIMIT", "limit"): "a name with the rules that it is looked up under",
    ("BRINE_SOURCE", "topic"): "alone",
    ("BRINE_WHY", "function_name"): "answers with a sentence",
}
"""What cannot be read by itself, and why."""


def _wrong(cell: Any) -> Any:
    """Nothing that can be read: for a range, a range of it."""
    return [_wrong(inside) for inside in cell] if isinstance(cell, (list, tuple)) else "?!"


def _calls(name: str) -> list[tuple[int, str, list[Any]]]:
    """A function's worked example with one argument spoilt and another, after it, left out or spoilt."""
    made = []
    spec, cells = registry.spec(name), list(worked_examples(registry.spec(name))[0].cells)
    for i, argument in enumerate(spec.arguments[: len(cells)]):
        if argument.kind not in SPOILT or (name, argument.name) in ELSEWHERE:
            continue
        for j, later in enumerate(spec.arguments[i + 1 :], i + 1):
            if later.kind not in SPOILT and later.kind != "choice":
                continue
            filled = cells + [""] * (len(spec.arguments) - len(cells))
            filled[i], filled[j] = _wrong(filled[i]), "" if later.required else "?!"
            made.append((i, argument.name, filled))
    return made


@each("name", registry.names())
def test_the_first_wrong_argument_is_told_first(name: str) -> None:
    for place, argument, cells in _calls(name):
        assert registry.why(name, *cells).startswith(f"{name}: {argument} ")
        alone = [cell if i <= place else "" for i, cell in enumerate(cells)]
        assert registry.call(name, *cells) == registry.call(name, *alone), f"the error is that of {argument}"


def test_many_arguments_are_spoilt() -> None:
    assert sum(len(_calls(name)) for name in registry.names()) > 400


def test_a_pack_mistyped_is_told_before_a_price_that_is_missing() -> None:
    """Found by a purchasing manager: the sentence spoke of the missing price alone."""
    said = registry.why("COST", [["salt"], ["sugar"]], [["5 kg"], ["2 kgg"]], [["salt"], ["sugar"]])
    assert 'masses must be a mass, got "2 kgg" in row 2' in said
    said = registry.why("COST", [["salt"], ["sugar"]], [["5 kg"], ["2 kg"]], [["salt"], ["sugar"]])
    assert "unit_costs is missing" in said
    assert "pack_size" in registry.why("UNIT_COST", 30, "25 kgg", 7)
    assert registry.call("COST", [["salt"]], [["-5 kg"]]) == "#NUM!"
    assert registry.call("COST", [["salt"]], [["5 kg"]]) == "#VALUE!"
