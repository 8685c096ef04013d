"""How tests and clubs are named, there and back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.errors import UsageError
from fitlog.records.naming import refs

IDS = st.text("abcdefghjkmnpqrstvwxyz23456789-", min_size=1)


@given(session=IDS, test=IDS)
def test_a_test_is_named_there_and_back(session: str, test: str) -> None:
    named = refs.TestRef(session, test)
    assert refs.TestRef.parse(str(named)) == refs.TestRef.split(str(named)) == named


@given(slot=IDS, club=st.one_of(st.just(""), IDS))
def test_a_club_is_named_there_and_back(slot: str, club: str) -> None:
    named = refs.ClubRef(slot, club)
    assert refs.ClubRef.parse(str(named)) == named
    assert ("#" in str(named)) == bool(club)


@pytest.mark.parametrize("text", ["", "2026-04-18-q7k", "2026-04-18-q7k#", "#b4t"])
def test_half_a_name_of_a_test_is_refused_in_words(text: str) -> None:
    with pytest.raises(UsageError, match="does not name a test; write SESSION#TEST"):
        refs.TestRef.parse(text)
