"""Whether fitlog's own files changed while the app was open.

What it has not loaded yet may not fit any more.
"""

import os
import time

CHANGED = "fitlog was changed while it was open: quit and open it again; nothing typed is lost"
_STARTED_S = time.time()


def is_changed(error: BaseException) -> bool:
    """Whether an error nobody expected comes of an upgrade."""
    return isinstance(error, ImportError) or _newest_file() > _STARTED_S


def _newest_file() -> float:
    """When fitlog's code was written last, in seconds; 0 where that is not read."""
    import fitlog

    found = 0.0
    for folder, _, names in os.walk(os.path.dirname(fitlog.__file__)):
        for name in names:
            if name.endswith(".py"):
                try:
                    found = max(found, os.path.getmtime(os.path.join(folder, name)))
                except OSError:
                    continue
    return found
