"""Asks LibreOffice what spreadsheet functions give, and keeps its answers. Run by hand.

    python tests/hosts/ask_libreoffice.py

Writes tests/reference/builtins_libreoffice.csv: formula, answer, and which program gave it. The formulas are drawn
with a fixed seed from the arguments below; the cells that they read are in CELLS.
"""

from __future__ import annotations

import csv
import itertools
import random
import re
import subprocess
import sys
import tempfile
from pathlib import Path

import openpyxl

REFERENCE = Path(__file__).parents[1] / "reference" / "builtins_libreoffice.csv"
EACH = 9
SEED = 20

CELLS = {
    "A": [0, 1, 2.5, 3, -4, 10, 2.5, 7],
    "B": ["salt", "sugar", "Salt", "pepper", "alt", " x ", "12", None],
    "C": [None] * 8,
    "D": [45000, 45100.25, 45200, 1, 45366, 45658, 44927, 46000],
    "E": [True, False, True, False, True, True, False, True],
    "F": [5, 1, 2, 8, 3, 9, 4, 7],
    "G": ["=1/0"],
    "H": [1, 2, 3, 5, 7, 9, 11, 13],
    "I": ["salt", "sugar", "cola", "cider", "soy", "pepper", "dill", "bay"],
    "J": [10, 20, 30, 40, 50, 60, 70, 80],
}

# a space inside quotation marks is written as an underscore
ARGUMENTS = {
    "num": '0 1 -1 2.5 -2.5 0.5 1.005 2.675 1E10 -1E-7 A1 A2 A3 A4 -7 3 "3" "abc" C1 "" G1 0.1+0.2 1/3 100 12.345 B1',
    "pos": "1 2.5 0.5 1.005 2.675 A2 A3 3 100 12.345 1E6 0.1+0.2 1/3",
    "int": '0 1 2 -1 3 -2 5 C1 1.9 "2"',
    "count": "1 2 3 5 1.9",
    "text": '"abc" "Brine" "" B1 B2 B3 12.5 C1 "a_b__c_" "-5" A2 A3 "äöé" "3.50" G1 1/3 "0.5_kg" "Salt"',
    "part": '"b" "a" "B" "_" "l" "?" "zz" "é"',
    "date": "45000 45000.75 D1 D2 DATE(2024,2,29) DATE(2023,12,31) 45291",
    "flag": "TRUE FALSE 1 0 E1 A1>1 C1",
    "rule": '">2" "salt" "s*" "?alt" "<>salt" "=2" 2 "SALT" ">=2.5" "*a*" A3 B1 "2" "~*"',
    "numbers": "A1:A8 A1:A4 A5:A8 A3 H1:H8",
    "mixed": "F1:F8 A1:C4",
    "texts": "B1:B8",
    "any": 'A1 B1 C1 G1 D1 "x" "" 5 NA() 1/0',
    "eight": "F1:F8 H1:H8",
    "order": "H1:H8",
    "format": '"0" "0.00" "#,##0.0" "0.0%" "yyyy-mm-dd" "d_mmm_yyyy" "ddd" "hh:mm:ss" "00" "dddd"',
    "share": "0.25 0.5 0.9 0.05",
    "step": "0.1 0.5 2 5 0.25 12",
    "year": "2024 2023 2000 1999",
    "month": "1 2 12 13 0 5 -1",
    "unit": '"d" "m" "y" "ym"',
    "later": "45300 46000 D1+900 DATE(2027,1,31)",
    "number_text": '"12" "12.5" "abc" "" "_7_" "1e3" "-3" "5%"',
    "total": "9 1 4 5 2 109",
}

