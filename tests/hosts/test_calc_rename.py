"""Respelling names in formulas and saved files: only our calls, never text, sheet names or other people's names."""

from __future__ import annotations

import os
import zipfile

import openpyxl
import pytest
from each import each
from hypothesis import given
from hypothesis import strategies as some

from brinecalc.hosts.calc import rename
from brinecalc.hosts.calc.rename import Renamer, pieces, replace_in_code

NAMES = Renamer(["BRINE_SALT", "BRINE_SALT_FISH"])

UNRESOLVED = [
    ("=brine_salt(A1;5%)", "=BRINE_SALT(A1;5%)"),
    ("=BRINE_SALT(A1)", "=BRINE_SALT(A1)"),
    ("=_xldudf_BRINE_SALT(A1)", "=BRINE_SALT(A1)"),
    ("=_xldudf_brine_salt(A1)+brine_salt (2)", "=BRINE_SALT(A1)+BRINE_SALT (2)"),
    ("=brine_salt_fish(brine_salt(1))", "=BRINE_SALT_FISH(BRINE_SALT(1))"),
    ('="brine_salt(1) is "&brine_salt(1)', '="brine_salt(1) is "&BRINE_SALT(1)'),
    ('="say ""brine_salt(1)"" "&brine_salt(1)', '="say ""brine_salt(1)"" "&BRINE_SALT(1)'),
    ("=$'brine_salt(x)'.A1+brine_salt(1)", "=$'brine_salt(x)'.A1+BRINE_SALT(1)"),
    ("='it''s brine_salt(x)'!A1+brine_salt(1)", "='it''s brine_salt(x)'!A1+BRINE_SALT(1)"),
    ("=T[[#This Row];[brine_salt(x)]]+brine_salt(1)", "=T[[#This Row];[brine_salt(x)]]+BRINE_SALT(1)"),
    ("=T[a']brine_salt(x)]+brine_salt(1)", "=T[a']brine_salt(x)]+BRINE_SALT(1)"),
    ("{=brine_salt(A1:A3;{0.05|0.1})}", "{=BRINE_SALT(A1:A3;{0.05|0.1})}"),
]


@each(("formula", "mended"), UNRESOLVED)
def test_an_unresolved_name_is_spelled_for_calc(formula, mended):
    assert NAMES.for_calc(formula) == mended
    assert NAMES.for_calc(mended) == mended


@each(
    "formula",
    [
        "=BRINE.SALT(A1;5%)",  # resolved already: the form in which Calc holds it
        "=BRINE_SUGAR(A1)",  # not a function of ours
        "=MY_BRINE_SALT(A1)",
        "=brine_salt+1",  # a name, not a call
        "=brine_salt.A1",  # a sheet
        "=Sheet1.brine_salt(1)",
        '="_xldudf_brine_salt(1)"',
        "=SUM(A1:A2)",
        "",
    ],
)
def test_what_is_not_an_unresolved_call_of_ours_stays(formula):
    assert NAMES.for_calc(formula) == formula


@pytest.mark.parametrize(
    ("formula", "plain"),
    [
        ("BRINE.SALT(A1,5%)", "BRINE_SALT(A1,5%)"),
        ('IF(A1>0,BRINE.SALT(A1),"BRINE.SALT(1)")', 'IF(A1>0,BRINE_SALT(A1),"BRINE.SALT(1)")'),
        ("BRINE.SUGAR(A1)", "BRINE.SUGAR(A1)"),
        ("_xldudf_BRINE_SALT(A1)", "_xldudf_BRINE_SALT(A1)"),  # a save has nothing to do with it
        ("'BRINE.SALT(1)'!A1", "'BRINE.SALT(1)'!A1"),
    ],
)
def test_a_dotted_name_is_spelled_plainly(formula, plain):
    assert NAMES.plain(formula) == plain


