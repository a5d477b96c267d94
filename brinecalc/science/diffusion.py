"""Diffusion of salt into a piece of food: uptake, its inverse, local concentration, rest. All that others call.

One idea: with time as a Fourier number D·t/L² and salt as a share of all that will ever be taken up, only two things
are left to know: the shape, and how much water the bath has for each part of water in the product (``bath``, infinite
for a large bath). L is half the thickness of a slab, the whole of a piece salted from one face, the radius of a
cylinder or sphere. A block is given as its three half-thicknesses in units of L, as in ``uptake(0.1, (1, 2, 3))``.

Formulas: J. Crank, The Mathematics of Diffusion, 2nd edition, Oxford 1975, chapters 4 to 6; the product rule for
blocks is Newman's. The surface is taken to have the strength of the bath at once, and water not to move.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Dict, Tuple, Union

from brinecalc.errors import OutOfRange, UnknownName
from brinecalc.science.roots import rising_root
from brinecalc.science.uptake import ShapeUptake, Uptake

if TYPE_CHECKING:
    from brinecalc.science.local import Soaked
    from brinecalc.science.local_block import SoakedBlock

Shape = Union[str, Tuple[float, float, float]]

DIMENSIONS = {"slab": 1, "one face": 1, "cylinder": 2, "sphere": 3}

SMALLEST_BATH = 1e-6
"""Least capacity ratio, a film of brine; below it there is no bath to speak of."""

_MEMORY = 256
_made: Dict[Tuple[Shape, float], Tuple[Uptake, float]] = {}


def uptake(fourier: float, shape: Shape = "slab", bath: float = math.inf) -> float:
    """Share of the final uptake reached at a Fourier number, 0 to 1."""
    if not fourier >= 0.0:
        raise OutOfRange("must be at least 0", argument="fourier", got=repr(fourier))
    kernel, scale = _made.get((shape, bath)) or _kernel(shape, bath)
    return kernel.fraction(fourier * scale)


def fourier_for(fraction: float, shape: Shape = "slab", bath: float = math.inf) -> float:
    """Fourier number at which that share of the final uptake is reached."""
    if not 0.0 <= fraction < 1.0:
        raise OutOfRange("must be at least 0 and below 1", argument="fraction", got=repr(fraction))
    kernel, scale = _made.get((shape, bath)) or _kernel(shape, bath)
    return kernel.fourier(fraction) / scale


def rest_for(evenness: float, fourier: float, shape: Shape = "slab", bath: float = math.inf) -> float:
    """Fourier number of the rest after which centre over surface reaches `evenness`; 0 if it already has."""
    if not 0.0 <= evenness < 1.0:
        raise OutOfRange("must be at least 0 and below 1", argument="evenness", got=repr(evenness))
    piece = soaked(fourier, shape, bath)

    def ahead(rest: float) -> float:
        return piece.rested(0.0, rest) - evenness * piece.rested(1.0, rest)

    high = 0.1
    while ahead(high) < 0.0:
        high *= 2.0
    return rising_root(ahead, 0.0, high) / _scale(shape)


def soaked(fourier: float, shape: Shape = "slab", bath: float = math.inf) -> Union[Soaked, SoakedBlock]:
    """The piece after a soak, to be looked into at many positions; its own rests are on its shortest way in."""
    if not 0.0 <= fourier < math.inf:
        raise OutOfRange("must be at least 0 and finite", argument="fourier", got=repr(fourier))
    return _soaked(fourier * _scale(shape), shape, bath)


@lru_cache(maxsize=128)
def _soaked(fourier: float, shape: Shape, bath: float) -> Union[Soaked, SoakedBlock]:
    _check(shape, bath)
    if isinstance(shape, str):
        from brinecalc.science.local import Soaked

        return Soaked(DIMENSIONS[shape], bath, fourier)
    from brinecalc.science.block import relative
    from brinecalc.science.local_block import SoakedBlock

    return SoakedBlock(relative(shape), bath, fourier)


def _kernel(shape: Shape, bath: float) -> Tuple[Uptake, float]:
    _check(shape, bath)
    kernel = ShapeUptake(DIMENSIONS[shape], bath) if isinstance(shape, str) else _block(shape, bath)
    if len(_made) >= _MEMORY:
        _made.clear()
    made = _made[(shape, bath)] = (kernel, _scale(shape))
    return made


def _block(shape: Tuple[float, float, float], bath: float) -> Uptake:
    from brinecalc.science.block import LargeBathBlock, LimitedBathBlock, relative  # few pieces are blocks

    lengths = relative(shape)
    return LargeBathBlock(lengths) if math.isinf(bath) else LimitedBathBlock(lengths, bath)


def _scale(shape: Shape) -> float:
    """What turns a Fourier number on L into one on the shortest half-thickness of a block."""
    return 1.0 if isinstance(shape, str) else 1.0 / min(shape) ** 2


def _check(shape: Shape, bath: float) -> None:
    if isinstance(shape, str):
        if shape not in DIMENSIONS:
            known = ", ".join(DIMENSIONS)
            raise UnknownName(f"must be one of {known}, or three lengths", argument="shape", got=repr(shape))
    elif len(shape) != 3 or not all(0.0 < length < math.inf for length in shape):
        raise OutOfRange("must be three half-thicknesses above 0", argument="shape", got=repr(shape))
    if not bath >= SMALLEST_BATH:
        raise OutOfRange(f"must be at least {SMALLEST_BATH:g}", argument="bath", got=repr(bath))