CALLS = """ABS num;ACOS num;AND flag flag;AND mixed;ASIN num;ATAN num;ATAN2 pos num;AVEDEV numbers;AVERAGE numbers
AVERAGE pos num;AVERAGEA numbers;AVERAGEIF numbers rule;AVERAGEIFS eight texts rule;CEILING num step;CEILING num num
CEILING.MATH num;CEILING.MATH num step;CHOOSE count num text num;CLEAN text;CODE part;COMBIN pos count
CONCAT text text;CONCATENATE num text;CORREL eight order;COS num;COUNT mixed;COUNT num any;COUNTA mixed;COUNTA num any
COUNTBLANK mixed;COUNTIF mixed rule;COUNTIF texts rule;COUNTIF numbers rule;COUNTIFS texts rule eight rule
DATE year month count;DATEDIF date later unit;DAY date;DAYS date date;DEGREES num;DEVSQ numbers;EDATE date month
EOMONTH date month;ERROR.TYPE any;EVEN num;EXACT text text;EXP num;FACT count;FIND part text;FIND part text count
FIXED num count;FLOOR num step;FLOOR.MATH num;FLOOR.MATH num step;FORECAST num eight order;FV share count pos
GCD count count;GEOMEAN eight;HARMEAN eight;HLOOKUP num order count flag;HOUR date;IF flag num text;IF num text num
IFERROR any num;IFNA any num;IFS flag num flag text;INDEX numbers count;INDEX mixed count count;INT num
INTERCEPT eight order;ISBLANK any;ISERR any;ISERROR any;ISEVEN num;ISLOGICAL any;ISNA any;ISNONTEXT any;ISNUMBER any
ISODD num;ISOWEEKNUM date;ISTEXT any;LARGE numbers count;LCM count count;LEFT text;LEFT text count;LEN text;LN num
LOG num;LOG num pos;LOG10 num;LOOKUP pos order;LOOKUP pos order eight;LOWER text;MATCH pos order;MATCH text texts 0
MATCH num numbers 0;MAX numbers;MAX pos num;MAXA numbers;MAXIFS eight texts rule;MEDIAN numbers;MEDIAN pos pos num
MID text count count;MIN numbers;MIN pos num;MINIFS eight texts rule;MINUTE date;MOD num step;MODE numbers;MONTH date
MROUND pos step;N any;NETWORKDAYS date date;NETWORKDAYS date later D1:D3;NOT flag;NPER share pos pos;NPV share eight
ODD num;OR flag flag;OR mixed;PERCENTILE numbers share;PI;PMT share count pos;POWER num int;PRODUCT numbers
PRODUCT pos num;PROPER text;PV share count pos;QUARTILE numbers int;QUOTIENT num step;RADIANS num;RANK pos order
REPLACE text count int text;REPT text int;RIGHT text;RIGHT text count;ROUND num int;ROUNDDOWN num int;ROUNDUP num int
ROWS mixed;SEARCH part text;SEARCH part text count;SECOND date;SIGN num;SIN num;SLOPE eight order;SMALL numbers count
SQRT num;STDEV numbers;STDEV.P numbers;SUBSTITUTE text part text;SUBSTITUTE text part text count;SUBTOTAL total numbers
SUM numbers;SUM pos num;SUMIF numbers rule;SUMIF texts rule eight;SUMIFS eight texts rule
SUMIFS eight texts rule eight rule
SUMPRODUCT numbers;SUMPRODUCT eight eight;SUMPRODUCT mixed mixed;SUMSQ numbers;SWITCH count 1 text 2 num text;T any
TAN num;TEXT num format;TEXT date format;TEXTJOIN part flag text text;TEXTJOIN part flag texts;TIME count count count
TRIM text;TRUNC num;TRUNC num int;UNICODE part;UPPER text;VALUE number_text;VAR numbers;VAR.P numbers
VLOOKUP num H1:J8 count flag;VLOOKUP text I1:J8 2 0;WEEKDAY date;WEEKDAY date count;WEEKNUM date;WORKDAY date int
WORKDAY date int D1:D3;XOR flag flag;YEAR date;YEARFRAC date date"""

