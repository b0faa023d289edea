"""An assistive client: it goes through a practice round by names and roles, as a person with a screen reader does.

It never looks at a place on the screen. What is pressed is a name written here by hand, in the language of the screen;
what a screen must say is written beside it. The tree is read afresh each time, without a cache.

usage: assistive.py en|es first|rest    with the program running on the same session bus
`first` goes from the first screen into the soak, `rest` from the end of the soak back to today.
Writes one line of JSON: what was read. Anything that a person could not use is said on stderr and ends it with 1.
"""

import json
import subprocess
import sys
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, GLib  # noqa: E402

PATIENCE = 20.0
LISTENING = 8.0
HEM = 9


class Screen:
    """What one screen says and offers: its title, the step, the name to press, answers, further words."""

    def __init__(self, title, press, step=0, answers=(), says=()):
        self.title, self.press, self.step, self.answers, self.says = title, press, step, answers, says


def english():
    foods = ["Milk", "Chocolate milk", "Chocolate pudding", "Apple juice"]
    outcomes = ["All of it", "Some of it", "It came back up", "Would not take it"]
    first = [
        Screen("What do you want to do?", "Practice first", 0, ["Practice first", "Start with instructions"]),
        Screen(("Morning dose", "Afternoon dose", "Night dose"), "Set the table", 0, [], ["Tarn household"]),
        Screen("Does the bottle say doxycycline, 100 mg, tablet?", "Yes, the same", 1, ["Yes, the same", "No, or not sure"]),
        Screen("Spoon or syringe?", "A metal teaspoon", 1, ["A metal teaspoon", "A dose syringe"]),
        Screen("Set the table.", "Start the soak", 1, [], ["4 teaspoons (20 mL) of water into each bowl", "2 tablets"]),
    ]
    soak = Screen("Let the tablets soften.", "Crush", 2)
    rest = [
        Screen("Crush in each bowl.", "It is crushed", 3),
        Screen("Do you see any pieces?", "None", 4, ["None", "Some"]),
        Screen("Stir each bowl well.", "It is stirred", 5),
    ]
    for name, amount in (
        ("Pim", "1½ teaspoons (7.5 mL)"),
        ("Bram", "2 teaspoons (10 mL)"),
        ("Sunniva", "4 teaspoons (20 mL)"),
    ):
        rest += [
            Screen(f"Measure for {name}.", f"It is in {name}’s bowl", 6, [], [amount]),
            Screen(f"Hide the taste for {name}.", "Milk", 7, foods),
            Screen(f"Give it to {name} now.", f"I gave it to {name}", 8),
            Screen(f"Did {name} get all of it?", "All of it", 8, outcomes),
        ]
    rest += [
        Screen("Odile swallows the tablet.", "I gave it to Odile", 8, [], ["1 whole tablet"]),
        Screen("Did Odile swallow it?", "Yes, swallowed", 8, ["Yes, swallowed", "It came back up", "Would not take it"]),
        Screen("Throw away what is left in bowl 2.", "I threw it away", 9),
        Screen("Done for now.", "Back to today", 0),
    ]
    return {"step": "Step {} of 9", "left": " left", "first": first, "soak": soak, "rest": rest}


