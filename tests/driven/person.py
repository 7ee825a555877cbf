"""Somebody before the real program: keys and clicks go in, and what assistive technology is told comes out.

Every name, value and text read here is one that a screen reader would read; nothing is taken from the program's inside.
"""
import os
import signal
import subprocess
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, GLib  # noqa: E402

Role, State = Atspi.Role, Atspi.StateType

SOON = 6.0  # seconds within which a thing happens on a busy machine; a wait ends as soon as it has happened

# Keys of the X keyboard that are held while another is pressed.
HELD = {"Control": 37, "Alt": 64, "Shift": 50}
KEYS = {
    "Tab": 0xFF09, "Return": 0xFF0D, "Escape": 0xFF1B, "Home": 0xFF50, "Up": 0xFF52, "Down": 0xFF54,
    "End": 0xFF57, "PageUp": 0xFF55, "PageDown": 0xFF56, "space": 0x20,
}


def wait_for(true, what, seconds=SOON):
    """The first value of true() that counts as true. AssertionError, saying what was waited for, when there is none."""
    end = time.monotonic() + seconds
    context = GLib.MainContext.default()
    while True:
        while context.iteration(False):
            pass
        try:
            value = true()
            if value:
                return value
        except GLib.Error:
            pass  # what was looked at is gone: look again
        if time.monotonic() > end:
            raise AssertionError(f"waited {seconds:.0f} s for: {what() if callable(what) else what}")
        time.sleep(0.01)


def parts_under(thing):
    """All that is shown under a thing, it included, in the order in which it is read out."""
    if thing is None:
        return
    states = thing.get_state_set()
    if thing.get_role() != Role.APPLICATION and not states.contains(State.SHOWING):
        return
    yield thing
    if thing.get_role() in (Role.TABLE, Role.TREE_TABLE):
        return  # rows are asked for one by one
    for place in range(thing.get_child_count()):
        yield from parts_under(thing.get_child_at_index(place))


def text_of(thing):
    if "Text" not in thing.get_interfaces():
        return ""
    return Atspi.Text.get_text(thing, 0, Atspi.Text.get_character_count(thing))


class Person:
    """At a window of the program, signed in."""

    def __init__(self, program, book, at, name, role):
        self.process = subprocess.Popen([program, "desks", book, "--at", at, "--name", name, "--role", role],
                                        stderr=subprocess.PIPE, text=True)
        self.program = wait_for(self._on_the_bus, "the program among those that assistive technology knows", 20)
        wait_for(lambda: self.words(), "something to read in the window")

    def _on_the_bus(self):
        desktop = Atspi.get_desktop(0)
        for place in range(desktop.get_child_count()):
            one = desktop.get_child_at_index(place)
            if one is not None and one.get_process_id() == self.process.pid and one.get_child_count() > 0:
                return one
        assert self.process.poll() is None, self.process.stderr.read()
        return None

    # --- what is there ---

    def parts(self):
        return list(parts_under(self.program))

    def words(self):
        """Every text and name that is shown, one a line."""
        lines = []
        for part in self.parts():
            lines.append(text_of(part) or part.get_name() or "")
        return "\n".join(line for line in lines if line)

    def reads(self, words):
        """Waits until the words can be read somewhere in the window."""
        wait_for(lambda: words in self.words(), lambda: f"“{words}” to be read in\n{self.words()}")

    def has(self, name, role=None):
        return self._find(name, role) is not None

    def _find(self, name, role=None):
        for part in self.parts():
            if (part.get_name() or "").startswith(name) and (role is None or part.get_role() == role):
                return part
        return None

    def find(self, name, role=None):
        return wait_for(lambda: self._find(name, role), lambda: f"a control named “{name}” in\n{self.words()}")

    def _focused(self):
        for part in self.parts():
            if part.get_state_set().contains(State.FOCUSED) and part.get_role() not in (Role.FRAME, Role.LIST_ITEM):
                return part
        return None

    def focused(self):
        return wait_for(self._focused, "a control with the focus")

    # --- what the hands do ---

    def press(self, *keys):
        """press("Control", "g"), press("Return"): the last key, with those before it held."""
        for held in keys[:-1]:
            Atspi.generate_keyboard_event(HELD[held], None, Atspi.KeySynthType.PRESS)
        key = keys[-1]
        Atspi.generate_keyboard_event(KEYS.get(key) or ord(key), None, Atspi.KeySynthType.SYM)
        for held in reversed(keys[:-1]):
            Atspi.generate_keyboard_event(HELD[held], None, Atspi.KeySynthType.RELEASE)

    def type(self, words):
        Atspi.generate_keyboard_event(0, words, Atspi.KeySynthType.STRING)

    def click(self, name, role=None):
        """A click of the mouse in the middle of a control, which is first brought into view as Tab would."""
        control = self.find(name, role)
        if control.get_state_set().contains(State.FOCUSABLE):
            control.grab_focus()
        box = self._settled(control)
        Atspi.generate_mouse_event(box.x + box.width // 2, box.y + box.height // 2, "b1c")

    def _settled(self, control):
        """Where a control is, once it has come to rest."""
        seen = []

        def rests():
            box = control.get_extents(Atspi.CoordType.SCREEN)
            seen.append((box.x, box.y, box.width, box.height))
            time.sleep(0.03)
            return box if len(seen) > 1 and seen[-1] == seen[-2] and box.y >= 0 else None

        return wait_for(rests, "a control to come to rest")

    def focus(self, name, role=None):
        """Puts the focus on the first control of that name that can have it; a label of the same name cannot."""
        def find():
            return next((part for part in self.parts()
                         if (part.get_name() or "").startswith(name) and (role is None or part.get_role() == role)
                         and part.get_state_set().contains(State.FOCUSABLE)), None)
        control = wait_for(find, lambda: f"a control named “{name}” in\n{self.words()}")
        control.grab_focus()
        wait_for(lambda: control.get_state_set().contains(State.FOCUSED), f"the focus on “{name}”")
        return control

    def fill(self, name, words, role=None):
        """Types into the field of that name."""
        self.focus(name, role)
        self.type(words)

    # --- its end ---

    def kill(self):
        """As when the power fails: the program has no word in it."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    def leave(self):
        """Quits by key. AssertionError where the program ends badly or complained."""
        self.press("Control", "q")
        try:
            _, complaints = self.process.communicate(timeout=20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            raise AssertionError("the program did not end on Ctrl+Q")
        assert self.process.returncode == 0, f"ended with {self.process.returncode}: {complaints}"
        assert not complaints.strip(), complaints

    def stop(self):
        """For the end of a test that failed."""
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        self.process.stderr.close()


def picture(name):
    """Leaves a picture of the display under the test output, where a program for it is installed."""
    folder = os.environ.get("FOREDAY_PICTURES")
    if folder and subprocess.run(["which", "import"], capture_output=True).returncode == 0:
        os.makedirs(folder, exist_ok=True)
        subprocess.run(["import", "-window", "root", os.path.join(folder, name + ".png")], check=True)
