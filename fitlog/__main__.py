"""``python -m fitlog`` is ``fitlog``."""

from fitlog.cli.main import run

if __name__ == "__main__":
    run()
