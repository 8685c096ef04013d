"""Git's id of bytes, as git itself gives it."""

from __future__ import annotations

import subprocess

from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.history.plumbing.blob import hash_blob


@settings(max_examples=10)
@given(st.binary())
def test_it_is_the_id_that_git_gives(data: bytes) -> None:
    said = subprocess.run(["git", "hash-object", "--stdin"], input=data, capture_output=True, check=True)
    assert hash_blob(data) == said.stdout.decode().strip()


def test_in_a_repository_of_long_ids_it_is_long() -> None:
    # the empty blob's SHA-256 id, as git's own documentation of the hash transition and git itself give it
    assert hash_blob(b"", wide=True) == "473a0f4c3be8a93681a267e3b1e9a7dcda1185436fe141f7749120a303721813"
