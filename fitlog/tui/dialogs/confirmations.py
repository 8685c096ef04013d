"""Actions with a plan and a reason: going back, proven, undo, hand edits."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitlog.records.wording.plurals import format_count
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.base.commands.shell_words import name_keys
from fitlog.tui.dialogs.confirm import Answer, Confirm, Option, Preview

if TYPE_CHECKING:
    from fitlog.views.workspace.broken_files import FileFault

_WHOLE_BAG = ""


def _scopes(slot: str, what: str = "the whole bag") -> list[Option]:
    return [*([Option(slot, slot)] if slot else []), Option(what, _WHOLE_BAG)]


def go_back(player: str, slot: str, commit: str) -> Confirm:
    """Put club or bag back to the last proven setup, a change or a season's end."""
    from fitlog.views.history.restore_plan import LAST_PROVEN

    places = [Option("the last proven setup", LAST_PROVEN)]
    if commit:
        places.insert(0, Option("as it was after the marked change", commit))

    def seasons_too(desk: Desk) -> Sequence[Option]:
        from fitlog.views.history.seasons import seasons

        return [
            Option(f"the end of season {each.name}", each.entry.commit)
            for each in reversed(seasons(desk, player))
            if each.entry
        ]

    def plan(desk: Desk, to: str, scope: str) -> Preview:
        from fitlog.views.history.restore_plan import plan_restore

        found = plan_restore(desk, player, [scope] if scope else [], to)
        changes = [str(each) for each in found.differences] or ["nothing would change"]
        return Preview([*changes, *found.notes], found, is_empty=not found.differences)

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.history.restore import restore

        slots = [answer.scope] if answer.scope else []
        return restore(desk, player, slots, answer.place, answer.text, answer.plan)

    return Confirm("Back to …", plan, action, places, _scopes(slot), seasons_too, draft=f"back {player}")


def mark_proven(player: str, slot: str) -> Confirm:
    """Mark the club, or all that is carried, as proven."""

    def plan(desk: Desk, _: str, scope: str) -> Preview:
        from fitlog.records.models.bag import PROVEN, find_clubs
        from fitlog.records.wording.display_units import DisplayUnits
        from fitlog.records.wording.words import describe_setup

        bag, units = desk.workspace.bag(player), DisplayUnits(desk.workspace.settings_at_hand().units)
        clubs = find_clubs(bag, scope) if scope else list(bag.carried)
        return Preview(
            [
                f"{club.address}: {describe_setup(club.raw, units)}"
                + (", proven already" if club.standing == PROVEN else "")
                for club in clubs
            ]
        )

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.history.proven import mark_proven as mark

        return mark(desk, player, [answer.scope] if answer.scope else [], answer.text)

    return Confirm("Proven: a setup to go back to", plan, action, scopes=_scopes(slot), draft=f"proven {player}")


def undo_last(player: str) -> Confirm:
    """Take back the last action done for a player, or of all where none is named."""

    def plan(desk: Desk, _: str, __: str) -> Preview:
        from fitlog.views.history.undo_plan import plan_undo

        found = plan_undo(desk, player)
        who = f"{', '.join(found.entry.players)}: " if found.entry.players and not player else ""
        lines = [
            f"takes back: {who}{found.entry.subject}",
            f"of {found.entry.when:%Y-%m-%d %H:%M}, by {found.entry.author}",
            *([found.passed_over] if found.passed_over else []),
            "",
            *map(str, found.differences),
        ]
        return Preview(lines, found.entry.commit)

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.history.undo import undo

        return undo(desk, player, plan=answer.plan)

    return Confirm("Undo the last action", plan, action, does="takes it back")


def commit_edits() -> Confirm:
    """Commit what was edited by hand."""

    def plan(desk: Desk, _: str, __: str) -> Preview:
        from fitlog.views.workspace.hand_edits import hand_edits

        edits = hand_edits(desk)
        return Preview([("left alone, broken: " if each.broken else f"{each.file}: ") + each.what for each in edits])

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.workspace.commit_edits import commit_hand_edits

        return commit_hand_edits(desk, answer.text)

    return Confirm("Save the edits by hand as an edit of their own", plan, action, draft="edits")


