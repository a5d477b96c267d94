"""New prices put into workbooks, and what each batch then costs.

One idea: `reprice_one` does everything for one workbook from its path to its answer, needs nothing but its arguments
and never raises. So any executor of ``concurrent.futures`` runs it: the processes of this machine, or a cluster's.

    with ProcessPoolExecutor() as pool:
        changes = list(reprice(paths, prices, pool))
"""

from __future__ import annotations

import os
from concurrent.futures import FIRST_COMPLETED, Executor, Future, wait
from typing import Any, Dict, Iterable, Iterator, List, NamedTuple, Optional, Tuple

from brinecalc import clock, files
from brinecalc.files import FileTrouble
from brinecalc.hosts import days
from brinecalc.hosts.headless import properties
from brinecalc.hosts.headless.trial import Trial
from brinecalc.trade import costing
from brinecalc.workbook import price_cells, price_list, price_rows, unsettled
from brinecalc.workbook.agreed import AS_VALUES
from brinecalc.workbook.edit.book import Edit, Range
from brinecalc.workbook.edit.cells import Value
from brinecalc.workbook.price_list import Price

Cells = Dict[Tuple[str, int, int], Value]

_AT_ONCE = 64  # books handed to an executor before the first answers: thousands must not pile up in memory


class PriceChange(NamedTuple):
    """A row of the price list that now reads otherwise; `older` if its date is before the one in the workbook.

    It is `ahead` if its date is after today, and `added` if its row is new. `called` is the list's other name for it.

    `pack` is the new pack if it holds another amount than `pack_before`. `unread` is what stood there for a price and
    is none. Dates are written year first.
    """

    name: str
    before: Optional[float]
    after: float
    pack: Optional[str]
    older: bool = False
    pack_before: Optional[str] = None
    unread: Optional[str] = None
    date_before: Optional[str] = None
    date_after: Optional[str] = None
    ahead: bool = False
    added: bool = False
    called: Optional[str] = None


class BatchCost(NamedTuple):
    """What a batch costs with the old and the new prices; None while its cost is open.

    One that `stops` must not be started as planned: nothing is bought for it, and no total counts it.
    """

    number: int
    product: str
    label: str
    before: Optional[float]
    after: Optional[float]
    stops: bool = False


class Change(NamedTuple):
    """What new prices do to one workbook, or the reason why they cannot be put in.

    `listed` are the names in its own price list, `not_listed` those of the new prices that it lacks, `not_given` those
    of its own that the new prices lack, and `confirmed` counts the prices that stay as they were and get a newer date.
    `ahead` counts the dates put in that are after today, `needed` are the names not listed that the plan uses, and
    `unpriced` what it uses that has no price even now. `doubtful` are the list's names of those `needed` that may be others.
    """

    path: str
    prices: Tuple[PriceChange, ...] = ()
    batches: Tuple[BatchCost, ...] = ()
    order: Tuple[Optional[float], Optional[float]] = (None, None)
    not_listed: Tuple[str, ...] = ()
    listed: Tuple[str, ...] = ()
    backup: Optional[str] = None
    problem: Optional[str] = None
    confirmed: int = 0
    not_given: Tuple[str, ...] = ()
    ahead: int = 0
    needed: Tuple[str, ...] = ()
    unpriced: Tuple[str, ...] = ()
    doubtful: Tuple[str, ...] = ()

    @property
    def before(self) -> Optional[float]:
        """What all batches without a STOP cost with the old prices; None while one is open."""
        return _sum(batch.before for batch in self.batches if not batch.stops)

    @property
    def after(self) -> Optional[float]:
        """What all batches without a STOP cost with the new prices; None while one is open."""
        return _sum(batch.after for batch in self.batches if not batch.stops)

    @property
    def stopped(self) -> int:
        """How many batches these sums leave out, since they must not be started as planned."""
        return sum(batch.stops for batch in self.batches)


