"""What the Verdict screen says."""


def test_what_will_change_hangs_together_where_it_is_wrapped() -> None:
    from fitlog.history.differences import Difference
    from fitlog.tui.verdict.text import offer_lines
    from fitlog.views.verdict.preview import Offer

    message = "shaft Gorse 70 → Osier 75; measured frequency 269 cpm → none; notes softer at the butt than the other"
    offer = Offer("keep", (Difference("3w", message),), ())
    rows = [row.plain for row in offer_lines(offer, 44)]
    assert max(map(len, rows)) <= 44
    change = rows[1 : next(n for n, row in enumerate(rows) if row.startswith("test"))]
    assert change[0].startswith("bag   3w      shaft")
    assert all(row.startswith(" " * 14) for row in change[1:])
    assert " ".join(" ".join(change).split()).endswith("softer at the butt than the other")
