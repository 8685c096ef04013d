"""The head and foot of a workspace's sheets: shop, logo, signature, date."""

import base64
import os
from typing import NamedTuple

from fitlog.records.errors import FitlogError, Refusal
from fitlog.saving.desk import Desk
from fitlog.workspace.files import read_bytes

LARGEST_LOGO = 512 * 1024
_TYPES = {".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".svg": "image/svg+xml"}


class Letterhead(NamedTuple):
    """The shop's name and contact, logo (a data address), signer and date.

    The logo is empty for none.
    """

    shop: str = ""
    contact: str = ""
    logo: str = ""
    signature: str = ""
    print_date: str = ""
    notes: tuple[str, ...] = ()


def letterhead(desk: Desk) -> Letterhead:
    """What the workspace's file says of the shop; ``notes`` say why a logo lacks."""
    shop = desk.workspace.settings_at_hand().shop
    notes: list[str] = []
    logo = ""
    if shop.logo:
        try:
            logo = _logo(desk, shop.logo)
        except FitlogError as error:
            notes.append(str(error))
    printed = desk.now().date().isoformat()
    return Letterhead(shop.name or "", shop.contact or "", logo, shop.signature or "", printed, tuple(notes))


def _logo(desk: Desk, name: str) -> str:
    """The logo inside the page, so that a sheet fetches nothing.

    Raises Refusal for a file that is not there, is no picture or is too large.
    """
    kind = _TYPES.get(os.path.splitext(name)[1].lower())
    if kind is None:
        raise Refusal("a logo is a picture", where=name, do="name a .png, .jpg or .svg in the workspace")
    data = read_bytes(desk.root, name)
    if data is None:
        raise Refusal("there is no such logo", where=name, do="put the file into the workspace, or correct shop.logo")
    if len(data) > LARGEST_LOGO:
        raise Refusal("the logo is larger than 512 KiB", where=name, do="make it smaller; a sheet carries it inside")
    return f"data:{kind};base64,{base64.b64encode(data).decode()}"
