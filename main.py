"""Pins to Seams: open the app, or print the alteration list of a fitting file.

From this folder:

    python main.py                    opens the app
    python main.py plan FILE ...      prints the list; no screen is needed
"""

import os
import sys

USAGE = """\
Pins to Seams: what was pinned at a fitting, and which seams to take in or let out.

python main.py                        open the app
python main.py --folder FOLDER        open the app on another folder of clients
python main.py plan FILE [--help]     print the alteration list of a fitting file
python main.py sheet FILE OUT.pdf [--help]
                                      the list as a sheet to print; --strips adds move strips
python main.py history FILE OUT.csv   every measurement over time, as a table

python main.py export FILE [--help]   write clients and photos to a bundle (.zip)
python main.py import FILE [--help]   bring in a bundle or a fitting file
python main.py backup TO [--help]     write everything to a folder
python main.py restore FILE [--help]  put everything back from a backup
python main.py check [--help]         read everything, and say what is wrong
python main.py passcode set|change|remove [--help]
                                      seal the clients under a passcode, or open them
"""

KEEPING = ("export", "import", "backup", "restore", "check", "passcode")
"""What is done with the clients as they are kept, without the screen."""

NOT_UNDERSTOOD = 2
NO_DISPLAY = 3


def main(words: list[str]) -> int:
    """Do what the command line says; the list is printed without loading any screen."""
    if words[:1] == ["plan"]:
        from core.command import main as plan

        return plan(words[1:])
    if words[:1] == ["sheet"]:
        from core.sheet.command import main as sheet

        return sheet(words[1:])
    if words[:1] == ["history"]:
        from core.client.history_csv import main as history

        return history(words[1:])
    if words[:1] and words[0] in KEEPING:
        from core.store.command import main as keep

        return keep(words)
    if words in (["--help"], ["-h"]):
        print(USAGE, end="")
        return 0
    if words and not (len(words) == 2 and words[0] == "--folder"):
        print(f"Not understood: {' '.join(words)}\n\n{USAGE}", end="", file=sys.stderr)
        return NOT_UNDERSTOOD
    return open_app(words[1] if words else None)


def open_app(folder: str | None) -> int:
    from screens.display import NoDisplay
    from screens.opening import run

    try:
        run(folder)
    except NoDisplay as trouble:
        print(trouble, file=sys.stderr)
        return NO_DISPLAY
    return 0


def run(words: list[str]) -> int:
    """Do it, and end quietly where nobody reads the rest (``| head``)."""
    try:
        code = main(words)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    return code


if __name__ == "__main__":
    sys.exit(run(sys.argv[1:]))
