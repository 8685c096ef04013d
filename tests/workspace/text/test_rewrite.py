"""Having a file say another table in place."""

import tomllib

from fitlog.workspace.text.rewrite import rewritten, with_comments

TEXT = """\
#:schema x

season = "2026"  # the long one

[[club]]
slot = "3w"
# hit it low
length_in = 43.0

[[club]]
slot = "7i"
own = {b = 1}
"""


def test_comments_order_and_unknown_keys_stay() -> None:
    wanted = tomllib.loads(TEXT)
    wanted["club"][0]["length_in"] = 42.5
    wanted["club"].append({"slot": "52"})
    text = rewritten("bag.toml", TEXT, wanted)
    assert tomllib.loads(text) == wanted
    assert text.startswith(TEXT.replace("43.0", "42.5").rstrip())


def test_rows_go_and_the_comments_of_the_others_stay() -> None:
    wanted = tomllib.loads(TEXT)
    del wanted["club"][1]
    text = rewritten("bag.toml", TEXT, wanted)
    assert tomllib.loads(text) == wanted
    assert text.count("# hit it low") == 1


def test_comments_that_are_missing_come_at_the_end() -> None:
    text = with_comments(TEXT, ["# hit it low", "# from the other van"])
    assert text == TEXT + "\n# from the other van\n"


def test_a_club_that_was_given_an_id_is_changed_in_place() -> None:
    wanted = tomllib.loads(TEXT)
    wanted["club"][0]["id"] = "q7k"
    text = rewritten("bag.toml", TEXT, wanted)
    assert tomllib.loads(text) == wanted
    assert text.index("# hit it low") < text.index('slot = "7i"')


def test_shots_are_added_a_line_each_and_put_between_others() -> None:
    text = '[[test]]\nid = "ttt"\nshots = [\n    {id = "a", carry_yd = 1.0},\n    {id = "c", carry_yd = 3.0},\n]\n'
    shots = tomllib.loads(text)["test"][0]["shots"]
    for wanted in ([*shots, {"id": "d", "carry_yd": 4.0}], [shots[0], {"id": "b", "carry_yd": 2.0}, shots[1]], []):
        table = {"test": [{"id": "ttt", **({"shots": wanted} if wanted else {})}]}
        out = rewritten("session.toml", text, table)
        assert tomllib.loads(out) == table
        assert out.count("carry_yd") == len(wanted)
        assert len([line for line in out.splitlines() if "carry_yd" in line]) == len(wanted)


def test_what_cannot_be_changed_in_place_is_written_anew_with_its_comments() -> None:
    text = '# mine\nclub = [{slot = "3w"}, {slot = "7i"}]\n'
    wanted = {"club": [{"slot": "3w", "length_in": 43.0}], "season": "2026"}
    out = rewritten("bag.toml", text, wanted)
    assert tomllib.loads(out) == wanted
    assert "# mine" in out