def reprice(
    paths: Iterable[str],
    prices: Dict[str, Price],
    executor: Executor,
    apply: bool = False,
    date: Optional[float] = None,
    add: bool = False,
) -> Iterator[Change]:
    """Every workbook's change as it comes in, in no order; a book that a worker died of is reported like any other."""
    waiting: Dict["Future[Change]", str] = {}
    for path in paths:
        while len(waiting) >= _AT_ONCE:
            yield from _collected(waiting)
        waiting[executor.submit(reprice_one, path, prices, apply, date, add)] = path
    while waiting:
        yield from _collected(waiting)


def _collected(waiting: Dict["Future[Change]", str]) -> Iterator[Change]:
    done, _ = wait(waiting, return_when=FIRST_COMPLETED)
    for future in done:
        path = waiting.pop(future)
        error = future.exception()
        yield (
            future.result()
            if error is None
            else Change(path, problem=f"the program that computed it stopped: {error!r}")
        )


def reprice_one(
    path: str, prices: Dict[str, Price], apply: bool = False, date: Optional[float] = None, add: bool = False
) -> Change:
    """Puts new prices into one workbook; it is written, with a backup, only when told to `apply`.

    `date` (days as a spreadsheet counts them) is put beside prices whose list gives none. `add` gives a row to each that
    the plan needs and the workbook does not list.
    """
    try:
        return _Book(path, prices, date).change(apply, add)
    except FileTrouble as trouble:
        return Change(path, problem=str(trouble))
    except Exception as error:  # noqa: BLE001 - one bad book must not stop the rest, whatever is wrong with it
        return Change(path, problem=f"unexpected {type(error).__name__}: {error}")


