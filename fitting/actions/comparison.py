from datetime import datetime

from django.db import transaction

from catalogue.workroom.models import User
from fitting.bridge.case import checksum_of, outfit_rows
from fitting.bridge.drafted import drafting_of
from fitting.bridge.origin import origin_of
from fitting.bridge.readiness import ready_case
from fitting.calculation.assessment import RULE_VERSION, assess
from fitting.exchange.answer import assessment_to_json
from fitting.models.comparison import Comparison
from fitting.outfits.models.garment import Garment


@transaction.atomic
def compare_garment(garment: Garment, *, by: User, at: datetime) -> Comparison:
    """Compare a garment's plate with its wearer, and keep what went in and what came out.

    Sentences and sums speak in the unit of `by`. Raises CannotCompare, which names what is missing.
    """
    rows = outfit_rows(garment.outfit, by=by, at=at)
    fetched = rows.garment(garment.pk)
    ready = ready_case(fetched, rows)
    assessment = assess(ready.case, system=by.system)
    return Comparison.objects.create(
        garment=garment,
        wearer=garment.outfit.wearer,
        inputs={
            "case": ready.case_json,
            "measures": origin_of(ready.used),
            "drafting": drafting_of(fetched.plate, ready.used),
        },
        inputs_checksum=checksum_of(ready.case_json),
        results=assessment_to_json(assessment, defaults_used={}, system=by.system),
        rule_version=RULE_VERSION,
        made_at=at,
        made_by=by,
    )
