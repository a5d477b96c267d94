"""The forecast against simulated logs, made by finite volumes: how often the finish lies in the range, and why not."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy.optimize import brentq

from brinecalc.science import forecast, soak_log
from brinecalc.science.soak_log import Soak
from tests.science.finite_volumes import piece

WATER, NATIVE, STRENGTH, TARGET = 0.739, 0.00114 / 0.739, 0.05, 0.012
BELIEVED = (1.6e-10, 4e-10, 6e-10)
PACE = 3600.0 / 0.0125**2  # slab of 25 mm
SOAK = Soak("slab", PACE, WATER, NATIVE, STRENGTH, 1.0)
CELLS = 120


class Simulated:
    """A soak by finite volumes, its bath thinned by a share of water at a time; hours are Fourier numbers here."""

    def __init__(self, share=0.0, start=0.0):
        self.piece, self.start = piece(1, CELLS), start
        fresh = np.append(np.full(CELLS, NATIVE), STRENGTH)
        self.before = (fresh, 1.0 / WATER)
        after = self.piece.carry(fresh, 1.0 / WATER, start)
        after[-1] *= 1.0 - share
        self.after = (after, 1.0 / WATER / (1.0 - share))

    def at(self, fourier):
        if fourier < self.start:
            return self.piece.carry(*self.before, fourier)
        return self.piece.carry(*self.after, fourier - self.start)

    def reading(self, fourier):
        return float(self.at(fourier)[-1])

    def missing(self, fourier):
        return TARGET - WATER * self.piece.mean(self.at(fourier)[:-1])

    def finish(self):
        late = 1.0
        while self.missing(late) > 0.0:
            late *= 2.0
            if late > 100.0:
                return math.inf
        return brentq(self.missing, 0.0, late, xtol=1e-14, rtol=1e-13)


def some_log(chance, count, noise=0.006, thinned=1.0 / 3.0, wrong=0.15, later=False):
    """(true hours to the target, hours, readings) of one simulated kitchen log."""
    deviate = chance.gauss(0.0, 1.0) / 1.2815515655446004
    slow, typical, fast = BELIEVED
    d = typical * (typical / slow if deviate < 0 else fast / typical) ** deviate
    share = round(abs(chance.gauss(0.0, 0.08)), 2) if chance.random() < thinned else 0.0
    share = min(share, 0.2)
    start = chance.choice((0.0, 0.05, 0.1)) if later else 0.0
    simulated = Simulated(share, start)
    finish = simulated.finish()
    meter = 1.0 + chance.gauss(0.0, 0.01)
    moments = [finish * 0.8 * (i + 1) / count for i in range(count)]
    readings = [simulated.reading(f) * meter * (1.0 + chance.gauss(0.0, noise)) for f in moments]
    if chance.random() < wrong:
        readings[chance.randrange(count)] *= 1.0 + chance.choice((-1, 1)) * chance.uniform(0.08, 0.3)
    scale = 1.0 / (PACE * d)
    return finish * scale, [f * scale for f in moments], readings


def simulate(chance, count, logs, **ways):
    """(inside the range, width as a factor, middle over truth) for a number of simulated logs."""
    for _ in range(logs):
        true, hours, readings = some_log(chance, count, **ways)
        found = forecast.fit(SOAK, hours, readings, BELIEVED)
        early, middle, late = forecast.finishes(found, TARGET, (forecast.OUTSIDE, 0.5, 1.0 - forecast.OUTSIDE))
        yield early <= true <= late, late / early, middle / true


@pytest.mark.parametrize(("count", "noise"), [(2, 0.003), (2, 0.012), (3, 0.012), (6, 0.003)])
def test_the_finish_lies_in_the_range_as_often_as_it_claims(count, noise):
    """Claim of the help: at least 8 logs in 10, a third of the baths thinned, a wrong reading in every seventh log."""
    made = list(simulate(random.Random(20 + count), count, 40, noise=noise))
    assert sum(inside for inside, _, _ in made) / len(made) >= 0.8


def test_also_when_the_bath_is_thinned_every_time():
    """Ice in every bath, before the first reading or after it: what no meter can see is allowed for."""
    for later in (False, True):
        made = list(simulate(random.Random(5), 4, 30, thinned=1.0, wrong=0.0, later=later))
        assert sum(inside for inside, _, _ in made) / len(made) >= 0.75


def test_the_range_narrows_as_readings_come_in():
    widths = []
    for count in (2, 4, 8):
        made = sorted(width for _, width, _ in simulate(random.Random(7), count, 15, thinned=0.0, wrong=0.0))
        widths.append(made[len(made) // 2])
    assert widths[0] > widths[1] > widths[2] > 1.0
    assert widths[0] > 1.5  # two readings decide little
    assert widths[2] < 1.6


def exact(d, hours, share=0.0, start=0.0):
    simulated = Simulated(share, start * PACE * d)
    return [simulated.reading(PACE * d * t) for t in hours], simulated.finish() / (PACE * d)


@pytest.mark.parametrize("d", [1.2e-10, 2e-10, 4e-10, 6e-10, 8e-10])
def test_a_clean_log_gives_its_diffusivity_back(d):
    """Readings without noise: the diffusivity they were made with to 4 %, the finish inside the range."""
    hours = [0.5, 1, 2, 3, 4, 6]
    readings, true = exact(d, hours)
    found = forecast.fit(SOAK, hours, readings, BELIEVED)
    assert forecast.diffusivity(found) == pytest.approx(d, rel=0.04)
    early, middle, late = forecast.finishes(found, TARGET, (0.06, 0.5, 0.94))
    assert early < true < late
    assert middle == pytest.approx(true, rel=0.05)
    assert forecast.thinned(found) == 0.0
    assert forecast.doubtful(found) == 0


@pytest.mark.parametrize("bad", [0, 2, 5])
@pytest.mark.parametrize("off", [0.7, 0.9, 1.15])
def test_one_bad_reading_does_not_carry_the_forecast_away(bad, off):
    hours = [0.5, 1, 2, 3, 4, 6]
    readings, true = exact(3e-10, hours)
    readings[bad] *= off
    found = forecast.fit(SOAK, hours, readings, BELIEVED)
    assert forecast.doubtful(found) == bad + 1
    assert forecast.diffusivity(found) == pytest.approx(3e-10, rel=0.1)
    early, _, late = forecast.finishes(found, TARGET, (0.06, 0.5, 0.94))
    assert early < true < late


@pytest.mark.parametrize("share", [0.05, 0.1])
@pytest.mark.parametrize("start", [0.0, 1.5])
def test_ice_or_drip_is_not_taken_for_uptake(share, start):
    """A bath thinned by 5 or 10 %, at the start or between readings: found as such, and the diffusivity kept."""
    hours = [0.5, 1, 2, 3, 4, 6]
    readings, true = exact(3e-10, hours, share, start)
    found = forecast.fit(SOAK, hours, readings, BELIEVED)
    assert forecast.thinned(found) == pytest.approx(share, abs=0.02)
    assert forecast.diffusivity(found) == pytest.approx(3e-10, rel=0.25)
    early, _, late = forecast.finishes(found, TARGET, (0.06, 0.5, 0.94))
    assert early < true < late
    naive = next(d for d in np.geomspace(1e-10, 3e-9, 300) if SOAK.reading(float(d), 6) < readings[-1])
    assert naive > 1.4 * 3e-10  # what a plain fit of the last reading would say


def test_a_target_the_bath_cannot_reach_is_never_finished():
    readings, _ = exact(4e-10, [1, 2])
    found = forecast.fit(SOAK, [1, 2], readings, BELIEVED)
    assert forecast.finishes(found, 0.03, (0.06, 0.5)) == [math.inf, math.inf]
    assert forecast.finishes(found, WATER * NATIVE, (0.5,)) == [0.0]


def test_freshening_is_forecast_as_well():
    """A salted product in plain water: the bath rises, and the log gives its diffusivity back."""
    soak = Soak("slab", PACE, 0.55, 0.19 / 0.55, 0.0, 3.0)
    hours = [1, 2, 4, 8]
    readings = [soak.reading(2.5e-10, t) for t in hours]
    found = forecast.fit(soak, hours, readings, (1e-10, 2.5e-10, 4.5e-10))
    assert forecast.diffusivity(found) == pytest.approx(2.5e-10, rel=0.05)
    early, middle, late = forecast.finishes(found, 0.05, (0.06, 0.5, 0.94))
    true = soak.finish(0.05) / (soak.pace * 2.5e-10)
    assert early < true < late
    assert middle == pytest.approx(true, rel=0.05)


@pytest.mark.parametrize("z", [0.1, 0.5, 1.2815515655446004, 3.0])
def test_belief_falls_as_students_t_with_four_degrees_of_freedom(z):
    """Its density goes with (1 + z^2/4) to the power of -5/2; slow and fast are a tenth's deviate from typical."""
    believed = (-1.0, 0.0, 0.5)
    for side, spread in ((1.0, 0.5 / 1.2815515655446004), (-1.0, 1.0 / 1.2815515655446004)):
        found = forecast._belief(side * z * spread, believed) * spread
        assert found == pytest.approx((1.0 + z * z / 4.0) ** -2.5, rel=1e-12)


