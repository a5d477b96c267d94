"""The ions of a brine at rest: which proton, sodium and calcium sits on which acid.

One idea: given the activities of hydrogen, sodium and calcium, each acid shares itself out over its forms by
weights that do not depend on the other acids, so only those three activities are unknown. Three balances fix them:
the protons, the sodium and the calcium that went in must be found again. Newton's method solves all three at once
(its matrix is made of variances and covariances, so it always points downhill), while the activity coefficients
follow from step to step; it goes on until the steps no longer shrink. Counting protons instead of charges keeps
the salt, by far the largest amount, out of the sum, so that nothing is lost to rounding.
"""

from __future__ import annotations

from math import exp, log
from typing import List, NamedTuple, Tuple

from brinecalc.errors import Impossible
from brinecalc.science.activity import LN10, coefficients, field, limiting_slope
from brinecalc.science.species import Form, forms, hydroxides

DRYING = 0.018015 * 0.93  # ln(activity of water) lost per mol/kg of particles: Raoult, with salt's osmotic coefficient
START = -16.0  # ln of the hydrogen activity of plain water
LONGEST = 2.0  # longest step of a logarithm: shorter than any swing a weak acid can throw it into
STALLED = 1e-10  # below this, a step no shorter than the one before is rounding
MOST = 400

Triple = Tuple[float, float, float]
"""One value each for hydrogen, sodium, calcium."""
Matrix = Tuple[float, float, float, float, float, float]
"""Symmetric: hydrogen-hydrogen, -sodium, -calcium, sodium-sodium, -calcium, calcium-calcium."""


class Mixture(NamedTuple):
    """What went into each kilogram of water, mol/kg. Potassium counts as sodium, magnesium as calcium."""

    acids: Tuple[Tuple[str, float], ...]
    protons: float
    """Protons brought along, counted from the bare anions and water: citric acid 3, baking soda 1, lye -1."""
    sodium: float
    calcium: float
    chloride: float


class Rest(NamedTuple):
    """The brine at rest."""

    ph: float
    ionic_strength: float


class _Field(NamedTuple):
    """What sets the activity coefficients at one step."""

    pull: float
    """The field of all charges on a single one, times ln 10."""
    sodium: float
    """Free sodium, mol/kg."""
    on_sodium: float
    """Sum of ε m ln 10 over the anions round sodium."""
    ln_water: float


def settle(mix: Mixture, celsius: float = 25.0) -> Rest:
    """The brine at rest, closed to the air, nothing precipitated. Range of `celsius`: 0 to 40."""
    brine = _Brine(mix, celsius)
    at, around = brine.start()
    last = 1e9
    for _ in range(MOST):
        miss, matrix, after, ionic_strength = brine.balance(at, around)
        step = _newton(miss, matrix, mix.sodium > 0.0, mix.calcium > 0.0)
        size = max(abs(step[0]), abs(step[1]), abs(step[2]))
        part = LONGEST / size if size > LONGEST else 1.0
        at = (at[0] + part * step[0], at[1] + part * step[1], at[2] + part * step[2])
        around = after
        if size < STALLED and size >= last:
            return Rest(-at[0] / LN10, ionic_strength)
        last = size
    raise Impossible("cannot be worked out: acids and bases of this mix do not come to rest in the reckoning")


