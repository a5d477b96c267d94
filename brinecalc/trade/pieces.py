"""A piece of food as the diffusion kernels see it, from the words and measures a cook gives.

One idea: product, thickness, temperature, shape, treatment and estimate come down to five figures: shape, length of
the way in, water, salt already there, and Fourier numbers per hour, in the brine and at rest. They are put together
once and remembered, since a workbook asks about the same few pieces again and again.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Any, Callable, NamedTuple, Optional, Tuple, Union

from brinecalc.errors import Impossible, OutOfRange, Refused, Unreadable
from brinecalc.quantity import degrees, degrees_up
from brinecalc.science import soaking, solution
from brinecalc.science.diffusion import Shape
from brinecalc.trade import citing, groups, limits, products, treatments

Thickness = Union[float, Tuple[float, float, float]]

_HAIR = 1e-9
"""Of the hours that may be spent in the warm: exactly so many, worked out there and back, are no more than them."""
_SURELY_DISSOLVED = 0.35  # of the water; below saturation at every temperature of the table


class Piece(NamedTuple):
    """What the kernels need to know; `rate` and `rest_rate` are Fourier numbers per hour."""

    product: str
    shape: Shape
    length: float
    """mm; half a slab, the whole way from one face, a radius, the shortest half of a block."""
    water: float
    native: float
    """Salt already there, share of the product."""
    diffusivity: float
    """m²/s at the temperature."""
    rate: float
    rest_rate: float
    celsius: float
    perishable: bool
    treatment: str
    estimate: str = "typical"

    @property
    def native_strength(self) -> float:
        """Salt already there, per water of the product."""
        return self.native / self.water


@lru_cache(maxsize=2048)
def piece(
    product: str,
    thickness: Thickness,
    celsius: float = soaking.REFERENCE,
    shape: Optional[str] = None,
    treatment: str = "none",
    estimate: str = "typical",
    native: Optional[float] = None,
) -> Piece:
    """The piece; an injected one may only rest."""
    found = products.find(product)
    effect = treatments.treatment(treatment)
    _check_temperature(celsius)
    form, length = _form(found.shape if shape is None else shape, shape is not None, thickness, effect.path[estimate])
    diffusivity = soaking.diffusivity(found.diffusivity(estimate), celsius, effect.speed)
    rate = diffusivity * 3600.0 / (length * 1e-3) ** 2
    return Piece(
        found.name,
        form,
        length,
        found.water,
        found.native_salt if native is None else native,
        diffusivity,
        rate / effect.hours[estimate],
        rate,
        celsius,
        found.perishable,
        treatment,
        estimate,
    )


def _form(shape: str, chosen: bool, thickness: Thickness, path: Optional[float]) -> Tuple[Shape, float]:
    """The kernel's shape and length; needles leave no way in longer than `path`."""
    longest = float("inf") if path is None else path
    if isinstance(thickness, tuple):
        if chosen and shape != "block":
            raise Unreadable(
                f"must be a single length for the shape {shape}",
                argument="thickness",
                advice='give one thickness, or the shape "block"',
            )
        halves = [min(0.5 * edge, longest) for edge in thickness]
        shortest = min(halves)
        return (halves[0] / shortest, halves[1] / shortest, halves[2] / shortest), shortest
    if shape == "block":
        raise Unreadable(
            "must be the three edges of a block", argument="thickness", advice='write them as "150 x 60 x 40 mm"'
        )
    return shape, min(thickness if shape == "one face" else 0.5 * thickness, longest)


def _check_temperature(celsius: float) -> None:
    if celsius < soaking.COLDEST:
        raise OutOfRange(
            f"must be at least {degrees(soaking.COLDEST)}",
            argument="temperature",
            got=degrees(celsius),
            advice="colder, the product itself freezes and salt hardly moves",
            nearest=soaking.COLDEST,
        )


def check_soaks(it: Piece) -> None:
    """Refuses to soak what is injected."""
    if it.treatment == "injected":
        raise Impossible(
            'cannot be "injected" here: injection puts the salt in at once, there is no soak',
            argument="treatment",
            advice="BRINE_INJECTION_STRENGTH gives the strength to inject, as a share of the solution, "
            'BRINE_REST_HOURS the rest it needs; to soak it too, write "needled", and as native_salt '
            "what the injection leaves in it",
        )


def check_brine(strength: float, celsius: float) -> None:
    """Refuses a brine that cannot dissolve its salt or that is frozen."""
    if strength > _SURELY_DISSOLVED:
        solution.check_strength(strength, "water", max(celsius, 0.0))
    if celsius > 0.0:
        return
    share = solution.from_water_basis(strength)
    freezes = solution.freezing_point(min(share, solution.eutectic()))
    if celsius <= freezes:
        raise OutOfRange(
            f"must be above {degrees_up(freezes)}, where a brine of that strength begins to freeze",
            argument="temperature",
            got=degrees(celsius),
            advice="soak at 1 to 4 °C / 34 to 39 °F",
            nearest=freezes,
        )


