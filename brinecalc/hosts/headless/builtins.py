"""The spreadsheet functions that are known to come out right, and what each may be given.

One idea: a list of what is known to be right is safer than a list of what is known to be wrong. A function that is
not here is reported instead of computed. Each was compared with LibreOffice over a few dozen arguments of every
kind; where the engine and the spreadsheet programs differ, the function is left out, narrowed, or replaced by one
in ``stand_ins`` or, with an exclamation mark, by one in ``watches``.

An entry reads ``NAME parameters result stand-in``. Parameters are letters, ``?`` before the first that may be
left out, ``*`` before the group that may be repeated:

====== =====================================================================================
``n``  one number
``v``  one value of any kind
``t``  one text; a number is written out as the spreadsheet programs do, with 15 digits
``k``  one value to look up by order
``d``  one date as a number; a date in a text is not read
``h``  one time as a number; a time in a text is not read
``s``  like r, for sums: a calculated text among them is not read
``u``  like r, for counts: a calculated blank among them is not counted
``r``  a range, an array or one value, taken whole
``R``  a range of cells, nothing else
``p``  a value that may become the result, a range included
====== =====================================================================================

Results: ``n`` a number, ``t`` a text, ``l`` a logical value, ``v`` any one value, ``p`` what was picked, ``m`` one
value or several, ``a`` an array.
"""

from __future__ import annotations

from typing import Dict, NamedTuple, Optional

_ENTRIES = """
ABS n n; ACOS n n; AND r*r l; ASIN n n; ATAN n n; ATAN2 nn n; AVEDEV s*s n; AVERAGE s*s n; AVERAGEA s*s n;
AVERAGEIF Rv?R n; AVERAGEIFS RRv*Rv n; CEILING nn n CEILING; CEILING.MATH n?nn n CEILING_MATH; CHAR n t;
CHOOSE np*p p; CLEAN t t CLEAN; CODE t n; COLUMN ?R n; COLUMNS r n; COMBIN nn n; CONCAT r*r t CONCAT;
CONCATENATE t*t t CONCAT; CORREL rr n; COS n n; COUNT u*u n; COUNTA u*u n; COUNTBLANK R n; COUNTIF Rv n;
COUNTIFS Rv*Rv n; DATE nnn n; DATEDIF ddv n; DAY d n; DAYS vv n !DAYS; DEGREES n n; DEVSQ s*s n; EDATE dn n;
EOMONTH dn n; ERROR.TYPE v n; EVEN n n !EVEN; EXACT tt l EXACT; EXP n n; FACT n n; FALSE - l; FILTER rr?v a;
FIND tt?n n FIND; FIXED n?nv t; FLOOR nn n FLOOR; FLOOR.MATH n?nn n FLOOR_MATH; FORECAST nrr n;
FORECAST.LINEAR nrr n; FV nnn?nn n; GCD n*n n; GEOMEAN s*s n; HARMEAN s*s n; HLOOKUP vRn?v v; HOUR h n;
HYPERLINK v?v v HYPERLINK; IF vp?p p; IFERROR vv v; IFNA vv v; IFS vv*vv v; INDEX rn?n m; INT n n !INT;
INTERCEPT rr n; ISBLANK v l; ISERR v l; ISERROR v l; ISEVEN n l; ISLOGICAL v l; ISNA v l; ISNONTEXT v l;
ISNUMBER v l; ISO.CEILING n n; ISODD n l; ISOWEEKNUM d n; ISTEXT v l; LARGE rn n; LCM n*n n; LEFT t?n t LEFT;
LEN t n LEN; LN n n; LOG n?n n; LOG10 n n; LOOKUP kr?r v; LOWER t t LOWER; MATCH vr?n n; MAX s*s n; MAXA s*s n;
MAXIFS RRv*Rv n; MEDIAN s*s n; MID tnn t MID; MIN s*s n; MINIFS RRv*Rv n; MINUTE h n; MOD nn n !MOD; MODE s*s n;
MODE.SNGL s*s n; MONTH d n; MROUND nn n !MROUND; N v n; NA - v; NETWORKDAYS dd?r n; NOT v l; NOW - n;
NPER nnn?nn n; NPV nr*r n; ODD n n !ODD; OR r*r l; PERCENTILE rn n; PERCENTILE.INC rn n; PI - n; PMT nnn?nn n;
POWER nn n; PRODUCT s*s n; PROPER t t PROPER; PV nnn?nn n; QUARTILE rn n; QUARTILE.INC rn n;
QUOTIENT nn n !QUOTIENT; RADIANS n n; RANK nR?n n; RANK.EQ nR?n n; REPLACE tnnt t REPLACE; REPT tn t REPT;
RIGHT t?n t RIGHT; ROUND nn n !ROUND; ROUNDDOWN nn n; ROUNDUP nn n; ROW ?R n; ROWS r n; SEARCH tt?n n SEARCH;
SECOND h n; SIGN n n; SIN n n; SLOPE rr n; SMALL rn n; SORT r?nn a; SQRT n n; SQRTPI n n; STDEV s*s n;
STDEV.P s*s n; STDEV.S s*s n; STDEVP s*s n; SUBSTITUTE ttt?n t SUBSTITUTE; SUBTOTAL nR*R n; SUM s*s n;
SUMIF Rv?R n; SUMIFS RRv*Rv n; SUMPRODUCT r*r n; SUMSQ s*s n; SWITCH vvv*vv v; T v t; TAN n n; TEXT vv t;
TEXTJOIN tvr*r t TEXTJOIN; TIME nnn n !TIME; TODAY - n; TRANSPOSE r a; TRIM t t TRIM; TRUE - l; TRUNC n?n n;
UNICHAR n t; UNICODE t n; UNIQUE r a; UPPER t t UPPER; VALUE v n !VALUE; VAR s*s n; VAR.P s*s n; VAR.S s*s n;
VARP s*s n; VLOOKUP vRn?v v; WEEKDAY d?n n; WORKDAY dn?r n; XLOOKUP vRR?vnn m; XMATCH vR?n n;
XOR r*r l; YEAR d n; YEARFRAC dd?n n
"""