def spanish():
    foods = ["Leche", "Leche con chocolate", "Pudín de chocolate", "Jugo de manzana"]
    outcomes = ["Toda", "Una parte", "La vomitó", "No quiso tomarla"]
    first = [
        Screen("What do you want to do?", "Español", 0, ["Practice first", "Start with instructions"]),
        Screen("¿Qué quiere hacer?", "Practicar primero", 0, ["Practicar primero", "Empezar con instrucciones"]),
        Screen(("Dosis de la mañana", "Dosis de la tarde", "Dosis de la noche"), "Preparar la mesa", 0),
        Screen("¿Dice el frasco doxycycline, 100 mg, tablet?", "Sí, lo mismo", 1, ["Sí, lo mismo", "No, o no sé"]),
        Screen("¿Cuchara o jeringa?", "Una cucharita de metal", 1, ["Una cucharita de metal", "Una jeringa para dosis"]),
        Screen("Prepare la mesa.", "Empezar el remojo", 1),
    ]
    soak = Screen("Deje ablandar las pastillas.", "Aplastar", 2)
    rest = [
        Screen("Aplaste en cada tazón.", "Ya la aplasté", 3),
        Screen("¿Ve pedazos?", "Ninguno", 4, ["Ninguno", "Algunos"]),
        Screen("Revuelva bien cada tazón.", "Ya revolví", 5),
    ]
    for name, amount in (
        ("Pim", "1½ cucharaditas (7.5 mL)"),
        ("Bram", "2 cucharaditas (10 mL)"),
        ("Sunniva", "4 cucharaditas (20 mL)"),
    ):
        rest += [
            Screen(f"Mida para {name}.", f"Ya está en el tazón de {name}", 6, [], [amount]),
            Screen(f"Disimule el sabor para {name}.", "Leche", 7, foods),
            Screen(f"Désela a {name} ahora.", f"Se la di a {name}", 8),
            Screen(f"¿{name} se la tomó toda?", "Toda", 8, outcomes),
        ]
    rest += [
        Screen("Odile traga la pastilla.", "Se la di a Odile", 8, [], ["1 pastilla entera"]),
        Screen("¿Odile se tragó la pastilla?", "Sí, la tragó", 8, ["Sí, la tragó", "La vomitó", "No quiso tomarla"]),
        Screen("Bote lo que queda en el tazón 2.", "Ya lo boté", 9),
        Screen("Listo por ahora.", "Volver al inicio", 0),
    ]
    return {"step": "Paso {} de 9", "left": "Faltan ", "first": first, "soak": soak, "rest": rest}


class Unusable(Exception):
    pass


class Node:
    """One thing of the tree, as it is read out now."""

    def __init__(self, thing):
        self.thing = thing
        self.role = thing.get_role_name()
        self.name = thing.get_name()
        self.description = thing.get_description()
        self.states = thing.get_state_set()

    @property
    def pressable(self):
        return self.role in ("push button", "button", "toggle button", "list item") and self.thing.get_n_actions() > 0

    @property
    def focused(self):
        return self.states.contains(Atspi.StateType.FOCUSED)

    def __str__(self):
        return f"{self.role} “{self.name}” ({self.description})"


def read(thing, found=None):
    """All things below, in reading order; a tree that changes while it is read is read again."""
    found = [] if found is None else found
    for place in range(thing.get_child_count()):
        child = thing.get_child_at_index(place)
        if child is None:
            continue
        found.append(Node(child))
        read(child, found)
    return found


class Client:
    def __init__(self):
        self.announced = []
        listener = Atspi.EventListener.new(lambda event: self.announced.append(str(event.any_data)))
        listener.register("object:announcement")
        self.listener = listener
        self.take(self.program())

    def take(self, app):
        self.app = app
        self.app.set_cache_mask(Atspi.Cache.NONE)

    def applications(self):
        desktop = Atspi.get_desktop(0)
        apps = [desktop.get_child_at_index(place) for place in range(desktop.get_child_count())]
        return [app for app in apps if app is not None and app.get_name() == "hearthdose"]

    def program(self):
        begun = time.monotonic()
        while time.monotonic() - begun < PATIENCE:
            found = self.applications()
            if found:
                return found[0]
            time.sleep(0.1)
        raise Unusable("the program does not appear among the applications")

    def listen(self, seconds):
        """Lets what was announced arrive."""
        context, until = GLib.MainContext.default(), time.monotonic() + seconds
        while time.monotonic() < until:
            while context.iteration(False):
                pass
            time.sleep(0.02)

    def tree(self):
        for _ in range(20):
            try:
                return read(self.app)
            except GLib.Error:
                time.sleep(0.05)
        raise Unusable("the tree does not hold still")

    def wait_for(self, screen):
        begun, nodes = time.monotonic(), []
        while time.monotonic() - begun < PATIENCE:
            before, nodes = list(map(str, nodes)), self.tree()
            there = any(n.role == "label" and titled(n.name, screen.title) for n in nodes)
            # Read twice alike: a tree that is still being built is no screen yet.
            if there and before == list(map(str, nodes)):
                return nodes
            self.listen(0.1)
        raise Unusable(f"“{screen.title}” never comes; the screen says: " + "; ".join(map(str, nodes)))

    def wait_for_name(self, name):
        begun = time.monotonic()
        while time.monotonic() - begun < PATIENCE:
            for node in self.tree():
                if node.pressable and node.name == name:
                    return node
            self.listen(0.1)
        raise Unusable(f"there is nothing to press called “{name}”")

    def press(self, name):
        self.wait_for_name(name).thing.do_action(0)


def titled(said, title):
    if isinstance(title, tuple):
        return said.startswith(title)
    return said == title


