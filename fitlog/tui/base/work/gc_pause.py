"""Python's collection of dead objects, put off until nobody types.

Over the whole app it takes longer than a key may.
"""

import gc
import time

_STILL_S = 4.0
_SHORT_S = 0.3
_MANY = 20  # collections of the young since the last one of all
_SCREENS, _TOO_MANY_SCREENS = 10, 40  # closed ones: half a megabyte each


class GcPause:
    """Collects only between a person's keys, and nothing from before the start.

    Where screens are closed faster than a person rests, it collects in a shorter pause, and at last in none.
    """

    def __init__(self) -> None:
        self.last_key = time.monotonic()
        self._is_frozen = False
        self._closed_screens = 0
        gc.set_threshold(700, 10, 1_000_000)

    def note_key(self) -> None:
        """Put a collection off: a key came."""
        self.last_key = time.monotonic()

    def note_closed_screen(self) -> None:
        """Count a screen that is dead now."""
        self._closed_screens += 1
        if self._closed_screens >= _TOO_MANY_SCREENS:
            self._collect()

    def collect_when_still(self) -> None:
        """Collect, where no key came for a while and there is much to look at."""
        still_s = time.monotonic() - self.last_key
        if still_s >= _STILL_S and not self._is_frozen:
            self._is_frozen = True
            self._collect()
            gc.freeze()
        elif (still_s >= _STILL_S and gc.get_count()[2] >= _MANY) or (
            still_s >= _SHORT_S and self._closed_screens >= _SCREENS
        ):
            self._collect()

    def _collect(self) -> None:
        self._closed_screens = 0
        gc.collect()