WHOLE = """A1+A2*A3-F1/F2^2;-2^2;2^-1;2^3^2;5%+1;50%%;1=1.0;"a"="A";"é"="É";0.1+0.2=0.3;0.1+0.2-0.3;1.1-1-0.1;A3&B1;
1/3&"";100/3&"x";A2&A3;"3"+1;"3%"+1;B1+1;C1+1;C1=0;C1="";C1&"x";A1=C1;B1>A1;"b">"a";A3>=2.5;A3<>2.5;1/3*3=1;(0.1+0.2)*10=3;
SUM(A1:A8)-SUM(A1:A4)-SUM(A5:A8);IF(SUM(0.1,0.2)-0.3=0,"even","odd");SUMPRODUCT((B1:B8="salt")*F1:F8);
SUMPRODUCT((A1:A8>1)*(F1:F8<8));SUMPRODUCT(A1:A4-F1:F4);INDEX(F1:F8,MATCH("pepper",B1:B8,0));
VLOOKUP("cola",I1:J8,2,FALSE);IFERROR(VLOOKUP("tea",I1:J8,2,FALSE),-1);SUM(INDEX(A1:B8,0,1));SUM(CHOOSE(2,A1:A3,F1:F3));
IF(A1>0,,5);IF(A1=0,1);COUNT(,1);SUM(,1);ROUND(2.5,);MATCH(5,H1:H8,1);LOOKUP(6,H1:H8,J1:J8);--"7";-"7";+B1;1E3;.5+1.;
SUM(H1:H3,{1,2,3});MAX({1,5,3});SUMPRODUCT({1,2,3},{4,5,6});TEXT(45000.75,"d/m/yyyy h:mm");
IF(AND(A2>=1,A2<=1),"in","out");SUM(A:A);COUNTA(B:B);SUMIF(B:B,"salt",F:F);A2:A2;TRUE+1;NOT(A1)&"";1&TRUE;G1+1;IF(G1,1,2)"""

PREFIXED = set(
    (
        "CEILING.MATH FLOOR.MATH CONCAT TEXTJOIN IFNA IFS SWITCH MAXIFS MINIFS DAYS XOR ISOWEEKNUM UNICODE "
        "STDEV.P VAR.P"
    ).split()
)


def drawn() -> list[str]:
    """The formulas, drawn with a fixed seed."""
    rng = random.Random(SEED)
    made = []
    for line in re.split(r"[;\n]", CALLS):
        name, *kinds = line.split()
        pools = [ARGUMENTS.get(kind, kind).split() for kind in kinds]
        every = [[word.replace("_", " ") for word in words] for words in itertools.product(*pools)]
        made += sorted(f"{name}({','.join(words)})" for words in rng.sample(every, min(EACH, len(every))))
    return made + [form.strip() for form in WHOLE.split(";") if form.strip()]


def in_file(formula: str) -> str:
    """The formula with the prefixes that newer functions bear in a file."""
    return re.sub(r"\b([A-Z][A-Z0-9.]+)\(", lambda m: ("_xlfn." if m[1] in PREFIXED else "") + m[0], formula)


def workbook(formulas: list[str]) -> openpyxl.Workbook:
    """The cells, and each formula in column P."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Sheet"
    for column, values in CELLS.items():
        for row, value in enumerate(values, 1):
            sheet[f"{column}{row}"] = value
    for row, formula in enumerate(formulas, 1):
        sheet[f"P{row}"] = "=" + in_file(formula)
    return book


def main() -> None:
    formulas = drawn()
    version = subprocess.run(["soffice", "--version"], capture_output=True, text=True, check=True).stdout.split()
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "asked.xlsx"
        workbook(formulas).save(source)
        out = Path(folder) / "out"
        command = ["soffice", f"-env:UserInstallation=file://{folder}/profile", "--headless"]
        subprocess.run([*command, "--convert-to", "xlsx", "--outdir", str(out), str(source)], check=True)
        sheet = openpyxl.load_workbook(out / "asked.xlsx", data_only=True)["Sheet"]
        answers = [sheet[f"P{row}"].value for row in range(1, len(formulas) + 1)]
    with REFERENCE.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(["formula", "kind", "answer", "source"])
        for formula, answer in zip(formulas, answers, strict=True):
            writer.writerow([formula, *coded(answer), " ".join(version[:2])])
    sys.stdout.write(f"{len(formulas)} formulas\n")


def coded(answer: object) -> tuple[str, str]:
    """Kind and text of an answer: number, text, logical or error."""
    if isinstance(answer, bool):
        return "logical", str(answer).upper()
    if isinstance(answer, (int, float)):
        return "number", repr(float(answer))
    if answer is None:
        return "text", ""
    return ("error" if str(answer).startswith("#") else "text"), str(answer)


if __name__ == "__main__":
    main()
