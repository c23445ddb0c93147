"""Makers of rows for tests: each gives the smallest true thing, and takes what the test cares about.

In every access test stand `keeper`, `maker` and `reader` of one workroom, and `stranger`, keeper of another.
"""

import datetime
from dataclasses import dataclass
from typing import Any

from django.urls import reverse
from django.utils import timezone

from catalogue.lengths.calculation.lengths import parse_length, to_um
from catalogue.photographs.models import Photo
from catalogue.plates.models.piece import Piece, Reading
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.tracing.models import Calibration, PlateScan, TracedPiece
from catalogue.workroom.actions.members import invite
from catalogue.workroom.models import Member, User, Workroom
from catalogue.workroom.models.one_time import Invitation
from catalogue.workroom.sign_in import make_sign_in_address
from fitting.comparing.calculation.assessment import RULE_VERSION
from fitting.comparing.models import Comparison, RouteChoice
from fitting.dossier.models import Dossier
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternInHand
from fitting.planning.models import Task
from fitting.wearers.models import Measures, Stand, Take, Wearer
from tests.makers.cases import kept_answer
from tests.makers.long_work import NOON, make_work


@dataclass(frozen=True, slots=True, kw_only=True)
class People:
    workroom: Workroom
    keeper: User
    maker: User
    reader: User
    stranger: User


def make_people() -> People:
    workroom = Workroom.objects.create(name="Attic table")
    people = {}
    for role in Member.Role.values:
        people[role] = User.objects.create_user(username=role, password="a long enough word")
        Member.objects.create(workroom=workroom, user=people[role], role=role)
    stranger = User.objects.create_user(username="stranger", password="a long enough word")
    Member.objects.create(
        workroom=Workroom.objects.create(name="Other house"), user=stranger, role=Member.Role.KEEPER
    )
    return People(workroom=workroom, stranger=stranger, **people)


def one_time_path(user: User, *, by: User | None = None) -> str:
    """Where `user`, of one workroom, signs in once; made just now by a keeper, or on the machine itself."""
    return make_sign_in_address(member=user.memberships.get(), by=by, at=timezone.now())


def make_invitation(workroom: Workroom, *, by: User, **given) -> tuple[Invitation, str]:
    """And the path at which it is opened."""
    invitation = Invitation(**{"workroom": workroom, "made_by": by, "name": "Ines", **given})
    return invitation, reverse("invitation-open", args=[invite(invitation, at=timezone.now())])


def um(text: str) -> int:
    return to_um(parse_length(text, signed=True))


def make_source(workroom: Workroom, **given) -> Source:
    return Source.objects.create(**{"workroom": workroom, "title": "Cut and Cloth, a notebook", **given})


def make_reference(workroom: Workroom, **given) -> ReferenceGarment:
    return ReferenceGarment.objects.create(
        **{"workroom": workroom, "name": "back-laced bodice", "kind": "bodice", **given}
    )


def make_plate(reference: ReferenceGarment, **given) -> Plate:
    return Plate.objects.create(
        **{"reference": reference, "ratio": "1:8", "allowance": Plate.AllowanceKind.NONE, **given}
    )


def make_piece(plate: Plate, name: str = "front", readings: dict[str, str] | None = None, **given) -> Piece:
    piece = Piece.objects.create(**{"plate": plate, "name": name, "order": plate.pieces.count() + 1, **given})
    for line, text in (readings or {}).items():
        Reading.objects.create(piece=piece, line=line, reading_um=um(text), reading_text=text)
    return piece


def make_photo(reference: ReferenceGarment, **given) -> Photo:
    """The row alone, without its files."""
    stem = f"photo{reference.photos.count() + 1}of{reference.pk}"
    return Photo.objects.create(
        **{"reference": reference, "stem": stem, "width": 600, "height": 800, "caption": "front", **given}
    )


def make_scan(plate: Plate, **given) -> tuple[PlateScan, Calibration]:
    """A scan and a calibration of half a millimetre to the pixel, ready: the rows alone, without tiles."""
    size = {"width": 1200, "height": 900}
    scan = PlateScan.objects.create(**{"plate": plate, "stem": f"scan{plate.pk}", **size, **given})
    calibration = Calibration.objects.create(
        scan=scan,
        number=1,
        way=Calibration.Way.BAR,
        given={"points": [], "lengths": {}},
        matrix=[[0.5, 0, 0], [0, 0.5, 0], [0, 0, 1]],
        relative_doubt=0.004,
        worst_doubt=0.004,
        left_mm=0,
        top_mm=0,
        mm_per_px=0.5,
        made_at=NOON,
        **size,
    )
    make_work(scan)
    make_work(calibration)
    return scan, calibration