@given(some.text(alphabet="aB_(1)\"'[]=;.# ", max_size=40))
def test_the_pieces_are_the_formula(formula):
    """Law: cutting loses nothing, whatever is unbalanced."""
    assert "".join(text for _, text in pieces(formula)) == formula


@given(some.text(alphabet="x(1) ", min_size=1, max_size=8), some.text(alphabet="aB;[]' ", max_size=12))
def test_text_between_quotes_is_never_code(code, text):
    """Law: what is replaced everywhere in the code is replaced nowhere in a string."""
    assert replace_in_code(f'{code}"{text}"', lambda found: "-" * len(found)) == f'{"-" * len(code)}"{text}"'


@pytest.fixture
def saved(tmp_path):
    """A workbook as an older Calc saves it, with dotted names where they count and where they must stay."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet["A1"] = '=BRINE.SALT(B1,5%)&"BRINE.SALT(1)"'
    sheet["A2"] = "BRINE.SALT(1) is text"
    sheet["A3"] = '=IF(B1<2,BRINE.SALT(B1)&" < & >","")'
    sheet["A4"] = "=BRINE.OTHER(1)"
    path = tmp_path / "saved.xlsx"
    book.save(path)
    return path


def test_a_saved_file_gets_plain_names_and_keeps_all_else(saved):
    before = {name: zipfile.ZipFile(saved).read(name) for name in zipfile.ZipFile(saved).namelist()}
    os.utime(saved, ns=(10**18, 10**18 + 7))
    os.chmod(saved, 0o640)
    assert NAMES.plain_file(str(saved)) == 2
    sheet = openpyxl.load_workbook(saved).active
    assert [sheet[f"A{row}"].value for row in range(1, 5)] == [
        '=BRINE_SALT(B1,5%)&"BRINE.SALT(1)"',
        "BRINE.SALT(1) is text",
        '=IF(B1<2,BRINE_SALT(B1)&" < & >","")',
        "=BRINE.OTHER(1)",
    ]
    after = {name: zipfile.ZipFile(saved).read(name) for name in zipfile.ZipFile(saved).namelist()}
    assert list(after) == list(before)
    assert [name for name in after if after[name] != before[name]] == ["xl/worksheets/sheet1.xml"]
    assert (saved.stat().st_mtime_ns, saved.stat().st_mode & 0o777) == (10**18 + 7, 0o640)
    assert NAMES.plain_file(str(saved)) == 0


def test_a_file_that_needs_nothing_is_not_written(tmp_path):
    path = tmp_path / "plain.xlsx"
    book = openpyxl.Workbook()
    book.active["A1"] = "=BRINE_SALT(1000,5%)"
    book.save(path)
    before = path.stat()
    assert NAMES.plain_file(str(path)) == 0
    assert (path.stat().st_ino, path.stat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def test_an_interrupted_write_leaves_the_old_file_whole(saved, monkeypatch):
    content = saved.read_bytes()

    def refuse(*paths):
        raise PermissionError("in use")

    monkeypatch.setattr(rename.os, "replace", refuse)
    with pytest.raises(PermissionError):
        NAMES.plain_file(str(saved))
    assert saved.read_bytes() == content
    assert os.listdir(saved.parent) == [saved.name]


@pytest.mark.parametrize(
    "content", [b"", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 a file with an opening password", b"PK\x03\x04"]
)
def test_a_file_that_is_no_plain_zip_is_left_alone(tmp_path, content):
    path = tmp_path / "locked.xlsx"
    path.write_bytes(content)
    assert NAMES.plain_file(str(path)) == 0
    assert path.read_bytes() == content


def test_a_signed_file_is_left_alone(saved):
    with zipfile.ZipFile(saved, "a") as book:
        book.writestr("_xmlsignatures/sig1.xml", "<Signature/>")
    content = saved.read_bytes()
    assert NAMES.plain_file(str(saved)) == 0
    assert saved.read_bytes() == content
