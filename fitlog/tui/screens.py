"""All screens by name: the one place that knows them, for the app alone."""

from collections.abc import Callable, Mapping

from fitlog.records.naming.refs import TestRef
from fitlog.tui.base import pages
from fitlog.tui.base.page import Page
from fitlog.tui.base.pages import Target


def make_page(target: Target) -> Page:
    """Make the screen that a message asks for; its modules are imported now."""
    return _MAKERS[target.kind](target)


def _board(target: Target) -> Page:
    from fitlog.tui.board.page import Board

    return Board(target.player)


def _bag(target: Target) -> Page:
    from fitlog.tui.bag.page import BagPage

    return BagPage(target.player)


def _session(target: Target) -> Page:
    from fitlog.tui.session.page import SessionPage

    session, test = TestRef.split(target.ref)
    return SessionPage(target.player, session, test, target.slot, target.measuring)


def _verdict(target: Target) -> Page:
    from fitlog.tui.verdict.page import VerdictPage

    return VerdictPage(target.player, target.ref, target.slot)


def _timeline(target: Target) -> Page:
    from fitlog.tui.timeline.page import TimelinePage

    return TimelinePage(target.player, target.slot)


def _bench(target: Target) -> Page:
    from fitlog.tui.bench.page import BenchPage

    return BenchPage(target.player, target.ref or target.slot)


def _find(_: Target) -> Page:
    from fitlog.tui.find.page import FindPage

    return FindPage()


def _specs(target: Target) -> Page:
    from fitlog.tui.specs.page import SpecsPage

    return SpecsPage(target.player)


def _questions(target: Target) -> Page:
    from fitlog.tui.questions.page import QuestionsPage

    return QuestionsPage(target.player)


def _part(target: Target) -> Page:
    from fitlog.tui.part.page import PartPage

    return PartPage(target.ref)


_MAKERS: Mapping[str, Callable[[Target], Page]] = {
    pages.BOARD: _board,
    pages.BAG: _bag,
    pages.SESSION: _session,
    pages.VERDICT: _verdict,
    pages.TIMELINE: _timeline,
    pages.BENCH: _bench,
    pages.FIND: _find,
    pages.SPECS: _specs,
    pages.QUESTIONS: _questions,
    pages.PART: _part,
}