def test_the_thinning_is_the_mean_over_the_lines_in_which_the_bath_is_thinned():
    """By hand: (0.3 x 0.1 + 0.4 x 0.2) / 0.7; nothing while another explanation is likelier."""

    def line(weight, part, share):
        return forecast.Line(0.0, weight, part, forecast.Explained(0.0, 1.0, share, 0.0, ()))

    found = forecast.Fit(SOAK, (line(0.5, 0.3, 0.1), line(0.5, 0.4, 0.2)))
    assert forecast.thinned(found) == pytest.approx(0.11 / 0.7, rel=1e-12)
    assert forecast.thinned(forecast.Fit(SOAK, (line(0.5, 0.2, 0.1), line(0.5, 0.2, 0.2)))) == 0.0


def test_a_bath_thinned_after_half_an_hour_has_lost_less_than_one_thinned_at_the_start():
    log_d = math.log(8.0 * BELIEVED[1])

    def middle(part, since):
        explained = forecast.Explained(0.0, 1.0, 0.1, since, ())
        lines = tuple(forecast.Line(log_d + step, 0.5, 0.5 * part, explained) for step in (0.0, 0.1))
        return forecast.finishes(forecast.Fit(SOAK, lines), TARGET, (0.5,))[0]

    assert middle(0.0, 0.0) < middle(1.0, 0.5) < middle(1.0, 0.0)


