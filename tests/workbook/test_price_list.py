"""Lists of prices: read strictly, so that no slip of a mark becomes another price, and refused with what to write."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.files import FileTrouble
from brinecalc.tables import load
from brinecalc.workbook import price_list


def test_a_list_is_read_with_its_own_headings_marks_and_decimal_commas() -> None:
    """As a purchasing program on the Continent writes it."""
    found = price_list.read(b"Name;Pack size;Price;Supplier\nSALT ;10 kg;13,80;x\nhoney;;73;\n", "prices.csv")
    assert {key: (p.name, p.price, p.pack) for key, p in found.prices.items()} == {
        "salt": ("SALT", 13.8, "10 kg"),
        "honey": ("honey", 73.0, None),
    }
    assert found.unused == ("Supplier",)


@pytest.mark.parametrize("mark", [",", ";", "\t", "|"])
def test_a_list_is_read_whatever_mark_parts_its_cells(mark: str) -> None:
    found = price_list.read(f"name{mark}pack{mark}price\nsalt{mark}25 kg{mark}12.50\n".encode(), "p.csv")
    assert [(price.name, price.pack, price.price) for price in found.prices.values()] == [("salt", "25 kg", 12.5)]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_list_is_read_in_the_encodings_that_programs_save(encoding: str) -> None:
    found = price_list.read("name,price\ncrème fraîche,4.5\n".encode(encoding), "p.csv")
    assert [price.name for price in found.prices.values()] == ["crème fraîche"]


@each(
    ("text", "reason"),
    [
        ("name,price\nsalt,=1+1\n", "row 2: “=1+1” begins with ="),
        ("name,price\n=HYPERLINK(1),4\n", "takes for a formula"),
        ("name,price\nsalt,+4\n", "begins with +"),
        ("name,price\n-salt,4\n", "begins with -"),
        ("name,price\n@salt,4\n", "begins with @"),
        ("name,price\n  =salt,4\n", "begins with ="),
        ("name,price,pack\nsalt,4,=cmd|' /C calc'!A0\n", "begins with ="),
        ("name,price,date\nsalt,4,@SUM(1)\n", "begins with @"),
        ('name,price\nsalt,"1,000"\n', "the price “1,000” is thousands or decimals; write 1000, or 1.00"),
        ("name,price\n＝salt,4\n", "begins with ＝"),
        ("name,price\nsalt,\n", "row 2: the price is missing"),
        ("name,price\n,4\n", "has no name"),
        ("name,price\nsalt,4 kg\n", "write the price of one pack alone, such as 4"),
        ("name,price\nsalt,1e400\n", "the price"),
        ("name,price\nsalt,1000001\n", "above 1000000 for one pack"),
        ("name,price,pack\nsalt,4,25\n", "needs its unit"),
        ("name,price,pack\nsalt,4,6/1 gal\n", "the pack “6/1 gal”"),
        ("name,price,date\nsalt,4,03/04/26\n", "written as 2026-11-30"),
        ("name,price,date\nsalt,4,1926-11-30\n", "not of this century"),
        ("name,price\nsalt,4\nSalts,5\n", "row 3: Salts stands in row 2 with another price"),
        ("\n\nname,price\nsalt,x\n", "row 4: the price “x”"),
        ("a,b\n1,2\n", "no column headed name"),
        (
            "name,price,supplier,price\nsalt,4,x,5\n",
            "p.csv has 2 columns that may be the price, headed price and price; keep the one that counts",
        ),
        ("name,price,New price\nsalt,4,5\n", "may be the price, headed price and New price; keep the one that counts"),
        ("name,pack,price,packs\nsalt,1 kg,4,2 kg\n", "may be the pack, headed pack and packs;"),
        ("name,price,name\nsalt,4,honey\n", "may be the name, headed name and name;"),
        ("name,price,date\nsalt,4,٢٠٢٦-١١-٣٠\n", "written as 2026-11-30"),
        ("name,price,pack\nsalt,4,٣ kg\n", "the pack “٣ kg”"),
        ("name,price\n", "holds no prices"),
        ("", "is empty"),
        ('name,price\n"salt,4\n', "cannot be read as CSV"),
        ("name,price\n" + "x" * 200 + ",4\n", "longer than 120"),
        ("PK\x03\x04\0\0", "not a text file"),
    ],
)
def test_what_could_be_misread_or_act_as_a_formula_is_refused(text: str, reason: str) -> None:
    with pytest.raises(FileTrouble, match=reason.replace("+", r"\+").replace("(", r"\(")):
        price_list.read(text.encode(), "p.csv")


@each(
    ("written", "reason"),
    [
        ("-4", "the price “-4” is below 0; write what one pack costs"),
        ("−4.50", "is below 0"),
        ("(4.50)", "is below 0"),
        ("4.50-", "is below 0"),
        ("€ -4.50", "is below 0"),
        ("1,234.50", "has a thousands mark; write 1234.50"),
        ("1.234,50", "has a thousands mark; write 1234.50"),
        ("1 234,50", "has a thousands mark; write 1234.50"),
        ("1'234.50", "has a thousands mark; write 1234.50"),
        ("1.234.567", "has a thousands mark; write 1234567"),
        ("1,234", "is thousands or decimals; write 1234, or 1.2340"),
        ("€ 4 / $ 5", "more than one currency"),
        ("12.50 per kg", "the price of one pack alone, such as 12.50"),
        ("12,-", "such as 12"),
        ("twelve", "is not a number; write what one pack costs, such as 11.90"),
        ("on request", "the price is missing (“on request”); take the row out"),
        ("-", "the price is missing (“-”)"),
        ("1e3", "more than a number"),
        ("3 1/2", "more than a number"),
        ("٣", "“٣” is not a number; write what one pack costs, such as 11.90"),
        ("１２.50", "is more than a number"),
        ("1.٣٤", "is more than a number"),
    ],
)
def test_a_price_that_is_not_a_plain_number_is_refused_with_the_way_to_write_it(written: str, reason: str) -> None:
    with pytest.raises(FileTrouble) as trouble:
        price_list.read(f'name,price\nsalt,"{written}"\n'.encode(), "p.csv")
    assert str(trouble.value).startswith("p.csv, row 2: ")
    assert reason in str(trouble.value)


@pytest.mark.parametrize(
    ("written", "price"),
    [("€ 4.50", 4.5), ("4,50 €", 4.5), ("EUR 4.5", 4.5), ("1234.50", 1234.5), ("$0", 0.0), (".5", 0.5)],
)
def test_one_sign_of_a_currency_is_left_off(written: str, price: float) -> None:
    found = price_list.read(f"name;price\nsalt;{written}\n".encode(), "p.csv")
    assert found.prices["salt"].price == price


def test_a_heading_that_nobody_reads_may_come_twice_and_so_may_two_kinds_of_name() -> None:
    found = price_list.read(b"name,supplier,price,supplier,description\nsalt,x,4,y,fine\n", "p.csv")
    assert ([price.name for price in found.prices.values()], found.unused) == (
        ["salt"],
        ("supplier", "supplier", "description"),
    )


def test_two_currencies_in_one_list_are_a_fault() -> None:
    with pytest.raises(FileTrouble, match=r"row 3: this price is in \$, others are in €"):
        price_list.read("name;price\nsalt;4 €\nhoney;$5\n".encode(), "p.csv")
    assert price_list.read("name;price\nsalt;4 €\nhoney;5\n".encode(), "p.csv").money == "€"


def test_a_point_that_nothing_shows_to_be_decimal_may_mean_thousands_and_is_not_guessed() -> None:
    with pytest.raises(FileTrouble, match=r"“1\.234”: thousands or decimals\? Write 1234, or 1\.2340"):
        price_list.read(b"name,price\nsalt,1.234\n", "p.csv")
    assert price_list.read(b"name,price\nsalt,1.2340\n", "p.csv").prices["salt"].price == 1.234
    assert price_list.read(b"name,price\nsalt,0.125\n", "p.csv").prices["salt"].price == 0.125
    assert price_list.read(b"name,price\nsalt,1.234\nhoney,11.90\n", "p.csv").prices["salt"].price == 1.234
    assert price_list.read(b"name;price\nsalt;1.234\nhoney;11.90\n", "p.csv").prices["salt"].price == 1.234
    with pytest.raises(FileTrouble, match=r"thousands or decimals\? Write 1234, or 1,2340"):
        price_list.read(b"name;price\nsalt;1.234\nhoney;11\n", "p.csv")
    with pytest.raises(FileTrouble, match=r"thousands or decimals\? Write 1234, or 1,2340"):
        price_list.read(b"name;price\nsalt;1.234\nhoney;11,90\n", "p.csv")


def test_a_decimal_comma_between_commas_is_a_fault_and_not_a_price_without_cents() -> None:
    with pytest.raises(FileTrouble, match=r"row 2: it has more cells than there are headings"):
        price_list.read(b"name,price\nsalt,12,50\nhoney,9.80\n", "p.csv")
    assert price_list.read(b'name,price\nsalt,"12,50",\n', "p.csv").prices["salt"].price == 12.5


def test_all_faults_of_a_list_are_told_at_once_each_with_its_row() -> None:
    with pytest.raises(FileTrouble) as trouble:
        price_list.read(b'name,price,pack\nsalt,-4,1 kg\nhoney,5,1 kg\n,7,\nice,"1,234.50",25\n=x,1,\n', "p.csv")
    lines = str(trouble.value).split("\n")
    assert lines[0] == "p.csv has 5 faults, so nothing was read from it:"
    assert [line.split(":")[0] for line in lines[1:]] == ["  row 2", "  row 4", "  row 5", "  row 5", "  row 6"]
    many = "name,price\n" + "\n".join(f"thing {n},x" for n in range(100))
    with pytest.raises(FileTrouble) as trouble:
        price_list.read(many.encode(), "p.csv")
    lines = str(trouble.value).split("\n")
    assert lines[0].startswith("p.csv has 100 faults")
    assert lines[-1] == f"  … and {100 - price_list.MOST_FAULTS} more"


def test_ice_is_bought_at_a_price_of_its_own_and_never_as_water() -> None:
    found = price_list.read(b"name,price,pack\nIce,1.60,10 kg\ntap water,4,1000 L\n", "p.csv")
    assert {key: (price.price, price.pack) for key, price in found.prices.items()} == {
        price_list.key("ice"): (1.6, "10 kg"),
        price_list.key("water"): (4.0, "1000 L"),
    }


def test_no_two_names_that_the_workbook_buys_lead_to_one_key() -> None:
    names = [row["name"] for table in ("products", "ingredients") for row in load.rows(table)]
    keys = [price_list.key(name) for name in {*names, "water", "ice"}]
    assert len(keys) == len(set(keys))


def test_aliases_capitals_and_plurals_lead_to_one_key() -> None:
    """Aliases from the tables of products and ingredients."""
    assert len({price_list.key(name) for name in ("chicken breast", "Chicken Breasts", "chicken supreme")}) == 1
    assert price_list.key("chicken breast") != price_list.key("chicken thigh")


def test_a_column_of_units_makes_a_list_doubtful_and_no_heading_of_units_is_a_price() -> None:
    """4.12 for a pound is no price of a pack of ten."""
    for head in ("name,price,unit", "name,price,UOM", "item,price,Price per"):
        with pytest.raises(FileTrouble, match=r"column headed .* \(lb\).*price means a whole pack.*such as 1 lb"):
            price_list.read(f"{head}\nchicken breast,4.12,lb\n".encode(), "p.csv")
    with pytest.raises(FileTrouble, match=r"headed price \(what one whole pack costs.*name, unit price, pack"):
        price_list.read(b"name,unit price,pack\nchicken breast,4.12,10 lb\n", "p.csv")
    both = price_list.read(b"name,price,unit price\nchicken breast,41.20,4.12\n", "p.csv")
    assert ([price.price for price in both.prices.values()], both.unused) == ([41.2], ("unit price",))
    assert price_list.read(b"name,price,unit\nchicken breast,41.20,\n", "p.csv").unused == ("unit",)


def test_a_column_of_currencies_is_read_and_holds_one_that_agrees_with_the_signs() -> None:
    assert price_list.read(b"name,price,currency\nsalt,$4,usd\nhoney,5,USD\n", "p.csv").money == "USD"
    with pytest.raises(FileTrouble, match="row 3: this price is in USD, others are in EUR"):
        price_list.read(b"name,price,currency\nsalt,4,EUR\nhoney,5,USD\n", "p.csv")
    with pytest.raises(FileTrouble, match="row 2: the currency “pounds” is not known"):
        price_list.read(b"name,price,currency\nsalt,4,pounds\n", "p.csv")
