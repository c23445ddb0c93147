"""A small working pattern: a front with a curved side, and half a back with the same side, on a fold."""

from django.utils import timezone

from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import Mark
from catalogue.workroom.models import User
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.working.pattern import Allowance, Pattern, PatternPiece, PatternSeam
from fitting.pattern.exchange.kept_pattern import pattern_to_kept
from fitting.pattern.models import WorkingVersion

# Half way along the curve it lies at (300 + 3 × 320 + 3 × 320 + 300) ÷ 8 = 315, 300.
FRONT = PatternPiece(
    name="front",
    outline=Outline(
        nodes=(
            Node(at=0j, edge="top"),
            Node(at=300 + 0j, edge="side", curved=True, handles=(320 + 200j, 320 + 400j)),
            Node(at=300 + 600j, edge="hem"),
            Node(at=600j, edge="centre front"),
        )
    ),
    levels={"waist": (-10 + 400j, 340 + 400j)},
    marks=(
        Mark(kind="grain", points=(100 + 100j, 100 + 500j)),
        Mark(kind="notch", points=(315 + 300j,)),
        Mark(kind="pleat", points=(200 + 550j, 200 + 600j, 220 + 550j, 220 + 600j), count=3),
    ),
    allowance=Allowance(usual_mm=10.0, by_edge={"side": 25.0}),
    cloth="outer",
)
BACK = PatternPiece(
    name="back",
    outline=Outline(
        nodes=(
            Node(at=400 + 0j, edge="top"),
            Node(at=650 + 0j, edge="centre back"),
            Node(at=650 + 600j, edge="hem"),
            Node(at=400 + 600j, edge="side", curved=True, handles=(380 + 400j, 380 + 200j)),
        )
    ),
    cut=1,
    mirrored=False,
    on_fold=True,
    levels={"waist": (370 + 400j, 660 + 400j)},
    marks=(
        Mark(kind="grain", points=(500 + 100j, 500 + 500j)),
        Mark(kind="fold", points=(650 + 0j, 650 + 600j)),
        Mark(kind="notch", points=(385 + 300j,)),
        Mark(kind="notch", points=(500 + 600j,)),
    ),
    cloth="outer",
)
SIDE_SEAM = PatternSeam(pieces=("front", "back"), edges=("side", "side"), ease_mm=0.0)
PATTERN = Pattern(pieces=(FRONT, BACK), seams=(SIDE_SEAM,))


def make_version(garment: Garment, pattern: Pattern = PATTERN, *, by: User | None = None) -> WorkingVersion:
    before = garment.pattern_versions.newest_first().first()
    return WorkingVersion.objects.create(
        garment=garment,
        wearer=garment.outfit.wearer,
        number=before.number + 1 if before else 1,
        made_from=before,
        step=WorkingVersion.START if before is None else "add",
        said="Begun from a plate, enlarged to full size." if before is None else "1/2 in added at the hem.",
        pattern=pattern_to_kept(pattern),
        made_at=timezone.now(),
        made_by=by,
    )
