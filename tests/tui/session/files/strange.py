"""Shot files, known and strange, and the keys that lead to one."""

from pathlib import Path

from tests.tui.driving import Hands

STRANGE = "Nro;Kantama;Sivu;Pallo\n1;200,5;-3,0;66,2\n2;203,0;4,5;66,9\n"


KNOWN = "shot,carry (yd),offline (yd),ball speed (mph)\n1,231.5,4 L,148\n2,229,2 R,147\n"


async def to_the_file(hands: Hands, path: Path) -> None:
    await hands.press("d", "escape", "down", "s", "ctrl+f", "ctrl+u")
    await hands.type(str(path.relative_to(Path.cwd())))
    await hands.press("enter")
