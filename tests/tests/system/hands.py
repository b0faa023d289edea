"""Hands that do what they are told, by names: each argument is one thing, done when the screen is ready for it.

usage: hands.py WORD...    with the program running on the same session bus
  wait:TITLE   until a label of the screen begins like this
  press:NAME   what is called so
  type:TEXT    into the field that has the keyboard, as a scanner does, with Enter at the end
"""

import subprocess
import sys
import time

import assistive


def title(client, wanted):
    begun = time.monotonic()
    while time.monotonic() - begun < assistive.PATIENCE:
        nodes = client.tree()
        if any(node.role == "label" and node.name.startswith(wanted) for node in nodes):
            return
        client.listen(0.1)
    raise assistive.Unusable(f"“{wanted}” never comes; the screen says: " + "; ".join(map(str, nodes)))


def focus(client):
    """The keyboard is in the field, as it is when the screen comes up."""
    begun = time.monotonic()
    while time.monotonic() - begun < assistive.PATIENCE:
        for node in client.tree():
            if node.role in ("entry", "text", "text box"):
                if node.focused:
                    return
                node.thing.grab_focus()
        client.listen(0.1)
    raise assistive.Unusable("no field takes the keyboard: " + "; ".join(map(str, client.tree())))


def main(words):
    client = assistive.Client()
    for word in words:
        what, _, said = word.partition(":")
        if what == "wait":
            title(client, said)
        elif what == "press":
            client.press(said)
        elif what == "type":
            focus(client)
            subprocess.run(["xdotool", "type", "--delay", "2", said], check=True)
            subprocess.run(["xdotool", "key", "Return"], check=True)
        else:
            raise assistive.Unusable(f"what is “{word}”?")
    client.listen(0.5)


if __name__ == "__main__":
    try:
        main(sys.argv[1:])
    except assistive.Unusable as problem:
        print(problem, file=sys.stderr)
        sys.exit(1)
