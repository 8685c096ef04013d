"""Take every picture of the README anew into ``.pictures/``, or into the folder that is named."""

import sys
from pathlib import Path

from tests.pictures.recording import make_recording
from tests.pictures.stills import draw_stills

PICTURES = Path(__file__).parents[2] / ".pictures"


def main(folder: Path = PICTURES) -> None:
    """Draw the stills, then the recording."""
    folder.mkdir(parents=True, exist_ok=True)
    draw_stills(folder)
    make_recording(folder)


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:]))
