"""The evidence of a test in words."""

from fitlog.views.evidence.presentation import Presentation, present_evidence
from fitlog.views.verdict.context import test_context as context_of
from fitlog.views.verdict.evidence import assessment
from tests.report.conftest import Tried


def presented(tried: Tried) -> Presentation:
    found = assessment(tried.desk, "mo", tried.ref)
    return present_evidence(found, context_of(tried.desk, "mo", found))
