#!/usr/bin/python3
"""How long the window takes to open, and what memory it holds. A measurement, no test.

A11Y=1 tests/windows/with_display.sh tests/driven/first_paint.py PROGRAM BOOK MOMENT
From the start of the program until assistive technology is told of the filled list, which is after the first paint; the
memory is what /proc says is resident, and the part of it that is the program's own.
"""
import statistics
import sys
import time

from person import Person, Role, wait_for

OPENINGS = 9


def resident(pid):
    kib = {}
    with open(f"/proc/{pid}/status", encoding="utf-8") as status:
        for line in status:
            name, _, rest = line.partition(":")
            if name in ("VmRSS", "RssAnon"):
                kib[name] = int(rest.split()[0])
    return kib["VmRSS"] / 1024, kib["RssAnon"] / 1024


def main():
    program, book, moment = sys.argv[1:4]
    opened, memory, own, taken = [], [], [], []
    for _ in range(OPENINGS):
        begun = time.monotonic()
        person = Person(program, book, moment, "Ilse Marrack", "nurse")
        person.find("Patients", Role.TABLE)
        opened.append((time.monotonic() - begun) * 1000)
        person.press("Control", "t")
        wait_for(lambda: person.focused().get_name() == "Patients", "the focus on the list")
        person.press("Home")
        begun = time.monotonic()
        person.press("Return")
        person.find("Section of the call", Role.COMBO_BOX)
        taken.append((time.monotonic() - begun) * 1000)
        whole, part = resident(person.process.pid)
        memory.append(whole)
        own.append(part)
        person.leave()
        person.stop()
    for what, values, unit in (("window open and its list filled", opened, "ms"), ("a case taken in hand", taken, "ms"),
                               ("resident memory", memory, "MB"), ("of it the program's own", own, "MB")):
        print(f"{what}: median {statistics.median(values):.0f} {unit}, from {min(values):.0f} to {max(values):.0f}")


main()
