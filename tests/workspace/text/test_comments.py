"""The comments of a file, each with the value it belongs to."""

import tomllib

from hypothesis import given, settings

from fitlog.workspace.text.comments import (
    ABOVE,
    BEHIND,
    CLOSING,
    FOOT,
    HEAD,
    OPENING,
    CommentedText,
    Place,
    comment_words,
)
from tests.workspace.any_bag import bags

TEXT = """\
# head

# above
a = 1  # behind
b = [  # opening
    # first
    "# no comment",  # item
    2
    # closing
]
# header
[c] # table
d = '''
# no comment
'''
# foot
"""
PLACES = {
    HEAD: ["# head"],
    Place(("a",), ABOVE): ["# above"],
    Place(("a",), BEHIND): ["# behind"],
    Place(("b",), OPENING): ["# opening"],
    Place(("b", 0), ABOVE): ["# first"],
    Place(("b", 0), BEHIND): ["# item"],
    Place(("b",), CLOSING): ["# closing"],
    Place(("c",), ABOVE): ["# header"],
    Place(("c",), BEHIND): ["# table"],
    FOOT: ["# foot"],
}


def test_every_comment_has_its_place() -> None:
    assert CommentedText(TEXT).at_places() == PLACES


def test_comments_are_put_where_they_were_taken_from() -> None:
    bare = CommentedText(TEXT).with_comments({})
    assert comment_words(bare) == []
    assert tomllib.loads(bare) == tomllib.loads(TEXT)
    assert CommentedText(CommentedText(bare).with_comments(PLACES)).at_places() == PLACES


def test_two_comments_share_the_end_of_a_line_and_stand_under_one_another_elsewhere() -> None:
    both = {Place(("a",), ABOVE): ["# above", "# new"], Place(("a",), BEHIND): ["# behind", "# new"]}
    text = CommentedText(TEXT).with_comments({**PLACES, **both})
    assert "# above\n# new\na = 1  # behind  # new\n" in text


def test_a_place_inside_a_line_takes_none() -> None:
    text = CommentedText('a = ["x", "y"]\nb = {c = 1}\n')
    assert not any(map(text.takes, (Place(("a", 0), BEHIND), Place(("a", 0), ABOVE), Place(("b", "c"), BEHIND))))
    assert text.takes(Place(("b",), BEHIND))


@settings(max_examples=100)
@given(bags())
def test_any_layout_can_be_stripped_and_commented_anew(text: str) -> None:
    there = CommentedText(text).at_places()
    assert CommentedText(text).with_comments(there) == text
    bare = CommentedText(text).with_comments({})
    assert comment_words(bare) == []
    assert tomllib.loads(bare) == tomllib.loads(text)
    again = CommentedText(bare).with_comments(there)
    assert tomllib.loads(again) == tomllib.loads(text)
    assert sorted(comment_words(again)) == sorted(comment_words(text))
