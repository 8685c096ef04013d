"""Log what a watched folder gives, and keep its files when the watching ends."""

import os
from collections.abc import Iterable
from typing import NamedTuple

from fitlog.actions.session.import_file import map_id, refuse_other_club, save_importer, source_row
from fitlog.actions.session.shots import add_shots
from fitlog.edits.tests import find_row
from fitlog.history.message import Message
from fitlog.records.models.session import ref
from fitlog.records.naming.refs import TestRef
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving, settle_shots
from fitlog.views.session.blind import hidden_in
from fitlog.views.session.folder_watch import Arrival, active_test
from fitlog.views.session.shot_file import ShotFile, source_name
from fitlog.workspace.files import read_any_file
from fitlog.workspace.layout import session_file, source_file


class LoggedArrival(NamedTuple):
    """Shots that came in: the test, its name, and whether its numbers are hidden."""

    test: str
    arrival: Arrival
    name: str = ""
    is_hidden: bool = False


def take_arrival(
    desk: Desk, player: str, arrival: Arrival, test: str = "", other_club: bool = False
) -> LoggedArrival:
    """Log new shots of a file into the active test.

    They are on disk at once and committed with the end of the test.

    Raises Refusal where no test is open, or the file names another club than the test's without ``other_club``.
    """
    player = desk.workspace.pick_player(player)
    session, record, found = active_test(desk, player, test)
    if not other_club:
        refuse_other_club(arrival.group, found.slot, arrival.path)
    where = ref(session, found.id)
    add_shots(desk, player, where, arrival.shots)
    hidden = hidden_in(record)
    return LoggedArrival(where, arrival, f"{found.slot} {hidden.name(found.id) or found.role}", hidden.has(found.id))


def keep_map(desk: Desk, file: ShotFile) -> str:
    """Keep the map confirmed for a folder, where it is new; returns its id."""
    name = map_id(desk, file)
    if not file.importer_id:
        save_importer(desk, name, file.importer)
    return name


def end_watch(desk: Desk, player: str, importer: str, arrivals: Iterable[LoggedArrival]) -> SaveResult | None:
    """End the watching: commit the shots, and keep the files that they came from.

    Returns None where nothing came in.
    """
    settle_shots(desk)
    player = desk.workspace.pick_player(player)
    sources = dict.fromkeys((each.test, each.arrival.path, each.arrival.group) for each in arrivals)
    if not sources:
        return None
    with saving(desk) as save:
        sessions = dict.fromkeys(TestRef.parse(where).session for where, _, _ in sources)
        edited = {session: save.open(session_file(player, session)) for session in sessions}
        for where, path, group in sources:
            session, test = TestRef.parse(where)
            data = read_any_file(path)
            source = source_row(source_name(path, data), os.path.basename(path), importer, group)
            document = edited[session]
            document.append(("test", find_row(document, test)[1], "sources"), source)
            save.put_bytes(source_file(player, source["file"]), data)
        for document in edited.values():
            save.put_document(document)
        names = list(dict.fromkeys(os.path.basename(path) for _, path, _ in sources))
        tests = list(dict.fromkeys(where for where, _, _ in sources))
        return save.commit(Message(f"Kept the shot file {', '.join(names)}", "import", "", [player], [], tests))
