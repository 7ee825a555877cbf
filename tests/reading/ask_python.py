"""Answers questions about clocks and calendars from Python's own library: one line in, one line out.

  wall ZONE EPOCH          the wall clock then, with its offset
  moments ZONE LOCAL       "one E", "two E E", or "none E" with the moment of the change that skips it
  elapsed FROM TO          seconds between two times with offsets
  days DATE COUNT          the date that many days on
  months DATE COUNT        the same day that many months on, or the last of the month
  years BIRTH DATE         birthdays passed; 1 March stands in for 29 February
"""
import calendar
import sys
from datetime import date, datetime, timedelta, timezone
from functools import lru_cache
from zoneinfo import ZoneInfo

zone_of = lru_cache(maxsize=None)(ZoneInfo)


def offset_at(zone, epoch):
    return datetime.fromtimestamp(epoch, zone).utcoffset()


def wall(zone, epoch):
    return datetime.fromtimestamp(int(epoch), zone_of(zone)).isoformat(timespec="minutes")


def moments(zone, local):
    zone = zone_of(zone)
    naive = datetime.fromisoformat(local)
    readings = [int(naive.replace(tzinfo=zone, fold=fold).timestamp()) for fold in (0, 1)]
    real = sorted({e for e in readings if datetime.fromtimestamp(e, zone).replace(tzinfo=None) == naive})
    if real:
        return " ".join([["one", "two"][len(real) - 1], *map(str, real)])
    before, after = min(readings), max(readings)
    while after - before > 1:
        middle = (before + after) // 2
        if offset_at(zone, middle) == offset_at(zone, before):
            before = middle
        else:
            after = middle
    return f"none {after}"


def elapsed(first, last):
    return str(int((datetime.fromisoformat(last) - datetime.fromisoformat(first)).total_seconds()))


def days(day, count):
    return (date.fromisoformat(day) + timedelta(days=int(count))).isoformat()


def months(day, count):
    day = date.fromisoformat(day)
    year, month = divmod(day.year * 12 + day.month - 1 + int(count), 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1])).isoformat()


def birthday(birth, year):
    leap_day = (birth.month, birth.day) == (2, 29)
    return date(year, 3, 1) if leap_day and not calendar.isleap(year) else birth.replace(year=year)


def years(birth, day):
    birth, day = date.fromisoformat(birth), date.fromisoformat(day)
    return str(sum(birthday(birth, year) <= day for year in range(birth.year + 1, day.year + 1)))


answers = {f.__name__: f for f in (wall, moments, elapsed, days, months, years)}
for line in sys.stdin:
    name, *words = line.split()
    print(answers[name](*words))
