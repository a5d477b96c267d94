"""Every table parses by its own heading, names sources that exist, keeps its rows; figures against their records."""

from __future__ import annotations

import csv
import math
import os
import re
from pathlib import Path

import periodictable
import pytest
from each import each

from brinecalc.errors import BrineError
from brinecalc.tables import load
from brinecalc.trade import ingredients as ingredients_by_name
from brinecalc.trade import products as products_by_name

REFERENCE = Path(__file__).parents[1] / "reference"
TABLES = sorted(name[:-4] for name in os.listdir(load.FOLDER) if name.endswith(".csv"))
SOURCES = {row["key"] for row in load.rows("sources")}


def reference(name):
    with open(REFERENCE / f"{name}.csv", encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


USDA = {row["ndb"]: row for row in reference("usda_sr27")}


@each("name", TABLES)
def test_every_table_reads_by_its_own_heading(name):
    table = load.table(name)
    assert table.rows
    assert table.about, "says what it holds"
    assert all(column.meaning for column in table.columns)


@each("name", TABLES)
def test_every_row_names_a_source_that_exists(name):
    table = load.table(name)
    named = [c.name for c in table.columns if c.type == "source"]
    if name not in ("sources", "headings"):
        assert named, "a table of figures has a source column"
    for row in table.rows:
        for column in named:
            assert row[column] in SOURCES


@each("name", TABLES)
def test_what_is_judged_or_remembered_says_what_would_settle_it(name):
    """And nothing is said of words that no row bears."""
    table = load.table(name)
    kinds = [column.name for column in table.columns if column.name in ("basis", "status", "d_basis")]
    borne = {row[kind] for row in table.rows for kind in kinds} & {"memory", "judgement", "assumption"}
    assert set(table.doubts) == borne
    assert all(len(words) > 20 for words in table.doubts.values())


def test_source_keys_stand_once():
    keys = [row["key"] for row in load.rows("sources")]
    assert len(keys) == len(set(keys))


@each(
    ("name", "rows", "sums"),
    [
        ("products", 75, {"water": 53.9097, "native_salt": 0.39392, "refuse": 7.33, "cap_hours": 2922.5}),
        ("ingredients", 280, {"water": 104.1467, "sugars": 27.0815, "sodium": 15.28046, "p2o5": 7.07946}),
        ("ingredients", 280, {"density": 125.765}),
        ("doses", 364, {"low": 7.3654, "high": 49.3497, "ceiling": 18.59539375}),
        ("potassium", 13, {"potassium": 5.21066}),
        ("sweetness", 25, {"low": 16.74, "typical": 18.75, "high": 21.2}),
        ("diffusivities", 15, {"temperature_low": 138.0, "temperature_high": 186.0}),
    ],
)
def test_rows_and_column_sums_are_pinned(name, rows, sums):
    table = load.rows(name)
    found = {c: round(math.fsum(row[c] for row in table if row[c] is not None), 9) for c in sums}
    assert (len(table), found) == (rows, pytest.approx(sums, abs=1e-6)), f"if meant, pin {name}: {len(table)}, {found}"


def test_diffusivities_of_the_products_are_pinned():
    pins = {"d_slow": 1.141e-8, "d_typical": 2.206e-8, "d_fast": 3.968e-8}
    found = {column: math.fsum(row[column] for row in load.rows("products")) for column in pins}
    assert found == pytest.approx(pins, rel=1e-9), f"if meant, pin {found}"


def test_what_is_named_in_another_table_stands_there():
    checked = 0
    for name in TABLES:
        for column in load.table(name).columns:
            if column.type.startswith("row "):
                other = load.table(column.type[4:])
                keys = {row[other.columns[0].name] for row in other.rows}
                assert {row[column.name] for row in load.rows(name)} <= keys, f"{name}.{column.name}"
                checked += 1
    assert checked


@pytest.mark.parametrize("names", [products_by_name.names, ingredients_by_name.names], ids=["products", "ingredients"])
def test_no_two_rows_share_a_name_or_an_alias(names):
    assert len(names().names) > 50


@pytest.mark.parametrize(
    ("cell", "column", "words"),
    [
        ("76", "share | 0.1 to 1", "must be 0.1 to 1, got 76; a share is a fraction: 0.76, not 76"),
        ("25%", "share | 0 to 0.8", "must be a number, got '25%'; write a share as 0.25"),
        ("0", "h | above 0", "must be above 0, got 0"),
        ("-1", "g | at least 0", "must be at least 0, got -1"),
    ],
)
def test_a_cell_out_of_range_is_told_the_range(cell, column, words):
    with pytest.raises(BrineError) as caught:
        load.parse(f"#: a | {column} | x\na\n{cell}\n", "goods")
    assert words in caught.value.sentence()
    assert "table goods, line 3, column a:" in caught.value.sentence()


@each(
    "text",
    [
        "#: a | text | any | x\nb\n1\n",
        "#: a | share | 0 to 1 | x\na\n1.5\n",
        "#: a | share | 0 to 1 | x\na\nfive\n",
        "#: a | share | 0 to 1 | x\na\nnan\n",
        "#: a | flag | any | x\na\nmaybe\n",
        "#: a | choice b/c | any | x\na\nd\n",
        '#: a | text | any | x\na\n""\n',
        "#: a | text | any | x\n#: b | text | any | x\na,b\n1\n",
        "#: a | text | sideways | x\na\n1\n",
        "#: a | text | any\na\n1\n",
    ],
)
def test_a_table_that_breaks_its_own_rules_is_refused(text):
    with pytest.raises(BrineError):
        load.parse(text, "broken")


# products against the composition record (USDA SR27, read)


def products():
    return [row for row in load.rows("products") if row["source"] == "usda-sr27"]


@each("row", products())
def test_products_match_the_usda_record(row):
    record = USDA[row["source_place"].split()[-1]]
    assert row["water"] == pytest.approx(float(record["water_pct"]) / 100, abs=5e-5)
    assert row["native_salt"] == pytest.approx(float(record["sodium_mg"]) / 39340, abs=5.1e-6)
    assert row["refuse"] == pytest.approx(float(record["refuse_pct"]) / 100, abs=1e-9) or row["note"]


def test_products_without_waste_say_why_the_record_has_some():
    for row in products():
        recorded = float(USDA[row["source_place"].split()[-1]]["refuse_pct"])
        if row["refuse"] * 100 != pytest.approx(recorded):
            assert "sold without waste" in row["note"] or "34 % is used" in row["note"], row["name"]


def test_there_are_products_of_every_kind_a_kitchen_brines():
    assert len(load.rows("products")) >= 40
    assert {row["group"] for row in load.rows("products")} >= {
        "poultry", "pork", "beef", "fish", "shellfish", "cheese", "soy", "vegetable",
    }  # fmt: skip


def test_treated_goods_stand_out_by_their_native_salt():
    """USDA SR27: mixed retail shrimp 566 mg sodium in 100 g against 119 untreated; enhanced thigh 156 against 95."""
    salt = {row["name"]: row["native_salt"] for row in load.rows("products")}
    assert salt["treated shrimp"] > 4 * salt["peeled shrimp"]
    assert salt["enhanced chicken thigh"] > 1.5 * salt["boneless chicken thigh"]
    assert salt["pacific cod fillet"] > 5 * salt["cod fillet"]


# diffusivities against the published ones

FREE_WATER = 8.5e-10
SPEAKS_FOR = {"poultry": "pork", "lamb": "beef", "shellfish": "water", "soy": "water", "egg": "water"}
WHOLE_FRUIT = ("cucumber", "chilli pepper")  # the skin shuts most of the way in: judged below peeled vegetables


def at_four(value, temperature, group):
    energy = 27000 if group == "cheese" else 23000
    return value * math.exp(-energy / 8.314462618 * (1 / 277.15 - 1 / (temperature + 273.15)))


def published(group):
    rows = [row for row in load.rows("diffusivities") if row["group"] == group and row["high"] > 1e-11]
    for row in rows:
        yield at_four(row["low"], row["temperature_high"], group), at_four(row["high"], row["temperature_low"], group)


@each("row", load.rows("products"))
def test_diffusivities_lie_among_the_published_ones_and_below_free_water(row):
    assert 0 < row["d_slow"] < row["d_typical"] < row["d_fast"] < FREE_WATER
    ranges = list(published(SPEAKS_FOR.get(row["group"], row["group"])))
    assert ranges
    if SPEAKS_FOR.get(row["group"]) == "water" or row["name"] in WHOLE_FRUIT:
        assert row["d_basis"] in ("assumption", "judgement"), "nothing published is claimed for it"
        assert row["d_typical"] < max(high for _, high in ranges)
    else:
        assert any(low <= row["d_typical"] <= high for low, high in ranges)


def test_no_published_row_is_above_free_water_at_its_temperature():
    """Free water from the viscosity of water (IAPWS) and the ions' mobilities: 8.5e-10 at 4 °C, 14.07e-10 at 20 °C."""
    for row in load.rows("diffusivities"):
        ceiling = 8.5e-10 + (14.07e-10 - 8.5e-10) * max(0.0, row["temperature_high"] - 4) / 16
        assert row["high"] <= ceiling * 1.001


# ingredients against the composition record and the atomic masses

MILLILITRES = {"tsp": 4.92892159375, "tbsp": 14.78676478125, "cup": 236.5882365, "fl oz": 29.5735295625}
RECALLED_DENSITY = {"yoghurt"}


def ingredients():
    return [row for row in load.rows("ingredients") if row["source"] == "usda-sr27"]


@each("row", ingredients())
def test_ingredients_match_the_usda_record(row):
    record = USDA[row["source_place"].split()[-1]]
    assert row["water"] == pytest.approx(float(record["water_pct"]) / 100, abs=5e-5)
    assert row["sugars"] == pytest.approx(float(record["sugars_pct"] or 0) / 100, abs=5e-5)
    assert row["sodium"] == pytest.approx(float(record["sodium_mg"]) / 1e5, abs=5.1e-6)


@each("row", [r for r in ingredients() if r["density"] and r["name"] not in RECALLED_DENSITY])
def test_densities_match_a_measure_of_the_usda_record(row):
    record = USDA[row["source_place"].split()[-1]]
    found = []
    for grams, measure in ((record["weight1_g"], record["measure1"]), (record["weight2_g"], record["measure2"])):
        match = re.search(r"([\d.]+) (tsp|tbsp|cup|fl oz)", measure)
        if match and grams:
            found.append(float(grams) / (float(match[1]) * MILLILITRES[match[2]]))
    assert any(row["density"] == pytest.approx(density, rel=0.025) for density in found), found


def test_what_sour_things_hold_matches_the_usda_record() -> None:
    """Magnesium counts as the calcium that it stands for, ion for ion; tamarind paste is pulp thinned to 60 % water."""
    records = {row["ingredient"]: row for row in reference("usda_sr27_minerals")}
    known = [row for row in load.rows("acid_content") if row["basis"] in ("measured", "computed")]
    seen = [row for row in known if row["source"] == "usda-sr27"]
    for row in seen:
        one = records[row["ingredient"]]
        calcium = float(one["calcium_mg"]) + float(one["magnesium_mg"]) * 40.078 / 24.305
        held = float(one["potassium_mg"]) if row["substance"] == "potassium held" else calcium
        assert row["share"] == pytest.approx(held * float(one["part"]) / 1e5, rel=0.02, abs=6e-7), row
    assert {row["ingredient"] for row in seen} == set(records)


def test_a_potassium_that_departs_from_its_record_is_told_with_both_figures() -> None:
    """The records have 0.200, 0.184 and 0.229 %; with these the usual pH of the juice would not come out."""
    records = {row["ingredient"]: float(row["potassium_mg"]) / 1e5 for row in reference("usda_sr27_minerals")}
    notes = {row["ingredient"]: row["note"] or "" for row in load.rows("acid_ingredients")}
    departs = {}
    for row in load.rows("acid_content"):
        name, record = row["ingredient"], records.get(row["ingredient"])
        if record and row["substance"] == "potassium held" and row["basis"] == "judgement":
            departs[name] = row["share"] - record
            way = "raised" if departs[name] > 0 else "lowered"
            said = f"potassium {way} from {100 * record:.3f} % of the food record to {100 * row['share']:.2f} %"
            assert notes[name].startswith(said), (name, said)
    expected = {"orange juice": -0.0005, "carton orange juice": 0.00156, "tomato juice": -0.00099}
    assert departs == pytest.approx(expected, abs=1e-9)


FORMULAS = {
    "sodium tripolyphosphate": "Na5P3O10", "sodium hexametaphosphate": "NaPO3",
    "tetrasodium pyrophosphate": "Na4P2O7", "sodium acid pyrophosphate": "Na2H2P2O7",
    "disodium phosphate": "Na2HPO4", "monosodium phosphate": "NaH2PO4", "trisodium phosphate": "Na3PO4",
    "potassium tripolyphosphate": "K5P3O10", "monopotassium phosphate": "KH2PO4", "dipotassium phosphate": "K2HPO4",
    "disodium phosphate dihydrate": "Na2HPO4(H2O)2", "salt": "NaCl", "sodium nitrite": "NaNO2",
    "sodium nitrate": "NaNO3", "potassium nitrate": "KNO3", "potassium nitrite": "KNO2", "washing soda": "Na2CO3",
    "washing soda crystals": "Na2CO3(H2O)10", "lye": "NaOH", "sodium citrate": "C6H5O7Na3(H2O)2",
    "sodium citrate anhydrous": "C6H5O7Na3", "monosodium citrate": "C6H7O7Na", "sodium ascorbate": "C6H7O6Na",
    "sodium erythorbate": "C6H7O6Na(H2O)", "sodium acetate": "C2H3O2Na", "sodium acetate trihydrate": "C2H3O2Na(H2O)3",
    "sodium diacetate": "C4H7O4Na", "monosodium glutamate": "C5H8NO4Na(H2O)", "potassium chloride": "KCl",
    "calcium chloride": "CaCl2(H2O)2", "potassium bicarbonate": "KHCO3", "phosphoric acid": "H3PO4",
}  # fmt: skip


def share(formula, symbol):
    made = periodictable.formula(formula)
    return sum(count * atom.mass for atom, count in made.atoms.items() if atom.symbol == symbol) / made.mass


@each("name", FORMULAS)
def test_sodium_and_phosphate_match_the_atomic_masses(name):
    """Atomic masses of the periodictable library; P2O5 is reckoned as half a mole for each phosphorus."""
    row = next(row for row in load.rows("ingredients") if row["name"] == name)
    oxide = periodictable.formula("P2O5").mass / (2 * periodictable.formula("P").mass)
    assert row["sodium"] == pytest.approx(share(FORMULAS[name], "Na"), abs=1e-5)
    assert row["p2o5"] == pytest.approx(share(FORMULAS[name], "P") * oxide, abs=1e-5)


COMPUTED = {
    "sodium tripolyphosphate Na5P3O10": "sodium tripolyphosphate",
    "sodium hexametaphosphate (NaPO3)n infinite chain": "sodium hexametaphosphate",
    "tetrasodium pyrophosphate Na4P2O7": "tetrasodium pyrophosphate",
    "sodium acid pyrophosphate Na2H2P2O7": "sodium acid pyrophosphate",
    "disodium phosphate Na2HPO4": "disodium phosphate",
    "monosodium phosphate NaH2PO4": "monosodium phosphate",
    "trisodium phosphate Na3PO4": "trisodium phosphate",
    "sodium chloride NaCl": "salt",
    "sodium nitrite NaNO2": "sodium nitrite",
    "sodium nitrate NaNO3": "sodium nitrate",
    "trisodium citrate dihydrate": "sodium citrate",
    "sodium erythorbate monohydrate": "sodium erythorbate",
    "sodium lactate 60 % syrup": "sodium lactate",
    "sodium diacetate": "sodium diacetate",
    "monosodium glutamate monohydrate": "monosodium glutamate",
}


def test_sodium_and_phosphate_match_the_computed_list():
    """tests/reference/additives_sodium_p2o5.csv, computed from atomic masses."""
    table = {row["name"]: row for row in load.rows("ingredients")}
    checked = 0
    for row in reference("additives_sodium_p2o5"):
        name = COMPUTED.get(row["substance"])
        if name:
            assert 100 * table[name]["sodium"] == pytest.approx(float(row["sodium_mass_pct"]), abs=0.002)
            assert 100 * table[name]["p2o5"] == pytest.approx(float(row["P2O5_mass_pct"]), abs=0.002)
            checked += 1
    assert checked == len(COMPUTED)


def test_curing_salts_agree_with_the_table_of_cures():
    """Sodium of a curing salt is that of its salt, nitrite and nitrate (atomic masses)."""
    table = {row["name"]: row for row in load.rows("ingredients")}
    mixed = [row for row in load.rows("cures") if row["salt"] > 0]
    assert len(mixed) >= 5
    for row in mixed:
        sodium = row["salt"] * share("NaCl", "Na") + row["nitrite"] * share("NaNO2", "Na")
        sodium += row["nitrate"] * share("NaNO3", "Na")
        assert table[row["cure"]]["sodium"] == pytest.approx(sodium, abs=1e-5)
        assert table[row["cure"]]["role"] == "cure"


def test_salt_by_volume_matches_the_weighings():
    """tests/reference/salt_bulk_density.csv: home weighings (weak), and 6 g to the teaspoon (USDA SR27, read)."""
    grades = {
        "fine table salt": "fine table salt", "canning/pickling salt": "pickling salt",
        "coarse sea salt": "coarse sea salt", "fine sea salt": "fine sea salt",
        "kosher-type, rolled/compact flake": "compact kosher salt",
        "kosher-type, hollow light flake": "hollow kosher salt",
        "pyramid flake finishing salt": "pyramid flake salt", "table salt (USDA NDB 02047)": "table salt",
    }  # fmt: skip
    table = {row["name"]: row["density"] for row in load.rows("ingredients")}
    rows = reference("salt_bulk_density")
    assert len(rows) == len(grades)
    for row in rows:
        assert table[grades[row["grade"]]] == pytest.approx(float(row["g_per_mL"]), abs=5e-4)


# doses


def test_every_dose_and_sweetness_row_belongs_to_an_ingredient():
    names = {row["name"] for row in load.rows("ingredients")}
    assert {row["ingredient"] for row in load.rows("doses")} <= names
    assert {row["ingredient"] for row in load.rows("sweetness")} <= names


def test_dose_ranges_rise_and_uses_are_known():
    for row in load.rows("doses"):
        assert set(row["uses"]) <= {"immersion", "injection", "vegetable", "cheese", "dry"}
        figures = [row[key] for key in ("low", "high", "ceiling") if row[key] is not None]
        assert figures == sorted(figures), row["ingredient"]
        assert (row["ceiling"] is None) == (row["kind"] is None)


def test_no_ingredient_has_two_rows_for_one_use():
    pairs = [(row["ingredient"], use) for row in load.rows("doses") for use in row["uses"]]
    assert len(pairs) == len(set(pairs))


NEVER_DOSED = ("cure", "alkali", "mineral acid")


def test_what_is_dangerous_has_no_dose_row():
    dosed = {row["ingredient"] for row in load.rows("doses")}
    named = {row["name"] for row in load.rows("ingredients") if row["role"] in NEVER_DOSED}
    assert len(named) > 10
    assert not named & dosed


def test_every_other_ingredient_has_a_dose_row():
    dosed = {row["ingredient"] for row in load.rows("doses")}
    needed = {row["name"] for row in load.rows("ingredients") if row["role"] not in NEVER_DOSED}
    assert needed - dosed == {"water"}, "each needs a row in doses.csv for every use"


def test_legal_ceilings_rest_on_a_regulation():
    kinds = {row["key"]: row["kind"] for row in load.rows("sources")}
    legal = [row for row in load.rows("doses") if row["kind"] == "legal"]
    assert len(legal) >= 25
    for row in legal:
        assert kinds[row["source"]] == "regulation", row["ingredient"]


def test_there_are_enough_herbs_spices_and_aromatics():
    aromatic = [row for row in load.rows("ingredients") if row["role"] in ("herb", "spice", "aromatic")]
    assert len(aromatic) >= 45


def test_sweetness_spans_its_sources():
    """Pure sugars: fructose 1.73 and 1.7, glucose 0.74 and 0.8, maltose 0.33, lactose 0.16 and 0.2 (read)."""
    table = {row["ingredient"]: row for row in load.rows("sweetness")}
    assert all(row["low"] <= row["typical"] <= row["high"] <= 1.73 for row in table.values())
    for name, values in (("fructose", (1.73, 1.7)), ("anhydrous dextrose", (0.74, 0.8)), ("maltose", (0.33,))):
        assert all(table[name]["low"] <= value <= table[name]["high"] for value in values)
    assert all(table["lactose"]["low"] <= value <= table["lactose"]["high"] for value in (0.16, 0.2))
    assert table["white sugar"]["typical"] == 1.0


def test_potassium_of_its_salts_follows_from_their_formulas():
    """Atomic masses of an independent periodic table."""
    formulas = {
        "potassium chloride": "KCl", "potassium nitrite": "KNO2", "potassium nitrate": "KNO3",
        "potassium tripolyphosphate": "K5P3O10", "monopotassium phosphate": "KH2PO4", "potassium carbonate": "K2CO3",
        "dipotassium phosphate": "K2HPO4", "potassium bicarbonate": "KHCO3", "potassium hydroxide": "KOH",
        "potassium citrate": "K3C6H7O8", "cream of tartar": "KC4H5O6",
    }  # fmt: skip
    found = {row["ingredient"]: row["potassium"] for row in load.rows("potassium")}
    for name, text in formulas.items():
        salt = periodictable.formula(text)
        mass = next(count * element.mass for element, count in salt.atoms.items() if str(element) == "K")
        assert found[name] == pytest.approx(mass / salt.mass, abs=1e-5), name
    assert set(found) - set(formulas) == {"low-sodium salt", "potassium lactate"}
    assert found["low-sodium salt"] == pytest.approx(found["potassium chloride"] / 2, abs=1e-5)