class _Brine:
    """A mixture at a temperature, with all that stays the same from step to step."""

    def __init__(self, mix: Mixture, celsius: float) -> None:
        epsilon = coefficients()
        self.mix = mix
        self.slope = limiting_slope(celsius) * LN10
        self.on_h = epsilon[("H+", 0)] * LN10 * mix.chloride
        self.on_ca = epsilon[("Ca+2", 0)] * LN10 * mix.chloride
        self.on_na = epsilon[("Na+", 0)] * LN10 * mix.chloride
        self.e_oh = epsilon[("OH-", 0)] * LN10
        self.k_oh, self.k_caoh = hydroxides(celsius)
        with_na, with_ca = mix.sodium > 0.0, mix.calcium > 0.0
        self.acids = [(forms(acid, celsius, with_na, with_ca), total) for acid, total in mix.acids if total > 0.0]

    def start(self) -> Tuple[Triple, _Field]:
        """Plain water with all metal free, in the field of everything that was put in."""
        mix = self.mix
        strength = 0.5 * (mix.sodium + mix.chloride + 4.0 * mix.calcium + sum(total for _, total in self.acids))
        pull = field(strength, self.slope)
        y = log(mix.sodium) - pull + self.on_na if mix.sodium > 0.0 else 0.0
        w = log(mix.calcium) - 4.0 * pull + self.on_ca if mix.calcium > 0.0 else 0.0
        return (START, y, w), _Field(pull, mix.sodium, self.on_na, -DRYING * (mix.sodium + mix.chloride))

    def balance(self, at: Triple, around: _Field) -> Tuple[Triple, Matrix, _Field, float]:
        """What is missing or too much, how that moves with the activities, the next field, the ionic strength."""
        mix = self.mix
        x, y, w = at
        pull, sodium, on_sodium, ln_water = around
        h = exp(x + pull - self.on_h)
        oh = exp(self.k_oh + ln_water - x + pull - self.e_oh * sodium)
        na = exp(y + pull - on_sodium) if mix.sodium > 0.0 else 0.0
        ca = caoh = 0.0
        if mix.calcium > 0.0:
            ca = exp(w + 4.0 * pull - self.on_ca)
            caoh = exp(self.k_caoh + ln_water - x + w + pull)
        fh, fm, fc = h - oh - caoh - mix.protons, na - mix.sodium, ca + caoh - mix.calcium
        hh, hm, hc, mm, mc, cc = h + oh + caoh, 0.0, -caoh, na, 0.0, ca + caoh
        squares = h + oh + na + 4.0 * ca + caoh + mix.chloride
        particles = h + oh + na + ca + caoh + mix.chloride
        on_na = self.on_na
        for rows, total in self.acids:
            got = _share_out(rows, total, at, pull, sodium)
            fh, fm, fc = fh + got[0], fm + got[1], fc + got[2]
            hh, hm, hc = hh + got[3], hm + got[4], hc + got[5]
            mm, mc, cc = mm + got[6], mc + got[7], cc + got[8]
            squares += got[9]
            on_na += got[10]
            particles += total
        strength = 0.5 * squares
        after = _Field(field(strength, self.slope), na, on_na, -DRYING * particles)
        return (fh, fm, fc), (hh, hm, hc, mm, mc, cc), after, strength


def _share_out(rows: Tuple[Form, ...], total: float, at: Triple, pull: float, sodium: float) -> List[float]:
    """How `total` of an acid shares itself out: what it holds, the covariances of that, and its charges.

    In mol/kg: protons, sodium, calcium held; the covariances in the order of `Matrix`; charges squared; the pull
    on sodium. No form holds sodium and calcium at once, so their covariance is minus the product of the means.
    """
    x, y, w = at
    s = sh = sm = sc = shh = shm = shc = smm = scc = szz = se = 0.0
    for ln_k, protons, na, ca, square, e in rows:
        p = exp(ln_k + protons * x + na * y + ca * w + square * pull - e * sodium)
        s += p
        held = p * protons
        sh += held
        shh += held * protons
        szz += p * square
        se += p * e
        if na:
            held = p * na
            sm += held
            shm += held * protons
            smm += held * na
        elif ca:
            held = p * ca
            sc += held
            shc += held * protons
            scc += held * ca
    f = total / s
    h, m, c = sh / s, sm / s, sc / s
    between = [f * (shh - sh * h), f * (shm - sh * m), f * (shc - sh * c), f * (smm - sm * m), -f * sm * c]
    return [f * sh, f * sm, f * sc, *between, f * (scc - sc * c), f * szz, f * se]


def _newton(miss: Triple, matrix: Matrix, with_na: bool, with_ca: bool) -> Triple:
    """The step that makes good what is missing; metals that are not there stay out of it."""
    fh, fm, fc = miss
    hh, hm, hc, mm, mc, cc = matrix
    if not with_ca:
        if not with_na:
            return -fh / hh, 0.0, 0.0
        det = hh * mm - hm * hm
        return (fm * hm - fh * mm) / det, (fh * hm - fm * hh) / det, 0.0
    if not with_na:
        det = hh * cc - hc * hc
        return (fc * hc - fh * cc) / det, 0.0, (fh * hc - fc * hh) / det
    a, b, c = mm * cc - mc * mc, hc * mc - hm * cc, hm * mc - hc * mm
    e, f, g = hh * cc - hc * hc, hc * hm - hh * mc, hh * mm - hm * hm
    det = -(hh * a + hm * b + hc * c)
    return (a * fh + b * fm + c * fc) / det, (b * fh + e * fm + f * fc) / det, (c * fh + f * fm + g * fc) / det
