#!/usr/bin/python3
"""Whole days of work at the real program, by keys and clicks; what came of them is read in the book's journal.

Runs on a private display with assistive technology on: A11Y=1 tests/windows/with_display.sh tests/driven/days_of_work.py
FOREDAY_PROGRAM and FOREDAY_MAKE_BOOK say where the program is and what makes a book.
"""
import json
import os
import re
import sqlite3
import subprocess
import tempfile
import time
import unittest

from person import Person, Role, picture, text_of, wait_for

PROGRAM = os.environ["FOREDAY_PROGRAM"]
MAKE_BOOK = os.environ["FOREDAY_MAKE_BOOK"]

NURSE = ("Nurse Ilse Marrack", "nurse")
SECOND_NURSE = ("Nurse Ansgar Leith", "nurse")
PHYSICIAN = ("Dr Teodor Wexcombe", "endoscopist")
THE_CALL = "2027-06-11T09:00"  # six days before the session
THE_DAY = "2027-06-17T09:10"   # fifty minutes before it

# What a healthy patient says. The beginning of a question is enough; every other yes-or-no question is answered with no.
SAYS_YES = (
    "Can you tell me in your own words", "Is sedation booked", "Do you decide about your own medical treatment",
    "Could you drink two litres", "Do you know what you take your blood thinner for", "Can you get onto a bed", "Who will come in person to take you home",
)
TYPES = {
    "How tall are you": "172 cm", "How much do you weigh": "70 kg", "How many minutes does the journey": "25 min",
    "From the laboratory letter: creatinine": "0.9 mg/dL", "From the laboratory letter: eGFR": "92",
}
MEASURES = {"INR": "1.1", "pulse": "72", "oxygen": "98", "fever": "36.6", "upper": "124", "lower": "78",
            "sugar": "110", "blood pressure": "124"}


def value_for(name, table):
    for beginning, value in table.items():
        if beginning.lower() in name.lower():
            return value
    raise AssertionError(f"no value is prepared for “{name}”")


