from django.db import transaction
from django.db.models import Max

from catalogue.measuring.seam_order import ProposedSeam
from catalogue.models.piece import Piece
from catalogue.models.plate import Plate
from catalogue.models.seam import Seam
from catalogue.photographs.actions import PictureNotes, SentPicture, add_photos
from catalogue.references.calculation import CuttingList
from catalogue.workroom.index.filing import refiled


@transaction.atomic
def keep_plate(*, plate: Plate, picture: SentPicture | None, notes: PictureNotes) -> Plate:
    """Save the plate; a picture sent with it becomes a photograph of its garment."""
    if picture:
        [plate.picture] = add_photos(reference=plate.reference, pictures=[picture], notes=notes)
    with refiled(plate.reference):
        plate.save()
    return plate


@transaction.atomic
def start_pieces(*, plate: Plate, cutting_list: CuttingList) -> list[Piece]:
    """Add the usual pieces of a kind of garment after those that the plate has."""
    first = next_place(plate)
    with refiled(plate.reference):
        return [
            Piece.objects.create(
                plate=plate, order=order, name=usual.name, cut=usual.cut, on_fold=usual.on_fold
            )
            for order, usual in enumerate(cutting_list.pieces, start=first)
        ]


def next_place(plate: Plate) -> int:
    return (plate.pieces.aggregate(last=Max("order"))["last"] or 0) + 1


@transaction.atomic
def take_seams(*, plate: Plate, proposed: list[ProposedSeam], evidence: str) -> list[Seam]:
    """Write the seams that a maker ticked, known in the way that the maker says."""
    return [
        Seam.objects.create(
            plate=plate,
            piece_a_id=seam.piece_a.key,
            edge_a=seam.edge_a,
            piece_b_id=seam.piece_b.key,
            edge_b=seam.edge_b,
            evidence=evidence,
        )
        for seam in proposed
    ]
