"""The one clock by which files are dated.

One idea: what is written today says so, and who needs the same bytes tomorrow stops the clock: SOURCE_DATE_EPOCH, in
seconds, stands in for now, as build tools have it.
"""

from __future__ import annotations

import datetime
import os

STOPPED = "SOURCE_DATE_EPOCH"
"""The environment variable that stops the clock."""


def now() -> datetime.datetime:
    """The moment it is, to the second, with its time zone."""
    stopped = os.environ.get(STOPPED, "").strip()
    if stopped.isascii() and stopped.isdigit() and len(stopped) < 12:  # anything else is no moment
        return datetime.datetime.fromtimestamp(int(stopped), datetime.timezone.utc)
    return datetime.datetime.now(datetime.timezone.utc).astimezone().replace(microsecond=0)


def today() -> datetime.date:
    """The day it is, where the clock hangs."""
    return now().date()