class DaysOfWork(unittest.TestCase):
    maxDiff = None

    def setUp(self):
        self.folder = tempfile.TemporaryDirectory(prefix="day")
        self.addCleanup(self.folder.cleanup)
        self.book = os.path.join(self.folder.name, "unit.foreday")

    # --- the book ---

    def make_book(self, *case):
        made = subprocess.run([MAKE_BOOK, self.book, *case], check=True, capture_output=True, text=True)
        self.case = made.stdout.strip()

    def entries(self, after=0):
        """What the journal says of the case after a number: (number, kind, said, who)."""
        with sqlite3.connect(f"file:{self.book}?mode=ro", uri=True) as store:
            rows = store.execute("select number, kind, payload, who from journal where subject = ? and number > ? "
                                 "order by number", (self.case, after)).fetchall()
        return [(number, kind, json.loads(payload)["said"], who) for number, kind, payload, who in rows]

    def kinds(self, after=0):
        return [kind for _, kind, _, _ in self.entries(after)]

    def last_number(self):
        entries = self.entries()
        return entries[-1][0] if entries else 0

    def comes(self, kind, after):
        """Waits for an entry of the kind; gives what it says."""
        def last():
            found = [said for _, one, said, _ in self.entries(after) if one == kind]
            return found[-1:] or None
        try:
            return wait_for(last, lambda: f"an entry “{kind}” after {self.kinds(after)}")[0]
        except AssertionError:
            picture("what did not come: " + kind)
            raise

    def verify(self):
        done = subprocess.run([PROGRAM, "book", "verify", self.book], capture_output=True, text=True)
        self.assertEqual(0, done.returncode, done.stdout + done.stderr)

    # --- people ---

    def sits_down(self, who, at):
        person = Person(PROGRAM, self.book, at, *who)
        self.addCleanup(person.stop)
        return person

    def takes_in_hand(self, person, name):
        person.press("Control", "t")
        wait_for(lambda: person.focused().get_name() == "Patients", "the focus on the list")
        person.press("Home")
        person.press("Return")
        person.reads(name)
        wait_for(lambda: "No patient is in hand" not in person.words(), "a patient in hand")

    def unasked(self, person):
        """The questions of the section that nobody has asked yet, with the control that answers each."""
        questions, control, name = [], None, None
        for part in person.parts():
            words = part.get_name() or ""
            if words.startswith("Not known: "):
                name = words[len("Not known: "):]
            elif name is not None:
                if (text_of(part) or words).startswith("Not asked yet."):
                    questions.append((name, control))
                control = name = None
            elif part.get_role() in (Role.PUSH_BUTTON, Role.COMBO_BOX, Role.TEXT, Role.ENTRY):
                if words.startswith("No: "):
                    continue
                control = (part.get_role(), words)
        return questions

    def answers(self, person, question, control, by_mouse):
        before = self.last_number()
        role, name = control
        if name.startswith("Yes: "):
            yes = question.startswith(SAYS_YES)
            if by_mouse:
                person.click(("Yes: " if yes else "No: ") + question)
            else:
                person.focus(name)
                person.press("y" if yes else "n")
        elif role == Role.COMBO_BOX:
            # The first of the choices is "none"; the arrow opens them and answers nothing by itself.
            person.focus("Not known: " + question)
            person.press("Shift", "Tab")
            person.press("Down")
            wait_for(lambda: any(part.get_role() == Role.MENU_ITEM for part in person.parts()), "the choices")
            self.assertEqual(before, self.last_number(), "looking through the choices answers nothing")
            person.press("Home")
            person.press("Return")
        else:
            person.fill(question, value_for(question, TYPES), role)
            person.press("Return")
        self.comes("answer", before)
        wait_for(lambda: question not in [one for one, _ in self.unasked(person)],
                 lambda: f"“{question}” to be answered in\n{person.words()}")

    def asks_everything(self, person):
        """Goes through all sections of the call; the answers of every second section are given by mouse."""
        section = 0
        while not re.search(r"every\s+question\s+is\s+asked", person.words()):
            while True:
                left = self.unasked(person)
                if not left:
                    break
                question, control = left[0]
                self.answers(person, question, control, by_mouse=section % 2 == 1)
            before = person.words()
            person.press("Alt", "x")
            wait_for(lambda: person.words() != before, "the next section")
            section += 1
            self.assertLess(section, 40, person.words())

    def closes_the_list(self, person):
        boxes = [part.get_name() for part in person.parts() if part.get_role() == Role.CHECK_BOX]
        self.assertGreater(len(boxes), 3)
        for name in boxes:
            person.focus(name, Role.CHECK_BOX)
            person.press("space")
        before = self.last_number()
        person.press("Alt", "p")
        self.comes("list closed", before)

    def adds_warfarin(self, person):
        before = self.last_number()
        person.fill("Medicine, as the patient says it", "warfrin")
        person.press("Tab")
        wait_for(lambda: person.focused().get_name().startswith("Which medicine is meant"), "the candidates")
        person.press("Home")
        person.fill("Times of day", "18:00")
        person.fill("Taken for", "atrial fibrillation")
        person.press("Alt", "a")
        self.assertEqual("warfarin", self.comes("medicine added", before)["medicine"]["medicine"])

    def calls(self, person, medicine=None):
        """The whole first call, up to the telling page."""
        self.takes_in_hand(person, "Orla Finch")
        person.click("Record this try: Reached")
        self.comes("try", 0)
        if medicine is not None:
            person.press("Control", "PageDown")
            medicine(person)
            person.press("Control", "PageUp")
            wait_for(lambda: person.has("Section of the call"), "the page of the call")
        self.asks_everything(person)
        picture("the call")
        person.press("Control", "PageDown")
        wait_for(lambda: person.has("Medicine, as the patient says it"), "the page of the medicines")
        self.closes_the_list(person)
        picture("the medicines")
        person.press("Control", "PageDown")
        wait_for(lambda: person.has("The patient's sheet"), "the page of the telling")

    def tells(self, person):
        before = self.last_number()
        person.press("Alt", "r")
        told = self.comes("told", before)
        person.press("Alt", "b")
        self.comes("said back", before)
        return told

    def unmet(self, person):
        return [part.get_name()[len("Call a clinician about: "):] for part in person.parts()
                if (part.get_name() or "").startswith("Call a clinician about: ")]

    def goes_through_the_checklist(self, person, measures=None):
        """Answers every item that is not shown yet: yes, or the value that was measured."""
        values = dict(MEASURES, **(measures or {}))
        for title in self.unmet(person):
            if title not in self.unmet(person):
                continue  # one value serves two items: neither too high nor too low
            before = self.last_number()
            if person.has("Yes: " + title):
                person.focus("Yes: " + title)
                person.press("space")
                self.comes("readiness item confirmed", before)
            elif person.has("Enter: " + title):
                person.fill(title + ", ", value_for(title, values), Role.TEXT)
                person.press("Return")
                self.comes("measure", before)

    def says_what_was_taken(self, person):
        before = self.last_number()
        person.fill("Time of the last food or drink", "05:30")
        person.fill("What it was", "water")
        person.click("Write down this food or drink")
        self.comes("intake", before)
        person.click("No other food or drink")
        self.comes("nothing else taken", before)

    # --- the days ---

    def test_from_the_first_call_to_going_in(self):
        self.make_book()
        person = self.sits_down(NURSE, THE_CALL)
        self.calls(person)
        before = self.last_number()
        person.press("Alt", "l")
        self.comes("clearance given", before)
        told = self.tells(person)
        picture("told")
        person.leave()
        with sqlite3.connect(f"file:{self.book}?mode=ro", uri=True) as store:
            self.assertEqual(1, store.execute("select count(*) from documents where hash = ?", (told["sheet"],)).fetchone()[0],
                             "the sheet that was told is kept")

        person = self.sits_down(NURSE, THE_DAY)
        person.press("Control", "3")
        self.takes_in_hand(person, "Orla Finch")
        before = self.last_number()
        person.press("Control", "r")
        self.comes("arrival", before)
        person.press("Control", "g")
        person.reads("Not done. ")
        self.assertNotIn("gone in", self.kinds())
        self.says_what_was_taken(person)
        self.goes_through_the_checklist(person)
        person.reads("May go in")
        picture("may go in")
        person.press("Control", "g")
        self.comes("gone in", before)
        person.leave()
        self.assertEqual({NURSE[0]}, {who for _, kind, _, who in self.entries() if kind != "booking made"})
        self.verify()

    def test_a_case_that_needs_a_physicians_signature(self):
        self.make_book()
        person = self.sits_down(NURSE, THE_CALL)
        self.calls(person, self.adds_warfarin)
        before = self.last_number()
        person.press("Alt", "l")
        person.reads("Not done. ")
        self.assertNotIn("clearance given", self.kinds(before), "a nurse does not clear what a clinician decides")
        person.leave()

        person = self.sits_down(PHYSICIAN, "2027-06-11T13:00")
        self.takes_in_hand(person, "Orla Finch")
        agree = [part.get_name() for part in person.parts() if (part.get_name() or "").startswith("Agree ")]
        self.assertTrue(any("arfarin" in name for name in agree), agree)
        for name in agree:
            person.focus(name)
            person.press("space")
            wait_for(lambda: person.has(name.replace("Agree ", "Take back ", 1)), f"“{name}” taken")
        picture("the physician agrees")
        person.press("Control", "l")
        self.comes("clearance given", before)
        signed = [said["decided"]["item"] for _, kind, said, who in self.entries(before)
                  if kind == "decision signed" and who == PHYSICIAN[0]]
        self.assertEqual(len(agree), len(signed))
        self.assertIn("hold:m1", signed)
        person.leave()

        person = self.sits_down(NURSE, "2027-06-11T14:00")
        self.takes_in_hand(person, "Orla Finch")
        person.press("Control", "PageDown")
        wait_for(lambda: person.has("Medicine, as the patient says it"), "the page of the medicines")
        person.press("Control", "PageDown")
        person.reads("Nothing on it is open.")
        picture("the sheet after the signature")
        self.assertEqual(["hold:m1"], [one["item"] for one in self.tells(person)["holds"]])
        person.leave()
        self.verify()

    def test_refused_at_arrival_and_before_a_physician(self):
        self.make_book("arriving_with_inr_1_7.yaml")
        person = self.sits_down(NURSE, "2027-06-15T08:40")
        person.press("Control", "3")
        self.takes_in_hand(person, ", born ")
        before = self.last_number()
        person.press("Control", "r")
        self.comes("arrival", before)
        self.says_what_was_taken(person)
        self.goes_through_the_checklist(person, {"INR": "1.7"})
        picture("the INR is too high")
        person.press("Control", "g")
        person.reads("Not done. ")
        person.click("Call a clinician about: INR below the limit")
        person.reads("Who is called?")
        person.press("Return")
        person.reads("What is said to them?")
        person.press("Return")
        self.comes("escalated", before)
        person.press("Control", "g")
        person.reads("Not done. ")
        self.assertNotIn("gone in", self.kinds())
        person.leave()
        self.verify()

    def test_killed_in_the_middle_of_the_call_nothing_is_lost(self):
        self.make_book()
        person = self.sits_down(NURSE, THE_CALL)
        self.takes_in_hand(person, "Orla Finch")
        answered = []
        for question, control in self.unasked(person)[:4]:
            self.answers(person, question, control, by_mouse=False)
            answered.append(question)
        half = self.unasked(person)[0][1][1]
        person.focus(half)
        person.press("n")
        person.kill()
        self.verify()
        entries = [said for _, kind, said, _ in self.entries() if kind == "answer"]
        self.assertIn(len(entries), (len(answered), len(answered) + 1), "the last key is in the book whole, or not at all")

        person = self.sits_down(NURSE, THE_CALL)
        self.takes_in_hand(person, "Orla Finch")
        left = [question for question, _ in self.unasked(person)]
        for question in answered:
            self.assertNotIn(question, left)
        person.leave()

    def test_two_windows_on_one_case_see_each_other(self):
        self.make_book()
        one = self.sits_down(NURSE, THE_CALL)
        self.takes_in_hand(one, "Orla Finch")
        two = self.sits_down(SECOND_NURSE, THE_CALL)
        self.takes_in_hand(two, "Orla Finch")
        question, control = self.unasked(two)[0]
        self.answers(two, question, control, by_mouse=False)
        wait_for(lambda: question not in [asked for asked, _ in self.unasked(one)],
                 "the first window to show what the second wrote", 15)
        self.assertIn(SECOND_NURSE[0], [who for _, kind, _, who in self.entries() if kind == "answer"])
        two.leave()
        one.leave()
        self.verify()


if __name__ == "__main__":
    unittest.main(verbosity=2)