def check(screen, nodes, words):
    """Names, roles, values and descriptions of one screen."""
    for node in nodes:
        if node.role in ("unknown", "invalid"):
            raise Unusable(f"“{screen.title}” has a thing without a role: {node}")
        if node.role != "filler" and not node.name and node.pressable:
            raise Unusable(f"“{screen.title}” has something to press without a name: {node.role}")
    said = [n.name for n in nodes if n.role == "label"]
    for words_wanted in screen.says:
        if words_wanted not in said:
            raise Unusable(f"“{screen.title}” does not say “{words_wanted}”: {said}")
    hems = [n for n in nodes if n.role == "progress bar"]
    if screen.step:
        wanted = words["step"].format(screen.step)
        if [h.name for h in hems] != [wanted]:
            raise Unusable(f"the hem says {[h.name for h in hems]}, not “{wanted}”")
        hem = hems[0].thing
        value, most = hem.get_current_value(), hem.get_maximum_value()
        if (value, most) != (screen.step, HEM):
            raise Unusable(f"the hem's value is {value} of {most}, not {screen.step} of {HEM}")
    elif hems:
        raise Unusable(f"“{screen.title}” is no step but has a hem")
    for answer in screen.answers:
        nodes_of = [n for n in nodes if n.pressable and n.name == answer]
        if len(nodes_of) != 1 or not nodes_of[0].description:
            raise Unusable(f"the answer “{answer}” has no name or no description: {list(map(str, nodes_of))}")


def walk_by_tab(client, screen):
    """Tab comes to every control once and then begins anew."""
    # What only opens when its time comes cannot be reached; a person is told its time by its name.
    controls = [n.name for n in client.tree() if n.pressable or n.role in ("entry", "text")]
    visited = []
    # More than there are: what lies below the fold joins the tree as the keyboard comes to it.
    for _ in range(3 * len(controls)):
        subprocess.run(["xdotool", "key", "Tab"], check=True)
        client.listen(0.06)
        focused = []
        for _ in range(10):
            focused = [n.name for n in client.tree() if n.focused and n.role != "frame"]
            if focused and focused != visited[-1:]:
                break
            client.listen(0.05)
        if len(focused) != 1:
            raise Unusable(f"after Tab on “{screen.title}” {len(focused)} things have the keyboard: {focused}")
        if focused[0] in visited:
            break
        visited += focused
    missed = [name for name in controls if name not in visited]
    return visited, missed


def listen_to_the_soak(client, screen, words):
    """The time left changes, and nobody is told each second."""
    def left():
        return [n.name for n in client.tree() if n.role == "label" and words["left"] in n.name]

    client.listen(1.0)
    client.announced.clear()
    before = left()
    client.listen(LISTENING)
    after = left()
    if not before or before == after:
        raise Unusable(f"the time left is not to be read: {before}, {LISTENING} s later {after}")
    if client.announced:
        raise Unusable(f"the countdown speaks up: {client.announced}")
    return {"left": [before, after], "announced": len(client.announced)}


def go(language, phase):
    words = {"en": english, "es": spanish}[language]()
    client, report = Client(), {"screens": [], "tabs": 0, "answers": 0}
    for screen in words[phase]:
        nodes = client.wait_for(screen)
        check(screen, nodes, words)
        visited, missed = walk_by_tab(client, screen)
        if missed:
            raise Unusable(f"Tab on “{screen.title}” comes to {visited} and misses {missed}")
        report["screens"].append(screen.title if isinstance(screen.title, str) else screen.title[0])
        report["tabs"] += len(visited)
        report["answers"] += len(screen.answers)
        client.announced.clear()
        client.press(screen.press)
    if phase == "first":
        nodes = client.wait_for(words["soak"])
        check(words["soak"], nodes, words)
        client.listen(0.5)
        # The other way round: a new screen is announced by its title.
        if not any(words["soak"].title in said for said in client.announced):
            raise Unusable(f"the new screen was not announced: {client.announced}")
        report["soak"] = listen_to_the_soak(client, words["soak"], words)
    else:
        client.wait_for(words["first"][-4])
    return report


if __name__ == "__main__":
    result, fault = None, None
    try:
        result = go(sys.argv[1], sys.argv[2])
    except Unusable as problem:
        fault = str(problem)
    if fault:
        print(fault, file=sys.stderr)
        sys.exit(1)
    print(json.dumps(result, ensure_ascii=False))