def test_the_grid_of_diffusivities_is_even_and_says_its_spacing():
    _, hours, readings = some_log(random.Random(4), 4)
    found = forecast.fit(SOAK, hours, readings, BELIEVED)
    logs = [line.log_d for line in found.lines]
    assert found.step * (len(logs) - 1) == pytest.approx(logs[-1] - logs[0], rel=1e-9)


@pytest.mark.parametrize(("far", "end"), [(math.exp(4.0) * BELIEVED[2], 2.0), (math.exp(-4.0) * BELIEVED[0], -2.0)])
def test_a_log_leads_no_further_than_a_factor_of_e_squared_past_slow_and_fast(far, end):
    """A judgement on what a log may be believed of: a soak faster or slower than that is another soak."""
    hours = [0.2, 0.4, 0.8, 1.6]
    found = forecast.fit(SOAK, hours, [SOAK.reading(far, t) for t in hours], BELIEVED)
    nearest = math.exp(end) * (BELIEVED[2] if end > 0.0 else BELIEVED[0])
    assert math.log(forecast.diffusivity(found) / nearest) * math.copysign(1.0, end) <= 0.5 * found.step
    assert found.lines[-1 if end > 0.0 else 0].log_d == pytest.approx(math.log(nearest), abs=1e-9)


@pytest.mark.parametrize("count", [3, 5, 8])
def test_however_many_readings_a_bath_thinned_between_two_has_the_same_chance(count):
    """Readings so early that nothing has moved tell no rival from another: seven, two and one in ten stay as believed.

    What speaks for a wrong reading is taken off, since none is sought in a bath thinned between two readings.
    """
    even, at_the_start, between = soak_log._CHANCES
    soak = Soak("slab", PACE, 0.5, 0.05, 0.0, 1.0)
    found = soak_log.explain(soak, BELIEVED[1], [1e-30 * (i + 1) for i in range(count)], [0.0] * count)
    later = found.thinned - found.plain * at_the_start / even
    sound = found.plain - sum(found.wrong) * (found.plain + found.thinned) * even / (even + at_the_start)
    assert later / sound == pytest.approx(between / even, rel=1e-6)


