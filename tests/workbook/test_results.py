"""A template filled as a person would, and the whole plan worked out again by arithmetic written here.

No kernel of the library is called: masses, costs and times follow from the definitions, the soaking from the series
of Crank, The Mathematics of Diffusion (2nd ed., 4.3 and 5.3), with roots by scipy. Composition and diffusivity of the
products are figures of the product table, read here with csv.
"""

from __future__ import annotations

import csv
import datetime
import math
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from built import FEW, bare
from each import each
from filling import FIRST, TOTALS, Answers, Person
from openpyxl.utils import column_index_from_string, get_column_letter
from priced import Book, place
from scipy.optimize import brentq
from scipy.special import j0, j1
from trials import Kept
from xlsx import seen

import brinecalc.tables
from brinecalc import registry
from brinecalc.workbook.book import Options
from brinecalc.workbook.create import PAPERS
from brinecalc.workbook.sheets import prices, results

READY = datetime.datetime(2027, 3, 6, 18, 0)
LB, INCH, QUART, OUNCE = 453.59237, 25.4, 946.352946, 28.349523125
"""Exact by definition."""

BATCHES: list[dict[str, Any]] = [
    {"Product": "chicken breast", "For": "lunch", "Pieces": 40, "Weight as bought": 8000, "Thickness": 25,
     "Method": "gradient", "Salt wanted in the product": 0.01, "Strength, of the water": 0.06, "Sweetener": "honey",
     "Level": 0.02, "Aromatic": "fresh thyme", "Level 2": 0.005, "Vessel": 30000, "Portion": 180, "Ready at": READY},
    {"Product": "pork chop", "Pieces": 24, "Weight as bought": 6000, "Thickness": 30, "Method": "gradient",
     "Salt wanted in the product": 0.011, "Hours I have": 5.5, "Water per product": 1.5, "Sweetener": "brown sugar",
     "Level": 0.03, "Portion": 220, "Rest": 3, "Ready at": READY},
    {"Product": "pork tenderloin", "Pieces": 12, "Weight as bought": 6000, "Thickness": 45, "Shape": "cylinder",
     "Method": "equilibrium", "Salt wanted in the product": 0.014, "Water per product": 0.8, "Sweetener": "honey",
     "Level": 0.02, "Aromatic": "bay leaf", "Level 2": 0.001, "Portion": 200, "Ready at": READY},
    {"Product": "pork belly", "Pieces": 3, "Weight as bought": 9000, "Thickness": 40, "Shape": "slab",
     "Method": "dry equilibrium", "Salt wanted in the product": 0.022, "Sweetener": "brown sugar", "Level": 0.02,
     "Curing salt": "curing salt no. 1", "Nitrite": 115, "Reckoned as": "dry", "Rest": 24, "Portion": 40,
     "Ready at": READY},
    {"Product": "beef brisket", "Pieces": 2, "Weight as bought": 10000, "Thickness": 70, "Method": "injected",
     "Salt wanted in the product": 0.018, "Weight gained": 0.15, "Sweetener": "brown sugar", "Level": 0.02,
     "Phosphate": "sodium tripolyphosphate", "Level 4": 0.02, "Curing salt": "curing salt no. 1", "Nitrite": 110,
     "Reckoned as": "pumped", "Rest": 36, "Portion": 160, "Ready at": READY},
]  # fmt: skip
"""In grams, millimetres, millilitres."""

PRICES = [  # name, pack as typed, grams in it, price, usable share
    ("chicken breast", "5 kg", 5000, 44.5, 0.97), ("pork chop", "6 kg", 6000, 45.0, 1),
    ("pork tenderloin", "3.5 kg", 3500, 29.8, 0.98), ("pork belly", "3 kg", 3000, 21.6, 1),
    ("beef brisket", "5 kg", 5000, 62.5, 0.95), ("water", "1000 kg", 1e6, 2.4, 1), ("ice", "10 kg", 1e4, 4.5, 0.95),
    ("salt", "10 kg", 1e4, 6.9, 1), ("honey", "5 kg", 5000, 36.5, 1), ("brown sugar", "24 x 500 g", 12000, 32.4, 1),
    ("fresh thyme", "100 g", 100, 2.6, 0.8), ("bay leaf", "250 g", 250, 8.0, 1),
    ("sodium tripolyphosphate", "1 kg", 1000, 9.6, 1), ("curing salt no. 1", "1 kg", 1000, 7.0, 1),
]  # fmt: skip