def make_traced(piece: Piece) -> TracedPiece:
    """A rectangle of 200 by 400 pixels, of which a side is named."""
    corners = [(100, 100), (300, 100), (300, 500), (100, 500)]
    nodes = [{"x": x, "y": y, "corner": True, "curved": False, "edge": ""} for x, y in corners]
    nodes[1]["edge"] = "side seam"
    return TracedPiece.objects.create(piece=piece, nodes=nodes)


def make_bodice_plate(workroom: Workroom) -> Plate:
    """Front cut twice and a back on the fold, as in the worked case of the assessment format."""
    plate = make_plate(make_reference(workroom))
    make_piece(plate, "front", {"waist": "3/4 in", "bust": "1 1/8 in"})
    make_piece(plate, "back", {"waist": "5/8 in", "bust": "1 in"}, cut=1, on_fold=True)
    return plate


def make_draft_plate(workroom: Workroom) -> Plate:
    """For half a bust of 18 in, by its figures: 36 in at the bust, 28 at the waist of which 4 are plain."""
    plate = make_plate(
        make_reference(workroom, name="draft of a bodice"),
        kind=Plate.Kind.DRAFT,
        drawn_for_line="bust",
        drawn_for_um=um("18 in"),
        drawn_for_text="18 in",
        scale_kind=Plate.ScaleKind.FIGURES,
    )
    make_piece(plate, "front", {"bust": "9 in", "waist": "7 in"})
    make_piece(plate, "back", {"bust": "9 in", "waist": "5 in"})
    make_piece(plate, "gusset", {"waist": "2 in"}).readings.update(is_plain=True)
    return plate


def make_wearer(workroom: Workroom, **given) -> Wearer:
    return Wearer.objects.create(**{"workroom": workroom, "name": "Ottilie", **given})


def make_measures(wearer: Wearer, takes: dict[str, str] | None = None, **given) -> Measures:
    measures = Measures.objects.create(
        **{
            "wearer": wearer,
            "state": Measures.State.OVER_STAYS,
            "taken_on": datetime.date(2026, 11, 2),
            **given,
        }
    )
    for line, text in (takes or {"waist": "25 in", "bust": "33 in"}).items():
        Take.objects.create(measures=measures, line=line, value_um=um(text), value_text=text)
    return measures


def make_outfit(workroom: Workroom, **given) -> Outfit:
    return Outfit.objects.create(**{"workroom": workroom, "name": "Visiting dress", **given})


def make_garment(outfit: Outfit, **given) -> Garment:
    return Garment.objects.create(
        **{"outfit": outfit, "name": "bodice", "order": outfit.garments.count() + 1, **given}
    )


def make_comparison(garment: Garment, **given) -> Comparison:
    """A stored row with figures of its own; what is in it was not reckoned."""
    wearer = garment.outfit.wearer
    inputs = {"measures": {"girths": {"waist": "25 in"}}}
    results = kept_answer(waist={"body_mm": 635.0})
    return Comparison.objects.create(
        **{
            "garment": garment,
            "wearer": wearer,
            "inputs": inputs,
            "inputs_checksum": "0" * 64,
            "results": results,
            "rule_version": RULE_VERSION,
            "made_at": NOON,
            **given,
        }
    )


def make_route_choice(garment: Garment, **given) -> RouteChoice:
    return RouteChoice.objects.create(
        **{"garment": garment, "route": "enlarge and alter", "chosen_at": NOON, **given}
    )


def make_stand(workroom: Workroom, **given) -> Stand:
    return Stand.objects.create(**{"workroom": workroom, "name": "Small stand", **given})


def make_pattern(workroom: Workroom, **given) -> PatternInHand:
    return PatternInHand.objects.create(
        **{"workroom": workroom, "name": "Plain sleeve", "parts": "sleeve", **given}
    )


def make_task(outfit: Outfit, **given) -> Task:
    return Task.objects.create(**{"outfit": outfit, "name": "sew", "estimate_hours": 4, **given})


def make_entry(outfit: Outfit, **given) -> LogEntry:
    return LogEntry.objects.create(
        **{"outfit": outfit, "text": "Eyelets worked.", "day": NOON.date(), **given}
    )


def make_log_photo(entry: LogEntry, **given) -> LogPhoto:
    """The row alone, without its files."""
    stem = f"log{entry.photos.count() + 1}of{entry.pk}"
    return LogPhoto.objects.create(**{"entry": entry, "stem": stem, "width": 600, "height": 800, **given})


def make_material(outfit: Outfit, **given) -> Material:
    return Material.objects.create(**{"outfit": outfit, "name": "white linen", **given})


def make_dossier(outfit: Outfit, work: dict[str, Any] | None = None, **given) -> Dossier:
    """A dossier that is ready, or as its `work` says: the row alone, without its file."""
    row = {"outfit": outfit, "wearer": outfit.wearer, "asked_at": NOON, **given}
    dossier = Dossier.objects.create(**row)
    make_work(dossier, **(work or {}))
    return dossier