@pytest.mark.parametrize(("hours", "whole"), [([0.1, 0.2], True), ([1.0, 2.0], False)])
def test_the_grid_is_made_finer_until_the_spread_is_two_of_its_steps_and_no_further(hours, whole):
    """Two early readings decide so little that the first grid, over all that may be believed, is fine enough."""
    found = forecast.fit(SOAK, hours, [SOAK.reading(BELIEVED[1], t) for t in hours], BELIEVED)
    mean = sum(line.log_d * line.weight for line in found.lines)
    spread = math.sqrt(sum((line.log_d - mean) ** 2 * line.weight for line in found.lines))
    assert spread > 2.0 * found.step
    all_believed = math.log(BELIEVED[2] / BELIEVED[0]) + 2.0 * 2.0
    assert (found.lines[-1].log_d - found.lines[0].log_d == pytest.approx(all_believed, rel=1e-9)) is whole


def test_a_bath_may_be_thinned_at_the_start_or_half_way_between_two_readings():
    assert soak_log._starts([0.0, 1.0, 3.0, 7.0]) == [0.0, 0.5, 2.0, 5.0]


def test_a_bath_thinned_before_the_first_reading_at_hour_0_is_seen_by_that_reading_too():
    """10 % of water at the start lowers the reading taken at once like all later ones: none of them is doubtful."""
    hours = [0.0, 1, 2, 3, 4]
    readings, _ = exact(3e-10, hours, 0.1)
    found = forecast.fit(SOAK, hours, readings, BELIEVED)
    assert forecast.thinned(found) == pytest.approx(0.1, abs=0.005)
    assert forecast.diffusivity(found) == pytest.approx(3e-10, rel=0.05)
    assert forecast.doubtful(found) == 0


@pytest.mark.parametrize("count", [2, 4, 6])
def test_readings_of_plain_water_leave_a_finish_far_off(count):
    """The thinning that would explain them is all of the bath and more; a bath of no salt at all has no finish."""
    found = forecast.fit(SOAK, [0.5 * (i + 1) for i in range(count)], [0.0] * count, BELIEVED)
    assert max(line.explained.share for line in found.lines) > 0.9
    assert forecast.finishes(found, TARGET, (0.06, 0.5, 0.94)) == [math.inf] * 3  # out of reach of a tenth of 5 %
    early, middle, late = forecast.finishes(found, 0.003, (0.06, 0.5, 0.94))
    assert early < middle < late < math.inf


def test_readings_far_above_the_brine_are_no_thinned_bath():
    """Water only lowers a reading: nothing is left of that explanation, and the rest still weighs the diffusivities."""
    hours = [1.0, 2.0, 3.0]
    found = forecast.fit(SOAK, hours, [1.5 * STRENGTH] * 3, BELIEVED)
    assert all(line.explained.thinned == line.explained.share == line.explained.since == 0.0 for line in found.lines)
    early, middle, late = forecast.finishes(found, TARGET, (0.06, 0.5, 0.94))
    assert 0.0 < early < middle < late
