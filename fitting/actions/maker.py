from collections.abc import Mapping

from django.db import transaction

from fitting.models.maker import Maker, Skill


@transaction.atomic
def save_maker(maker: Maker, *, skills: Mapping[str, str]) -> Maker:
    maker.save()
    for name, level in skills.items():
        Skill.objects.update_or_create(maker=maker, name=name, defaults={"level": level})
    return maker
