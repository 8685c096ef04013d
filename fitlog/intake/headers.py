"""What a column most likely holds, by its header's words in a few languages."""

import re
import unicodedata
from functools import lru_cache

from fitlog.intake.unitwords import LONGEST_HEADER
from fitlog.records.models.importer import unit_fits

GROUP = "group"
NO_KEY = ""  # words that look like ours but mean something fitlog has no key for

# Words in one pair of commas must all stand in the header; a star stands for any ending.
_WORDS: tuple[tuple[str, str], ...] = (
    ("ball_speed_mph", "ball speed, ballspeed, ball spd, ball vel*, v0, ballgeschw*, ball geschw*, vitesse balle, "
                       "velocidad bola, velocita palla, balsnelheid, bollhastighet, boldhastighed"),
    ("head_speed_mph", "head speed, clubhead speed, club speed, swing speed, head spd, club spd, "
                       "schlagerkopfgeschw*, schlaegerkopfgeschw*, kopfgeschw*, schlagerkopf geschw*, "
                       "vitesse club, vitesse tete, velocidad palo, velocidad cabeza, velocita bastone, "
                       "clubsnelheid, klubbhastighet"),
    ("launch_deg", "launch, launch angle, launch vert*, vert* launch, la, abflug, abflugwinkel, "
                   "startwinkel, angle depart, angle decollage, angle lancement, angulo lanzamiento, angulo salida, "
                   "angolo lancio, lanceerhoek, utgangsvinkel"),
    ("direction_deg", "launch hor*, hor* launch, launch dir*, direction, start dir*, start line, azimuth*, "
                      "side angle, startrichtung, abflugrichtung, richtung, direction depart, direccion, direzione, "
                      "richting, riktning"),
    ("spin_rpm", "spin, total spin, spin total, spin rate, back spin, backspin, drall, spinrate, ruckwartsdrall, "
                 "rueckwaertsdrall, effet, efecto, rotazione, rotation"),
    ("spin_axis_deg", "spin axis, axis, drallachse, spinachse, axe, axe spin, eje, eje efecto, asse, spinas"),
    ("carry_yd", "carry, carry distance, carry dist, flug, flugweite, vol, portee, vuelo, volo, draagafstand"),
    ("total_yd", "total, total distance, total dist, gesamt*, distance totale, distancia total, distanza totale, "
                 "totale afstand"),
    ("offline_yd", "offline, off line, side, side carry, carry side, lateral, lateral*, seite, seitenabweichung, "
                   "abweichung, ecart, ecart lateral, desvio, desviacion, deviazione, zijwaarts, afwijking, sida, "
                   "sidled"),
    ("peak_height_yd", "apex, height, peak, peak height, max height, hohe, hoehe, flughohe, flughoehe, scheitel*, "
                "hauteur, altura, altezza, hoogte, hojd"),
    ("descent_deg", "landing, landing angle, land angle, descent, descent angle, landewinkel, angle chute, "
                    "angle atterrissage, angulo caida, angulo aterrizaje, angolo atterraggio, landingshoek"),
    ("time_s", "flight time, hang time, air time, flugzeit, temps vol, tiempo vuelo, tempo volo, vluchttijd"),
    ("at", "time, time day, clock, zeit, uhrzeit, heure, hora, ora, tijd, tid, klockan"),
    ("attack_deg", "attack, attack angle, angle attack, eintreffwinkel, angle attaque, angulo ataque, "
                   "angolo attacco, aanvalshoek"),
    ("path_deg", "path, club path, swing path, schwungbahn, chemin, chemin club, trayectoria, traiettoria"),
    ("face_deg", "face, face angle, face target, schlagflache, schlagflaeche, angle face, cara, angulo cara"),
    ("dynamic_loft_deg", "dynamic loft, dyn loft, dynamischer loft, loft dynamique, loft dinamico"),
    ("strike_x_mm", "heel toe, toe heel, strike x, impact x, ferse spitze, talon pointe, talon punta"),
    ("strike_y_mm", "low high, high low, strike y, impact y, tief hoch, bas haut, bajo alto"),
    ("feel", "feel, gefuhl, gefuehl, sensation, sensacion"),
    ("note", "note, notes, comment, comments, remark*, bemerkung*, kommentar*, notiz*, remarque*, commentaire*, "
             "nota"),
    (GROUP, "club, setup, set, satz, schlager, schlaeger, candidate, build, test, probe, kopf, palo, baton, bastone, "
            "klubba"),
    (NO_KEY, "side spin, sidespin, side total, total side, face path, spin loft, roll, "
              "seitendrall, carry time, spin time, club length, club loft, club lie, offline total, total offline"),
)  # fmt: skip
_SPEED_OF = {
    **dict.fromkeys(("ball", "balle", "bola", "palla", "bal", "boll", "bold"), "ball_speed_mph"),
    **dict.fromkeys(
        ("club", "head", "clubhead", "club head", "schlager", "schlaeger", "kopf", "palo", "bastone", "klubba"),
        "head_speed_mph",
    ),
}  # what is meant where the unit is one of speed
_OTHER_SIDE = r"(?:left|links|gauche|izquierda|sinistra|heel|ferse|talon|low|tief|bas|l)"
_OUR_SIDE = r"(?:right|rechts|droite|derecha|destra|toe|spitze|pointe|high|hoch|haut|r)"


