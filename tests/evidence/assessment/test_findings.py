"""What an assessment holds, as plain data."""

import json

from fitlog.evidence.assessment.assess import assess
from fitlog.evidence.assessment.findings import METHOD, plain
from tests.evidence.assessment.clubs import BAG, NEW, WANTED


def test_it_is_plain_json() -> None:
    found = plain(assess([*NEW, {"carry_yd": 90.0, "excluded": "topped"}], BAG, WANTED))
    back = json.loads(json.dumps(found, allow_nan=False))
    assert back == found
    assert back["method"] == METHOD
    assert back["without"]["criteria"][0]["criterion"] == {
        "metric": "carry_yd",
        "kind": "at_least",
        "limit": 245.0,
        "share": 0.0,
    }
    assert back["with_all"]["compared"]["carry_yd"]["difference"]["n"] == 11
    assert back["summaries"]["carry_yd"]["left_out"] == 1
