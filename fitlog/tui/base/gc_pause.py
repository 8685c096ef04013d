"""Python's collection of dead objects, when nobody types: over the whole app it takes longer than a key may."""

import gc
import time

_STILL_S = 4.0
_MANY = 20  # collections of the young since the last one of all


class GcPause:
    """Collects all only between a person's keys; what stands after the start is not looked at again."""

    def __init__(self) -> None:
        self.last_key = time.monotonic()
        self._begun = False
        gc.set_threshold(700, 10, 1_000_000)

    def note_key(self) -> None:
        """Put a collection off: a key came."""
        self.last_key = time.monotonic()

    def collect_when_still(self) -> None:
        """Collect, where no key came for a while and there is much to look at."""
        if time.monotonic() - self.last_key < _STILL_S:
            return
        if not self._begun:
            self._begun = True
            gc.collect()
            gc.freeze()
        elif gc.get_count()[2] >= _MANY:
            gc.collect()