_TYPED = {
    "US": {"Weight as bought": LB, "Thickness": INCH, "Vessel": QUART, "Portion": OUNCE},
    "metric": {"Weight as bought": 1000, "Thickness": 1, "Vessel": 1000, "Portion": 1},
}
_SHOWN = {"US": (LB, OUNCE, QUART), "metric": (1000, 1, 1000)}


def products() -> dict[str, dict[str, str]]:
    path = Path(brinecalc.tables.__file__).parent / "products.csv"
    lines = [line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return {row["name"]: row for row in csv.DictReader(lines)}


def filled(units: str) -> Person:
    person = Person(bare(Options(units, PAPERS[units], batches=FEW)))
    for row, batch in enumerate(BATCHES, FIRST):
        factors = _TYPED[units]
        person.fill(
            "Plan", row, {key: value / factors.get(key, 1) if key in factors else value for key, value in batch.items()}
        )
    for row, (name, pack, _, price, usable) in enumerate(PRICES, FIRST):
        values: dict[str, Any] = {"Product or ingredient": name, "Pack": pack, "Price of the pack": price}
        person.fill("Prices", row, values | ({} if usable == 1 else {"Usable": usable}))
    return person


@pytest.fixture(scope="module", params=["metric", "US"])
def units(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def asked(units: str) -> Iterator[Kept]:
    with filled(units).asked() as trial:
        yield trial


@pytest.fixture(scope="module")
def answers(units: str, asked: Kept) -> Answers:
    return filled(units).told(asked)


@contextmanager
def honey_costs(asked: Kept, price: float | None) -> Iterator[int]:
    """Another price for honey, put back afterwards; gives its row on Prices."""
    row = FIRST + next(i for i, line in enumerate(PRICES) if line[0] == "honey")
    cell = (prices.SHEET, row, column_index_from_string(prices.grid().columns["price_price"]))
    with asked.supposing({cell: price}):
        yield row


def everything(asked: Kept) -> dict[tuple[str, str], Any]:
    """The value of every formula, by sheet and address."""
    return {
        (sheet, f"{get_column_letter(col)}{row}"): asked.value(sheet, row, col)
        for sheet, row, col in (formula.cell for formula in asked.formulas())
    }


# ---- the arithmetic


def masses(batch: dict[str, Any]) -> dict[str, float]:
    """What goes into a batch in grams, from the definitions of the methods."""
    product = products()[batch["Product"]]
    native, refuse = float(product["native_salt"]), float(product["refuse"])
    edible = batch["Weight as bought"] * (1 - refuse)
    target, method = batch["Salt wanted in the product"], batch["Method"]
    levels = {key: batch.get(key, 0) for key in ("Level", "Level 2", "Level 4")}
    gain, ppm = batch.get("Weight gained", 0), batch.get("Nitrite", 0) * 1e-6
    if method == "injected":
        mixed = edible * gain * 1.1  # a tenth more than goes in, the setting of a new workbook
        strength = (target * (1 + gain) - native) / gain  # of the solution, on the finished weight
        water = (mixed * (1 - strength) - ppm * mixed / gain) / (1 + sum(levels.values()))
        all_salt, cure = mixed * strength, ppm * mixed / (gain * 0.0625)
    else:
        water = 0.0 if method == "dry equilibrium" else edible * batch.get("Water per product", 1)
        all_salt = target * (edible + water) - native * edible  # equilibrium by weight
        cure = edible * ppm / 0.0625
        if method == "gradient":
            all_salt = water * strength_of(batch)
    base = edible if method == "dry equilibrium" else water
    return {
        "edible": edible, "water": water, "salt": all_salt - 0.9375 * cure, "cure": cure, "all salt": all_salt,
        "sweetener": base * levels["Level"], "aromatic": base * levels["Level 2"],
        "phosphate": base * levels["Level 4"], "finished": edible * (1 + gain),
    }  # fmt: skip


def uptake(fourier: float, ratio: float, cylinder: bool) -> float:
    """Share of the final uptake from a well-stirred limited bath (Crank, equations 4.37 and 5.33)."""
    total = 0.0
    for n in range(1, 60):
        if cylinder:  # ratio·q·J0(q) + 2·J1(q) = 0
            low, high = _zero_of_j1(n - 1) + 1e-9, _zero_of_j1(n) - 1e-9
            q = brentq(lambda x: ratio * x * j0(x) + 2 * j1(x), low, high, xtol=1e-14)
            total += 4 * ratio * (1 + ratio) / (4 + 4 * ratio + ratio**2 * q**2) * math.exp(-(q**2) * fourier)
        else:  # tan q = -ratio·q
            low, high = (n - 0.5) * math.pi + 1e-9, n * math.pi
            q = brentq(lambda x: math.tan(x) + ratio * x, low, high, xtol=1e-14)
            total += 2 * ratio * (1 + ratio) / (1 + ratio + ratio**2 * q**2) * math.exp(-(q**2) * fourier)
    return 1 - total


def _zero_of_j1(n: int) -> float:
    if n == 0:
        return 0.0
    guess = (n + 0.25) * math.pi
    return float(brentq(j1, guess - 0.4, guess + 0.4, xtol=1e-14))


def soaking(batch: dict[str, Any], estimate: str = "d_typical") -> tuple[float, float, float, float, bool]:
    """Water share, salt per water in the product, ratio of waters, seconds per Fourier number, whether a cylinder.

    The brine of a new workbook is at 4 °C (38 °F in US units), where the table's diffusivities hold but for the
    activation energy of 23 kJ/mol; at 4 °C itself the factor is 1.
    """
    product = products()[batch["Product"]]
    share, native = float(product["water"]), float(product["native_salt"])
    half = batch["Thickness"] / 2000
    seconds = half**2 / float(product[estimate])
    return share, native / share, batch.get("Water per product", 1) / share, seconds, batch.get("Shape") == "cylinder"


def strength_of(batch: dict[str, Any]) -> float:
    """Strength of a gradient brine: given, or the one that reaches the target in the hours there are."""
    given = batch.get("Strength, of the water")
    if given is not None:
        return float(given)
    share, inside, ratio, seconds, cylinder = soaking(batch)
    reached = uptake(batch["Hours I have"] * 3600 * _WARMTH[0] / seconds, ratio, cylinder)
    return inside + (batch["Salt wanted in the product"] / share - inside) * (1 + 1 / ratio) / reached


def hours(batch: dict[str, Any], estimate: str = "d_typical") -> float:
    """Hours of soak, by root finding on the series."""
    share, inside, ratio, seconds, cylinder = soaking(batch, estimate)
    wanted = 0.9  # closeness of a new workbook
    if batch["Method"] == "gradient":
        end = (ratio * strength_of(batch) + inside) / (1 + ratio)
        wanted = (batch["Salt wanted in the product"] / share - inside) / (end - inside)
    fourier = brentq(lambda x: uptake(x, ratio, cylinder) - wanted, 1e-4, 20, xtol=1e-14)
    return float(fourier * seconds / 3600 / _WARMTH[0])


_WARMTH = [1.0]
"""How much faster salt moves than at 4 °C; set by the test for the units at hand."""


@pytest.fixture(autouse=True)
def warmth(request: pytest.FixtureRequest) -> None:
    units = request.node.callspec.params.get("units") if hasattr(request.node, "callspec") else "metric"
    kelvin = 277.15 if units != "US" else (38 - 32) / 1.8 + 273.15
    _WARMTH[0] = math.exp(-23000 / 8.314462618 * (1 / kelvin - 1 / 277.15))


def cost_per_gram(name: str) -> float:
    return next(price / (grams * usable) for known, _, grams, price, usable in PRICES if known == name)


# ---- the tests


def test_everything_is_computed_and_nothing_fails(asked: Kept, answers: Answers) -> None:
    assert not asked.distrusted()
    assert not [cell for cell, value in everything(asked).items() if isinstance(value, dict)]
    for row in range(FIRST, FIRST + len(BATCHES)):
        assert answers.row("Plan", row)["Says"] in ("ok", "NOTE", "CAUTION")


@pytest.mark.parametrize("number", range(len(BATCHES)))
def test_masses_follow_from_the_definitions(answers: Answers, units: str, number: int) -> None:
    large, small, _ = _SHOWN[units]
    wanted, row = masses(BATCHES[number]), answers.row("Results", FIRST + number)
    assert row["Edible weight"] == pytest.approx(wanted["edible"] / large, rel=1e-9)
    assert row["Water or liquid, ice included"] == pytest.approx(wanted["water"] / large, rel=1e-9, abs=1e-12)
    for heading in ("Salt", "Sweetener", "Aromatic", "Phosphate"):
        assert row[heading] == pytest.approx(wanted[heading.lower()] / small, rel=1e-8, abs=1e-9), heading
    assert row["Curing salt"] == pytest.approx(wanted["cure"], rel=1e-8, abs=1e-9)  # in grams, whatever the units


def test_the_injection_brine_weighs_what_was_mixed(answers: Answers, units: str) -> None:
    """Mass balance: all that is weighed out is the brine of gain and overage."""
    large, small, _ = _SHOWN[units]
    row = answers.row("Results", FIRST + 4)
    weighed = row["Water or liquid, ice included"] * large + small * sum(
        row[heading] for heading in ("Salt", "Sweetener", "Phosphate")
    )
    weighed += row["Curing salt"]
    assert weighed == pytest.approx(masses(BATCHES[4])["edible"] * 0.15 * 1.1, rel=1e-9)


@each(
    "product, method, gain, stated",
    [
        ("pork chop", "gradient", None, "not measured"),
        ("pork chop", "equilibrium", None, "not measured"),
        ("pork belly", "dry equilibrium", None, "not measured"),
        ("pork chop", "gradient", 0.0, 0.0),
        ("pork chop", "gradient", 0.08, 0.08),
        ("beef brisket", "injected", 0.15, 0.15),
        ("beef brisket", "injected", None, 0.1),
    ],
)
def test_a_pick_up_that_nobody_measured_is_no_figure_of_the_label(
    book: Book, product: str, method: str, gain: float | None, stated: float | str
) -> None:
    """9 CFR 317.2(e)(2): what is added stands on the label as a share of the raw weight."""
    row = next(row for row in range(1, 16) if book.of("product", row) == product)
    given = {place("method", row): method, place("gain", row): gain}
    with book.supposing(given):
        assert book.of("w_fails", row) == 0
        shown = book.of("r_added", row)
        assert shown == (stated if isinstance(stated, str) else pytest.approx(stated))


def test_a_word_in_place_of_a_figure_stands_where_the_figure_would() -> None:
    """To the left it would touch the figure beside it."""
    sheet = seen(bare(Options(batches=FEW)), values=False)["Results"]
    grid = results.grid()
    for key in ("r_added", "r_cost", "r_cost_mass", "r_cost_portion"):
        for row in (grid.first_row, grid.first_row + FEW - 1):
            assert sheet[grid.address(key, row)].alignment.horizontal == "right", key


@pytest.mark.parametrize("number", [0, 1, 2])
def test_soak_hours_follow_from_the_series(answers: Answers, number: int) -> None:
    row, batch = answers.row("Results", FIRST + number), BATCHES[number]
    assert row["Soak"] == pytest.approx(batch.get("Hours I have") or hours(batch), rel=1e-7)
    for heading, estimate in (("Soak, low", "d_fast"), ("Soak, high", "d_slow")):
        wanted = hours(batch, estimate)
        shown = row[heading]
        if wanted > 72:  # shown in days, to a tenth
            assert shown == f"{round(wanted / 24, 1):g} days"
        else:
            assert shown == pytest.approx(wanted, rel=1e-7)


@pytest.mark.parametrize("number", [0, 1])
def test_the_meter_reads_what_the_product_left_in_the_bath(answers: Answers, number: int) -> None:
    """Salt balance: the bath has lost what the product has gained. With sugar a meter shows too little."""
    batch = BATCHES[number]
    native = float(products()[batch["Product"]]["native_salt"])
    gained = (batch["Salt wanted in the product"] - native) / batch.get("Water per product", 1)
    left = strength_of(batch) - gained
    shown = answers.row("Results", FIRST + number)["Meter at the end, of the solution"]
    sugars = registry.call("BRINE_SUGARS", batch["Level"], batch["Sweetener"])
    sugar = sugars / (1 + strength_of(batch) + batch["Level"] + batch.get("Level 2", 0))
    assert 0.9 * left / (1 + left) < shown < left / (1 + left)
    assert registry.call("BRINE_METER", shown, "salt meter", "", "water", sugar) == pytest.approx(left, rel=0.005)


def test_beside_the_average_by_weight_stands_what_is_in_the_product_itself(answers: Answers) -> None:
    """Both by balance of salt: by weight over product and water together, in itself over their water alone."""
    batch, row, wanted = BATCHES[2], answers.row("Results", FIRST + 2), masses(BATCHES[2])
    product = products()[batch["Product"]]
    share, native = float(product["water"]), float(product["native_salt"])
    evened = (wanted["all salt"] + native * wanted["edible"]) / (wanted["water"] + share * wanted["edible"])
    inside = native + 0.9 * (share * evened - native)  # taken out nine tenths of the way, as set on Start
    by_weight = native + 0.9 * (batch["Salt wanted in the product"] - native)
    assert row["Average salt"] == pytest.approx(by_weight, rel=1e-6)
    assert row["In the product itself"] == pytest.approx(inside, rel=1e-6)
    left = (wanted["all salt"] - (inside - native) * wanted["edible"]) / wanted["water"]
    assert registry.call("BRINE_METER", row["Meter at the end, of the solution"], "salt meter", "", "water",
                         registry.call("BRINE_SUGARS", wanted["sweetener"], batch["Sweetener"])
                         / sum(wanted[key] for key in ("water", "salt", "sweetener", "aromatic")),
                         ) == pytest.approx(left, rel=0.005)  # fmt: skip
    units = {heading: answers.at("Results", f"{letter}7") for heading, letter in answers.headings("Results").items()}
    assert [units[heading] for heading in ("Average salt", "Average, low", "Average, high")] == ["by weight"] * 3
    assert "solids counted as water" in answers.at("Results", "D3")


@pytest.mark.parametrize("number", range(len(BATCHES)))
def test_moments_are_counted_back_from_when_it_must_be_ready(answers: Answers, number: int) -> None:
    row = answers.row("Results", FIRST + number)
    rest = BATCHES[number].get("Rest", 2)
    for heading, before in (("Take out", rest), ("Put in", rest + row["Soak"])):
        assert abs(row[heading] - (READY - datetime.timedelta(hours=before))) < datetime.timedelta(
            seconds=32
        )  # whole minutes


@pytest.mark.parametrize("number", range(len(BATCHES)))
def test_costs_are_masses_times_prices(answers: Answers, units: str, number: int) -> None:
    large, _, _ = _SHOWN[units]
    batch, row, wanted = BATCHES[number], answers.row("Results", FIRST + number), masses(BATCHES[number])
    ice = row["of it ice"] * large  # how much of the water is ice is a test of chilling, not of money
    used = {
        batch["Product"]: batch["Weight as bought"], "water": wanted["water"] - ice, "ice": ice, "salt": wanted["salt"],
        batch["Sweetener"]: wanted["sweetener"], batch.get("Aromatic"): wanted["aromatic"],
        batch.get("Phosphate"): wanted["phosphate"], batch.get("Curing salt"): wanted["cure"],
    }  # fmt: skip
    cost = math.fsum(grams * cost_per_gram(name) for name, grams in used.items() if name and grams)
    assert row["Cost of the batch"] == pytest.approx(cost, rel=1e-8)
    assert row["Cost per finished weight"] == pytest.approx(cost / wanted["finished"] * large, rel=1e-8)
    assert row["Cost per portion"] == pytest.approx(cost * batch["Portion"] / wanted["edible"], rel=1e-8)
    served = batch["Portion"] * wanted["finished"] / wanted["edible"]  # weighed as it goes in; the gain is eaten too
    sodium = served * batch["Salt wanted in the product"] * 393.37
    if units == "US":
        assert row["Sodium per portion, from salt"] == pytest.approx(sodium, rel=1e-4)
    else:  # by EU rules a label gives salt in grams, sodium x 2.5: (EU) 1169/2011, annex I
        assert row["Salt per portion, from the salt"] == pytest.approx(sodium / 1000 * 2.5, rel=1e-4)


def test_totals_are_sums(answers: Answers, units: str) -> None:
    rows = [answers.row("Results", FIRST + number) for number in range(len(BATCHES))]
    total = answers.row("Results", TOTALS)
    assert total["Cost of the batch"] == pytest.approx(sum(row["Cost of the batch"] for row in rows), rel=1e-9)
    assert total["Edible weight"] == pytest.approx(sum(row["Edible weight"] for row in rows), rel=1e-9)


def test_the_order_covers_the_need_in_whole_packs(answers: Answers, units: str) -> None:
    need: dict[str, float] = {}
    for batch in BATCHES:
        for name, key in ((batch["Product"], None), ("salt", "salt"), (batch["Sweetener"], "sweetener"),
                          (batch.get("Curing salt"), "cure"), (batch.get("Aromatic"), "aromatic")):  # fmt: skip
            if name:
                grams = batch["Weight as bought"] if key is None else masses(batch)[key]
                need[name] = need.get(name, 0.0) + grams
    for row, (name, _, grams, price, usable) in enumerate(PRICES, FIRST):
        if name in need:
            found = answers.row("Prices", row)
            packs = math.ceil(need[name] / (grams * usable) - 1e-9)
            assert found["Packs to buy"] == packs, name
            assert found["Cost"] == pytest.approx(packs * price, rel=1e-9)


def test_one_price_changes_the_right_totals_only(asked: Kept, answers: Answers) -> None:
    """Honey is in batches 1 and 3: nothing but their money and the order's may move."""
    before = everything(asked)
    with honey_costs(asked, 73.0) as honey:
        after = everything(asked)
    moved = {cell for cell in before.keys() | after.keys() if before.get(cell) != after.get(cell)}
    assert {
        cell for cell in moved if cell[0] not in ("Prices", "Order", "Results", "Workings", "Recipe", "Charts")
    } == set()
    names = {letter: heading for heading, letter in answers.headings("Results").items()}
    results = {
        (names[_letters(address)], int(address.removeprefix(_letters(address))))
        for sheet, address in moved
        if sheet == "Results"
    }
    money = ("Cost of the batch", "Cost per finished weight", "Cost per portion")
    total = ("Cost of the batch", TOTALS)
    assert results == {(heading, row) for heading in money for row in (FIRST, FIRST + 2)} | {total}
    for number in (0, 2):
        extra = masses(BATCHES[number])["sweetener"] * 36.5 / 5000
        assert after["Results", f"{answers.headings('Results')['Cost of the batch']}{FIRST + number}"] == pytest.approx(
            answers.row("Results", FIRST + number)["Cost of the batch"] + extra, rel=1e-9
        )
    rows = {int(address.removeprefix(_letters(address))) for sheet, address in moved if sheet == "Prices"}
    assert rows == {honey}


def test_a_missing_price_leaves_the_totals_open_and_is_never_nothing(asked: Kept, answers: Answers) -> None:
    cost = column_index_from_string(answers.headings("Results")["Cost of the batch"])
    with honey_costs(asked, None):
        assert asked.value("Results", FIRST, cost) == "no price"
        assert asked.value("Results", TOTALS, cost) == "not complete"
        assert isinstance(asked.value("Results", FIRST + 1, cost), float)


def _letters(address: str) -> str:
    return "".join(c for c in address if c.isalpha())
