"""What a lay says to buy, written into the materials of its outfit."""

from django.db import transaction

from catalogue.lengths.models import TypedLength
from catalogue.plates.models.piece import Piece
from fitting.bridge.pattern_work.laid import WidthLaid
from fitting.models.lay import Lay
from fitting.outfits.models.material import Material

# Which kind of material each cloth of a plate is bought as.
KINDS = {
    Piece.Cloth.OUTER: Material.Kind.CLOTH,
    Piece.Cloth.FACING: Material.Kind.CLOTH,
    Piece.Cloth.LINING: Material.Kind.LINING,
    Piece.Cloth.INTERLINING: Material.Kind.INTERLINING,
}


def lines_for(lay: Lay) -> list[Material]:
    """The lines that it may be written into: of its kind, by the length, for its garment or for no other."""
    outfit = lay.garment.outfit
    found = outfit.materials.for_list_page().filter(kind=KINDS[lay.cloth], needed_count=None)
    return sorted(
        (one for one in found if one.garment_id in (lay.garment_id, None)),
        key=lambda one: one.garment_id is None,
    )


@transaction.atomic
def write_what_to_buy(lay: Lay, *, width: WidthLaid, into: Material | None) -> tuple[Material, str]:
    """The line, new where `into` is None, and what it needed before, as typed.

    Its width is filled in where it has none; one that is there is left as it is.
    """
    material = into or Material(
        outfit=lay.garment.outfit,
        garment=lay.garment,
        kind=KINDS[lay.cloth],
        name=f"{lay.get_cloth_display().capitalize()} cloth for {lay.garment}"[:120],
    )
    before, needed = material.needed_text, TypedLength.read(width.to_buy)
    material.needed_um, material.needed_text = needed.um, needed.text
    if material.width_um is None:
        wide = TypedLength.read(width.width_text)
        material.width_um, material.width_text = wide.um, wide.text
    material.save()
    return material, before
