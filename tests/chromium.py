"""A page in a headless Chromium, driven over its debugging pipe: what it shows, asks for and prints."""

import base64
import fcntl
import json
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run",
    "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage", "--remote-debugging-pipe",
    "--proxy-server=http://127.0.0.1:9",  # the discard port: nothing but this machine itself is reached
)  # fmt: skip
LONGEST_S = 30.0
_LAUNCH = (
    "import os, sys; os.dup2(int(sys.argv[1]), 3); os.dup2(int(sys.argv[2]), 4); os.execv(sys.argv[3], sys.argv[3:])"
)
_HIGH = 60  # file numbers well above 3 and 4, which the browser reads and writes


class OpenPage:
    """One page of one browser, closed with it."""

    def __init__(self, folder: Path, url: str, width: int, height: int, dark: bool = False) -> None:
        assert CHROMIUM is not None
        ours_in, theirs_out = os.pipe()
        theirs_in, ours_out = os.pipe()
        own = (f"--user-data-dir={folder}", f"--window-size={width},{height}")
        colour = f"--blink-settings=preferredColorScheme={0 if dark else 1}"
        high = [fcntl.fcntl(each, fcntl.F_DUPFD, _HIGH) for each in (theirs_in, theirs_out)]
        self.process = subprocess.Popen(
            [sys.executable, "-c", _LAUNCH, *map(str, high), CHROMIUM, *FLAGS, *own, colour, "about:blank"],
            pass_fds=high, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        for each in (theirs_in, theirs_out, *high):
            os.close(each)
        self._in, self._out, self._left, self._number = ours_in, ours_out, b"", 0
        self.events: list[dict[str, Any]] = []
        target = next(each for each in self.call("Target.getTargets")["targetInfos"] if each["type"] == "page")
        to = {"targetId": target["targetId"], "flatten": True}
        self.session = self.call("Target.attachToTarget", **to)["sessionId"]
        self.call("Network.enable")
        self.go(url)

    def go(self, url: str) -> None:
        """Open another page in its place, with what it asks for counted anew."""
        self.events.clear()
        self.call("Page.navigate", url=url)

    def set_size(self, width: int, height: int) -> None:
        """The size of the window's inside, in CSS pixels."""
        size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False}
        self.call("Emulation.setDeviceMetricsOverride", **size)

    def set_dark(self, dark: bool) -> None:
        """What the reader likes, light or dark."""
        wish = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        self.call("Emulation.setEmulatedMedia", features=[wish])

    def set_print(self, on: bool) -> None:
        """Whether the page is drawn as it is printed, in light colours; a wish for dark ones is forgotten."""
        self.call("Emulation.setEmulatedMedia", media="print" if on else "", features=[])

    def print(self) -> bytes:
        """The page as PDF, on the paper that it asks for."""
        return base64.b64decode(self.call("Page.printToPDF", preferCSSPageSize=True)["data"])

    @property
    def requested(self) -> list[str]:
        """What the page and its parts asked for since it was opened, itself among it."""
        self.ask("0")  # what happened before has been reported when this is answered
        sent = [each["params"] for each in self.events if each["method"] == "Network.requestWillBeSent"]
        return [str(each["request"]["url"]) for each in sent]

    def call(self, method: str, **params: Any) -> Any:
        """One command and its answer; events in between are kept."""
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": params}
        if hasattr(self, "session"):
            message["sessionId"] = self.session
        os.write(self._out, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._read()
            if answer.get("id") == self._number:
                assert "error" not in answer, answer
                return answer["result"]
            if "method" in answer:
                self.events.append(answer)

    def _read(self) -> Any:
        while b"\0" not in self._left:
            got = os.read(self._in, 1 << 16)
            assert got, "the browser is gone"
            self._left += got
        one, _, self._left = self._left.partition(b"\0")
        return json.loads(one)

    def ask(self, expression: str) -> Any:
        """The value of an expression in the page."""
        return self.call("Runtime.evaluate", expression=expression, returnByValue=True)["result"].get("value")

    def wait_for(self, expression: str) -> float:
        """Wait until an expression of the page is true; returns the seconds it took."""
        start = time.monotonic()
        while not self.ask(expression):
            assert time.monotonic() - start < LONGEST_S, self.ask("document.body.innerText")
            time.sleep(0.02)
        return time.monotonic() - start

    def picture(self, path: str) -> None:
        """Write what is seen as a PNG."""
        made = self.call("Page.captureScreenshot", format="png")
        Path(path).write_bytes(base64.b64decode(made["data"]))

    def close(self) -> None:
        """End the browser."""
        os.close(self._out)
        os.close(self._in)
        self.process.terminate()
        self.process.wait(20)