def put_back(broken: "Sequence[FileFault]") -> Confirm:
    """Put a broken file back to its last sound version."""
    problems = {each.file: each.problem for each in broken}

    def plan(desk: Desk, file: str, _: str) -> Preview:
        from fitlog.views.workspace.broken_files import find_last_sound

        sound = find_last_sound(desk, file)
        return Preview([problems[file], f"its last sound version is of {sound.of}", "the broken one stays beside it"])

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.workspace.put_back import put_back_sound

        done = put_back_sound(desk, answer.place)
        return SaveResult("", f"{done.file} is as it was at {done.of}; the broken one is kept as {done.copy_name}")

    places = [Option(each.file, each.file) for each in broken]
    return Confirm("Put a broken file back", plan, action, places, does="puts it back")


def check() -> Confirm:
    """All findings in files and history; Enter mends what can be mended."""

    def plan(desk: Desk, _: str, __: str) -> Preview:
        from fitlog.records.wording.display_units import DisplayUnits
        from fitlog.views.workspace.checks import check as find
        from fitlog.views.workspace.checks import history_trouble

        trouble, found = history_trouble(desk), find(desk)
        units = DisplayUnits(desk.workspace.settings_at_hand().units)
        lines = [
            found.summary,
            f"the history: {trouble or 'it can be written to'}",
            *map(str, found.problems),
            *(f"hint: {each}" for each in found.hints),
            *(f"remark: {units.sentence(str(each))}" for each in found.remarks),
        ]
        return Preview([name_keys(each) for each in lines])

    def action(desk: Desk, _: Answer) -> SaveResult:
        from fitlog.actions.workspace.repair import repair

        done = repair(desk)
        subject = f"mended: {'; '.join(done.repairs)}" if done.repairs else "there was nothing to mend"
        return SaveResult("", subject, notes=tuple(map(name_keys, done.remaining)))

    return Confirm("Check the workspace", plan, action, does="looks through the history and mends what can be mended")


_OUT = "out"


def carry(player: str, address: str, carried: bool) -> Confirm:
    """Put a club into the bag to carry, leave it at hand, or take it out of the bag."""

    def plan(desk: Desk, _: str, scope: str) -> Preview:
        if scope == _OUT:
            return Preview([f"{address} goes out of the bag; its history stays, and w and h still tell of it"])
        count = len(desk.workspace.bag(player).carried) + (1 if carried else -1)
        where = "carried" if carried else "left at hand"
        return Preview([f"{address} is {where}; {format_count(count, 'club')} carried then"])

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.bag.edit import set_carried, take_out

        if answer.scope == _OUT:
            return take_out(desk, player, address, answer.text)
        return set_carried(desk, player, address, carried, answer.text)

    ways = [Option("carry it" if carried else "leave it at hand", ""), Option("take it out of the bag", _OUT)]
    title = f"{'Carry' if carried else 'Leave at hand'}: {address}"
    return Confirm(title, plan, action, scopes=ways, draft=f"carry {player}")


def leave_out(player: str, ref: str, shot: str, described: str, is_counted: bool) -> Confirm:
    """Leave a shot out of the numbers, or count it again."""

    def plan(_: Desk, __: str, ___: str) -> Preview:
        return Preview([described, "it stays in the file with its reason" if is_counted else "it counts again"])

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.session.shots import leave_out as leave

        return leave(desk, player, ref, shot, answer.text if is_counted else "")

    title = "Leave this shot out" if is_counted else "Count this shot again"
    draft = f"out {player} {ref}" if is_counted else ""
    return Confirm(title, plan, action, draft=draft, does="" if is_counted else "counts it")


def close_season(player: str) -> Confirm:
    """Close the season that is played now."""

    def plan(desk: Desk, _: str, __: str) -> Preview:
        from fitlog.views.history.seasons import next_season

        now = desk.workspace.bag(player).season or ""
        return Preview(
            [
                f"the season now is {now or 'without a name'}",
                f"after it comes {next_season(now or '1')}, unless it is renamed later",
            ]
        )

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.history.season import close_season as close

        return close(desk, player, answer.text.strip() or desk.workspace.bag(player).season or "")

    return Confirm("Close the season", plan, action, asks="name (⏎ as it is)", must_type=False)
