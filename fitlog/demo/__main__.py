"""``python -m fitlog.demo DIR`` makes the demo.

``--plain`` writes its files only, to renew demo_workspace.
"""

import sys

from fitlog.demo import make_demo, write_plain
from fitlog.records.errors import FitlogError

if __name__ == "__main__":
    places = [each for each in sys.argv[1:] if each != "--plain"]
    if len(places) != 1:
        sys.exit("error: name one folder: python -m fitlog.demo DIR [--plain]")
    try:
        if "--plain" in sys.argv:
            write_plain(places[0])
        else:
            sys.stdout.write(make_demo(places[0]).subject + "\n")
    except FitlogError as error:
        sys.exit(f"error: {error}")
