"""Reads the screen and presses by name for a test that kills the program: a command a line, an answer of JSON a line.

app PID        from now on the program with this number
read           all that is said, role and name, once it holds still
press NAME     presses it
type TEXT      puts words into the field there is
go TITLE       the usual answers of a practice round until this screen comes
"""

import json
import subprocess
import sys
import time

from gi.repository import GLib

from assistive import PATIENCE, Client, Unusable, english, titled


def said(nodes):
    return [[n.role, n.name] for n in nodes if n.role not in ("frame", "filler")]


class Reader(Client):
    def __init__(self):
        self.number = None

    def program(self):
        begun = time.monotonic()
        while time.monotonic() - begun < PATIENCE:
            try:
                for app in self.applications():
                    if app.get_process_id() == self.number and app.get_child_count():
                        return app
            except GLib.Error:
                pass
            time.sleep(0.05)
        raise Unusable("the program does not appear among the applications")

    def app_with(self, number):
        self.number = int(number)
        self.take(self.program())

    def read(self):
        begun, before = time.monotonic(), None
        while time.monotonic() - begun < PATIENCE:
            now = said(self.tree())
            if now and now == before:
                return now
            before = now
            time.sleep(0.12)
        raise Unusable("the screen does not hold still")

    def type(self, text):
        for node in self.tree():
            if node.role in ("entry", "text"):
                # The bridge has no editable text: the field gets the keyboard, and the words are typed.
                node.thing.grab_focus()
                time.sleep(0.2)
                subprocess.run(["xdotool", "type", "--delay", "30", text], check=True)
                time.sleep(0.3)
                return
        raise Unusable("there is no field to type into")

    def go(self, title):
        words = english()
        screens = words["first"] + words["rest"]
        for _ in range(60):
            now = self.read()
            names = [name for role, name in now if role == "label"]
            if any(titled(name, title) for name in names):
                return now
            here = [s for s in screens if any(titled(name, s.title) for name in names)]
            if not here:
                raise Unusable(f"an unknown screen: {now}")
            self.press(here[0].press)
            self.wait_until_changed(now)
        raise Unusable(f"“{title}” never comes")

    def wait_until_changed(self, before):
        begun = time.monotonic()
        while time.monotonic() - begun < PATIENCE and said(self.tree()) == before:
            time.sleep(0.03)


def answer(reader, line):
    command, _, rest = line.strip().partition(" ")
    if command == "app":
        return reader.app_with(rest)
    if command == "read":
        return reader.read()
    if command == "press":
        return reader.press(rest)
    if command == "type":
        return reader.type(rest)
    return reader.go(rest)


if __name__ == "__main__":
    reader = Reader()
    for line in sys.stdin:
        try:
            print(json.dumps({"ok": answer(reader, line)}), flush=True)
        except (Unusable, GLib.Error) as fault:
            print(json.dumps({"fault": str(fault)}), flush=True)