class _Book:
    def __init__(self, path: str, prices: Dict[str, Price], date: Optional[float]) -> None:
        self.path = path
        self.prices = prices
        self.date = date
        self.content = files.read(path)
        self.name = os.path.basename(path)
        self.edit = Edit(self.content, self.name)
        self.listed: List[str] = []
        self.not_given: List[str] = []
        self.confirmed = 0
        self.ahead = 0
        self.today = days.number(clock.today())
        self.old: Cells = {}
        self.new: Cells = {}

    def change(self, apply: bool, add: bool) -> Change:
        changed, met = self.put_in()
        trial = self.computed()
        wanted = price_rows.needed(trial, self.edit, self.prices.keys() - met)
        if add and wanted:
            changed += self.add_rows(wanted, met)
            trial = self.computed()
        after, unpriced = self.costs(trial), price_rows.unpriced(trial, self.edit)
        made = trial.outcome.content if apply and self.new else b""
        trial.suppose(self.old)
        before = self.costs(trial)
        stops = self.stops(trial)
        backup = None
        if made:
            written = properties.dated(made, self.name, clock.now())
            backup = str(files.replace(self.path, written, was=self.content))
        batches = tuple(
            BatchCost(number, product, label, before[1][number], after[1][number], number in stops)
            for number, product, label in self.planned()
        )
        unmet = tuple(price.name for key, price in self.prices.items() if key not in met)
        return Change(self.path, tuple(changed), batches, (before[0], after[0]), unmet, tuple(self.listed), backup, None,
                      self.confirmed, tuple(self.not_given), self.ahead, tuple(wanted.values()), unpriced,
                      price_rows.doubtful(wanted, self.prices))  # fmt: skip

    def computed(self) -> Trial:
        """The workbook with what was put in so far; refused where it cannot be worked out for certain."""
        trial = Trial(self.edit.done(), self.name)
        unsettled.refuse(trial, self.edit, "So no price is put in.")
        return trial

    def add_rows(self, wanted: Dict[str, str], met: "set[str]") -> List[PriceChange]:
        """Gives rows in which nothing stands yet to these names, as far as there are such rows."""
        names, amounts = self.place("price_names"), self.place("price_prices")
        packs, dates = self.edit.place("price_packs"), self.edit.place("price_dates")
        made = []
        for index, key in zip(price_rows.free(self.edit), price_rows.sure(wanted, self.prices)):
            name = wanted.pop(key)
            met.add(key)
            price = self.prices[key]
            self.put(names, index, name)
            self.put(amounts, index, price.price)
            if packs is not None and price.pack is not None:
                self.put(packs, index, price.pack)
            self.put_date(dates, index, price)
            made.append(PriceChange(name, None, price.price, price.pack, date_after=self.dated(dates, price),
                                    ahead=self.is_ahead(dates, price), added=True, called=price_list.called(price.name, name)))  # fmt: skip
        return made

    def put_in(self) -> "tuple[List[PriceChange], set[str]]":
        """Notes the new prices beside the names that they are for."""
        self.refuse()
        names, amounts = self.place("price_names"), self.place("price_prices")
        packs, dates = self.edit.place("price_packs"), self.edit.place("price_dates")
        changed: List[PriceChange] = []
        met = set()
        for index, (row, col) in enumerate(names.cells()):
            name = self.edit.look(names.sheet, row, col).value
            key = price_list.key(name) if isinstance(name, str) and name.strip() else ""
            self.listed += [str(name)] if key else []
            price = self.prices.get(key)
            if key and price is None:
                self.not_given.append(str(name))
            if price is None or key in met:  # a name that stands twice counts where it stands first
                continue
            met.add(key)
            before = self.edit.look(amounts.sheet, *_cell(amounts, index)).value
            dated, packed = self.date_of(dates, index), self.pack_of(packs, index)
            pack = self.new_pack(packs, index, price)
            later = self.later(dates, index, price)
            if before == price.price and pack is None:
                self.confirm(dates, index, price, later)
                continue
            self.put(amounts, index, price.price)
            if pack is not None and packs is not None:
                self.put(packs, index, pack)
            self.put_date(dates, index, price)
            now = self.dated(dates, price) or dated
            made = PriceChange(str(name), _number(before), price.price, pack, later is False, packed, _text(before))
            made = made._replace(called=price_list.called(price.name, str(name)))
            changed.append(made._replace(date_before=dated, date_after=now, ahead=self.is_ahead(dates, price)))
        return changed, met

    def refuse(self) -> None:
        """Refuses what new prices would make worse: a copy that works nothing out, and another currency than its own."""
        if self.read_name(AS_VALUES) == 1:
            raise FileTrouble(
                "it is a copy as values, in which nothing is worked out; reprice the workbook it was made from"
            )
        money = next((price.money for price in self.prices.values() if price.money), None)
        word = str(self.read_name("price_word") or "")
        if money is not None and price_cells.other_money(money, word):
            raise FileTrouble(
                f"its prices are in {word}, those of the list in {money}; turn each price of the list "
                f"into {word} at the rate of the day, not its sign alone"
            )

    def read_name(self, name: str) -> Value:
        """What stands in a named cell; None where there is none."""
        found = self.edit.place(name)
        return None if found is None else self.edit.look(found.sheet, found.area.top, found.area.left).value

    def date_of(self, dates: Optional[Range], index: int) -> Optional[str]:
        """The day beside a price in the workbook, year first; None where there is none."""
        day = None if dates is None else _number(self.edit.look(dates.sheet, *_cell(dates, index)).value)
        return None if day is None else self.calendar(day)

    def calendar(self, day: float) -> Optional[str]:
        """A day as this workbook counts them, year first; None where it is no day of the calendar."""
        try:
            return days.moment(int(day), self.edit.book.from_1904).date().isoformat()
        except (OverflowError, ValueError):
            return None

    def pack_of(self, packs: Optional[Range], index: int) -> Optional[str]:
        """The pack as it stands in the workbook."""
        found = None if packs is None else self.edit.look(packs.sheet, *_cell(packs, index)).value
        return None if found is None else str(found)

    def stops(self, trial: Trial) -> "set[int]":
        """The numbers of the batches with a STOP; a workbook that does not say has none."""
        says = self.edit.place("plan_says")
        cells = enumerate(says.cells(), 1) if says is not None else ()
        return {number for number, cell in cells if says is not None and trial.value(says.sheet, *cell) == "STOP"}

    def later(self, dates: Optional[Range], index: int, price: Price) -> Optional[bool]:
        """Whether a price is newer than the one in the workbook; None where that cannot be told or both are of one day."""
        date = self.day(price)
        if dates is None or date is None:
            return None
        now = _number(self.edit.look(dates.sheet, *_cell(dates, index)).value)
        return None if now == date else now is None or date > now

    def confirm(self, dates: Optional[Range], index: int, price: Price, later: Optional[bool]) -> None:
        """The same price given again on a later day is as new as that day."""
        if later:
            self.put_date(dates, index, price)
            self.confirmed += 1

    def is_ahead(self, dates: Optional[Range], price: Price) -> bool:
        """Whether a price gets a date after today."""
        date = price.date if price.date is not None else self.date
        return dates is not None and date is not None and date > self.today

    def dated(self, dates: Optional[Range], price: Price) -> Optional[str]:
        """The day that is put beside a price, year first; None where none is."""
        day = self.day(price)
        return None if dates is None or day is None else self.calendar(day)

    def day(self, price: Price) -> Optional[float]:
        """The date of a price as this workbook counts days."""
        date = price.date if price.date is not None else self.date
        return None if date is None else days.number(days.moment(date), self.edit.book.from_1904)

    def new_pack(self, packs: Optional[Range], index: int, price: Price) -> Optional[str]:
        """The pack of the list, if it holds another amount than the workbook's."""
        if price.pack is None or packs is None:
            return None
        now = self.edit.look(packs.sheet, *_cell(packs, index)).value
        if isinstance(now, str) and now.strip():
            try:
                one, other = costing.amount(now, "pack"), costing.amount(price.pack, "pack")
            except ValueError:
                return price.pack
            if one == other:
                return None
        return price.pack

    def put_date(self, dates: Optional[Range], index: int, price: Price) -> None:
        date = self.day(price)
        if dates is not None and date is not None:
            self.put(dates, index, date)
            self.ahead += self.is_ahead(dates, price)

    def put(self, place: Range, index: int, value: Value) -> None:
        row, col = _cell(place, index)
        found = self.edit.look(place.sheet, row, col)
        if found.formula is not None:
            raise FileTrouble(f"its price list is worked out by a formula in row {row}; type a price there first")
        self.old[place.sheet, row, col] = found.value
        self.new[place.sheet, row, col] = value
        self.edit.put(place.sheet, row, col, value)

    def place(self, name: str) -> Range:
        found = self.edit.place(name)
        if found is None:
            raise FileTrouble(f"it has no price list (no range is named {name}); make it with brinecalc new")
        return found

    def planned(self) -> Iterator["tuple[int, str, str]"]:
        """Number, product and label of every batch in use."""
        products, labels = self.place("plan_products"), self.place("plan_labels")
        for index, (row, col) in enumerate(products.cells()):
            product = self.edit.look(products.sheet, row, col).value
            if product not in (None, ""):
                label = self.edit.look(labels.sheet, *_cell(labels, index)).value
                yield index + 1, str(product), "" if label is None else str(label)

    def costs(self, trial: Trial) -> "tuple[Optional[float], Dict[int, Optional[float]]]":
        """The order's total, and the cost of every batch; what is open or not to be trusted is None."""
        doubtful = trial.distrusted()

        def look(sheet: str, row: int, col: int) -> Optional[float]:
            return None if (sheet, row, col) in doubtful else _number(trial.value(sheet, row, col))

        places = self.place("plan_costs")
        total = self.edit.place("order_total")
        order = look(total.sheet, total.area.top, total.area.left) if total is not None else None
        return order, {i: look(places.sheet, *cell) for i, cell in enumerate(places.cells(), 1)}


def _cell(place: Range, index: int) -> Tuple[int, int]:
    """The cell of a column at that index, counted from 0."""
    return place.area.top + index, place.area.left


def _number(value: Any) -> Optional[float]:
    return float(value) if isinstance(value, (int, float)) and not isinstance(value, bool) else None


def _text(value: Any) -> Optional[str]:
    """What stands where a number should, in words; None where there is a number or nothing."""
    return None if value in (None, "") or _number(value) is not None else str(value)


def _sum(amounts: Iterable[Optional[float]]) -> Optional[float]:
    known = list(amounts)
    return None if any(amount is None for amount in known) else sum(amount or 0.0 for amount in known)