@cache
def on_the_clock() -> Tuple[float, float]:
    """°C above which a perishable product is on the clock, and the hours that it may spend there."""
    return limits.value("brine temperature"), limits.value("warm hours")


def told_warm(product: int, temperature: int) -> Callable[..., Optional[str]]:
    """What to look at again in a soak whose product and temperature are the arguments of those numbers."""
    return lambda _answer, *given: _too_warm(given[product], given[temperature])


def told_long(
    product: int, temperature: int, way: str, soak: Optional[int] = None, target: Optional[int] = None
) -> Callable[..., Optional[str]]:
    """As told_warm, where the answer is hours of soak, or of a rest after the soak that the argument `soak` gives.

    `way` is what shortens them; `target` is the argument that says how much salt goes in, where one does.
    """

    def told(hours: float, *given: Any) -> Optional[str]:
        warm = _too_warm(given[product], given[temperature])
        total = hours if soak is None else hours + given[soak]
        return warm or _too_long(given[product], total, way, None if target is None else given[target])

    return told


def _too_warm(product: str, celsius: float) -> Optional[str]:
    """What to say of raw meat, poultry or fish that is to lie warmer than it goes into a brine, or than it keeps."""
    found = products.find(product)
    kept, start = limits.find("brine temperature"), limits.find("brine start temperature")
    if found.group not in groups.FLESH or not kept.passed_by(celsius):
        return None
    it, cold = found.name, degrees(kept.value)
    if start.passed_by(celsius):
        return (
            f"{it} goes into no brine above {degrees(start.value)} ({citing.title(start.source)}; taken for all raw "
            f"meat too), and this is at {degrees(celsius)}: chill it to {cold} or below first."
        )
    return (
        f"{it} belongs at {cold} or below ({citing.title(kept.source)}), and this is at {degrees(celsius)}: chill it, "
        f"or keep to {limits.find('warm hours').shown} above that, all told."
    )


def _too_long(product: str, hours: float, way: str, target: Optional[float]) -> Optional[str]:
    """What to say of more hours than the cold keeps what is perishable; cheese is kept in its brine by custom."""
    found = products.find(product)
    keeps, most = limits.find("date mark"), limits.find("poultry in brine")
    if not found.perishable or found.group == "cheese" or not keeps.passed_by(hours):
        return None
    if target is not None and not limits.find("keeping salt").passed_by(target / found.water):
        return None
    from brinecalc.trade import wording  # only a reason needs it

    takes, kept = wording.times(hours, keeps.value)
    never = ""
    if (found.group == "poultry" or found.group in groups.FISH) and most.passed_by(hours):
        never = (
            f"; raw poultry and fish are never more than {wording.hours(most.value)} in a brine that neither cures "
            f"them nor salts them for keeping ({citing.KNOWN_BY[most.status]})"
        )
    cured = "cure it or salt it for keeping" if found.group in groups.FLESH else "salt it for keeping"
    return (
        f"that comes to {takes}, and {found.name} keeps {kept} in the cold ({citing.title(keeps.source)}, "
        f"{keeps.place}){never}: {way}, or {cured}."
    )


def _lasting(hours: float) -> str:
    """A time as people speak of it: hours, or days from three days up, or years from two years up."""
    days = hours / 24.0
    if days >= 730.0:
        return f"{days / 365.25:,.0f} years".replace(",", " ")
    return f"{days:.3g} days" if days >= 3.0 else f"{hours:.3g} h"


def check_warm(it: Piece, hours: float, what: str, given: bool = False) -> None:
    """Refuses more hours in the warm than a perishable product may have; `what` begins the sentence.

    Where the hours were `given`, thinner pieces are no way out: only fewer hours or the cold are.
    """
    warm, most = on_the_clock()
    if it.estimate == "slow" and not given:
        what = f"if salt goes in slowly, {what}"
    if hours > most * (1.0 + _HAIR) and it.celsius > warm and it.perishable:
        raise Refused(
            f"{what} {_lasting(hours)} at {degrees(it.celsius)}, and {it.product} may be above {degrees(warm)}"
            f" for {most:g} h at most",
            advice=f"brine at {degrees(warm)} or colder, or "
            + (f"for {most:g} h at most" if given else "in thinner pieces, or inject (BRINE_INJECTION_STRENGTH)"),
            nearest=most,
        )