_KNOWN_WRONG = {
    "CELL": "it asks about the program that shows the sheet",
    "CONVERT": "its units differ from program to program; use BRINE_UNIT",
    "DATEVALUE": "how it reads a date depends on the language; use DATE",
    "DOLLAR": "its currency depends on the language",
    "INDIRECT": "it builds a reference from text; use INDEX",
    "INFO": "it asks about the program that shows the sheet",
    "LAMBDA": "functions defined inside the workbook are not computed here",
    "LET": "older spreadsheet programs do not know it; use a helper cell",
    "NUMBERVALUE": "how it reads a number depends on the language; use VALUE",
    "OFFSET": "it builds a reference by counting; use INDEX",
    "RAND": "its value is random",
    "RANDARRAY": "its value is random",
    "RANDBETWEEN": "its value is random",
    "SINGLE": "it takes one cell of a range by position",
    "WEEKNUM": "spreadsheet programs disagree at the turn of the year; use ISOWEEKNUM",
    "TIMEVALUE": "how it reads a time depends on the language; use TIME",
}


class Rule(NamedTuple):
    """What a function may be given and what it gives."""

    name: str
    parameters: str
    fewest: int
    repeats: str
    result: str
    stand_in: str

    def letter(self, index: int) -> Optional[str]:
        """The letter of the parameter in that place; None when there is no such place."""
        if index < len(self.parameters):
            return self.parameters[index]
        if not self.repeats:
            return None
        return self.repeats[(index - len(self.parameters)) % len(self.repeats)]

    def fits(self, count: int) -> bool:
        """Whether the function takes that many arguments."""
        if count < self.fewest:
            return False
        return self.letter(count - 1) is not None if count else True


_rules: Dict[str, Rule] = {}


def bare(name: str) -> str:
    """A function's name without what Excel puts before it in a file."""
    plain = name.upper()
    for prefix in ("_XLFN.", "_XLUDF.", "_XLWS."):
        plain = plain.removeprefix(prefix)
    return plain


def rule(name: str) -> Optional[Rule]:
    """The rule of a function by its bare name; None when it is not known to come out right."""
    if not _rules:
        for entry in _ENTRIES.split(";"):
            made = _read(*entry.split())
            _rules[made.name] = made
    return _rules.get(name)


def refusal(name: str) -> str:
    """Why a function without a rule is not computed."""
    known = _KNOWN_WRONG.get(name)
    return f"{name} is not computed here: {known}" if known else f"{name} is not a function that is known here"


def _read(name: str, shape: str, result: str, stand_in: str = "") -> Rule:
    shape = "" if shape == "-" else shape
    fixed, _, repeats = shape.partition("*")
    required, _, optional = fixed.partition("?")
    return Rule(name, required + optional, len(required), repeats, result, stand_in)