def _simple(text: str) -> str:
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(each for each in apart if not unicodedata.combining(each))


def _patterns() -> list[tuple[int, int, str, tuple[str, ...]]]:
    """Every pattern, the most telling first: more words, then more letters."""
    out = []
    for key, forms in _WORDS:
        for form in forms.split(", "):
            words = tuple(form.split())
            out.append((len(words), sum(map(len, words)), key, words))
    return sorted(out, key=lambda each: (-each[0], -each[1]))


_PATTERNS = _patterns()


@lru_cache(maxsize=4096)
def key_of(header: str) -> tuple[str, int]:
    """The key that a header without its unit names, and how telling it is.

    ``group`` or nothing are possible too.

    >>> key_of("Start dir"), key_of("Ballgeschw."), key_of("Side spin"), key_of("Satz")[0]
    (('direction_deg', 209), ('ball_speed_mph', 111), ('', 0), 'group')
    """
    words = re.findall(r"[a-z0-9]+", _simple(header)) if len(header) <= LONGEST_HEADER else []
    for count, length, key, pattern in _PATTERNS:
        if all(any(_meets(word, part) for word in words) for part in pattern):
            return key, (count * 100 + length if key else 0)
    return NO_KEY, 0


def speed_of(header: str, unit: str) -> str:
    """The speed that a header such as ``Ball (mph)`` means; empty for none.

    >>> speed_of("Ball", "mph"), speed_of("Club", "km/h"), speed_of("Ball", "")
    ('ball_speed_mph', 'head_speed_mph', '')
    """
    return _SPEED_OF.get(_simple(header).strip(), "") if unit and unit_fits("ball_speed_mph", unit) else ""


def _meets(word: str, part: str) -> bool:
    return word.startswith(part[:-1]) if part.endswith("*") else word == part


def counts_other_side(header: str) -> bool:
    """Whether a header says that left, heel or low counts as positive.

    >>> counts_other_side("Seite, links + (m)"), counts_other_side("heel(-) toe(+) mm"), counts_other_side("Side")
    (True, False, False)
    """
    text = _simple(header[:LONGEST_HEADER]).replace("−", "-")
    return bool(
        re.search(rf"\b{_OTHER_SIDE}\s*(?:is|=|:)?\s*[(\[]?\s*(?:\+|pos)", text)
        or re.search(rf"\+\s*[=:]?\s*{_OTHER_SIDE}\b", text)
        or re.search(rf"\b{_OUR_SIDE}\s*(?:is|=|:)?\s*[(\[]?\s*(?:-(?!\w)|neg)", text)
    )
