"""How each route stands, what is recommended and what comes next, from the written rules alone."""

import copy
import math

from tests.oracle.figures import (
    INCH,
    WORDS,
    alterable,
    judge,
    judged,
    largest_doubt,
    likeliest,
    limits_of,
    lines_of,
    mm,
    plain_enlargement,
    verdict_of,
)

ROUTES = {
    "enlarge as drawn": 3, "enlarge and alter": 6, "enlarge and grade": 10, "drape on a stand": 8,
    "combine patterns": 7, "draft from measures": 9, "adapt a sized pattern": 4, "study only": 1,
}  # fmt: skip
SKILLS = {
    "enlarge and alter": "alter", "enlarge and grade": "grade", "drape on a stand": "drape",
    "combine patterns": "combine", "draft from measures": "draft",
}  # fmt: skip
TRUNK = ("bust", "hip", "under bust", "waist")  # the first that is there is the one to grade by
HAIR = 1e-6


def reasons_of(file, lines, route):
    """The effects of every row of the table on one route."""
    effects = []
    purpose = file.get("purpose", "this garment")
    if route == "study only":
        effects.append("for" if purpose == "study" else "out")
    elif purpose == "study":
        effects.append("out")
    if route.startswith("enlarge"):
        effects += _of_enlargement(file, lines, route, purpose)
    skill = file.get("skills", {}).get(SKILLS.get(route), "not asked")
    effects += {"none": ["out"], "learning": ["against"]}.get(skill, [])
    if route == "drape on a stand":
        effects += _of_stand(file, lines)
    if route == "combine patterns" and not file.get("patterns_in_hand"):
        effects.append("out")
    if route == "adapt a sized pattern" and not file.get("patterns_in_hand"):
        effects.append("against")
    if route == "draft from measures":
        effects.append("against")  # a file has no catalogue, and so no draft
    days = ROUTES[route] / file.get("hours_a_day", 2)
    if "days_left" in file and days > file["days_left"] + 1e-9:
        effects.append("against")
    return effects


def _of_enlargement(file, lines, route, purpose):
    effects = ["against"] if purpose == "period look" else []
    compared = [line for line in lines if line["chances"]]
    is_known = file.get("seam_allowance", {}).get("drawn", "none") != "not known"
    if not compared or not is_known:
        effects.append("out")
    seams = file.get("seams", {})
    total, unknown = sum(seams.values()), seams.get("unknown", 0)
    if unknown:
        effects.append("out" if unknown / total > 0.25 else "against")
    if not compared or not is_known:
        return effects
    fits = min(line["chances"]["fits"] for line in judged(lines))
    can_alter = min(map(alterable, judged(lines)))
    as_drawn = fits >= 0.75 or (can_alter >= 0.75 and all(likeliest(one) == "fits" for one in judged(lines)))
    if route == "enlarge as drawn":
        effects.append("for" if as_drawn else "out" if fits < 0.25 else "against")
    elif route == "enlarge and alter":
        if can_alter >= 0.75:
            effects.append("against" if as_drawn else "for")
        else:
            effects.append("out" if can_alter < 0.25 else "against")
    else:
        effects += _of_alike(file, lines) + (["against"] if can_alter >= 0.75 else [])
    return effects


def _of_alike(file, lines):
    off = {
        one["name"]: one["difference_mm"]
        for one in lines
        if one["fit"] == "fitted" and one["kind"] == "girth"
    }
    trunk = [off[level] for level in TRUNK if level in off]
    if not trunk:
        return []
    effects, (_, add, take_off) = [], limits_of(file)["girth"]
    remains = [one - trunk[0] for one in trunk[1:]] or [0.0]
    one_sign = min(remains) >= -HAIR or max(remains) <= HAIR
    if not one_sign and max(map(abs, remains)) > 1.5 * INCH + HAIR:
        within = -add - HAIR <= min(remains) and max(remains) <= take_off + HAIR
        effects.append("against" if within else "out")
    largest = max(map(abs, trunk))
    if largest > 4 * INCH + HAIR:
        effects.append("out" if largest > 6 * INCH + HAIR else "against")
    return effects


def _of_stand(file, lines):
    stand = file.get("stand", {}).get("girths")
    if not stand:
        return ["against"]
    over = [
        (mm(stand[one["name"]]) - one["body_mm"], one)
        for one in lines
        if one["name"] in stand and one["chances"]
    ]
    larger = any(
        mm_over > limits_of(file)["girth"][0] + HAIR for mm_over, one in over if one["fit"] == "fitted"
    )
    return (["out"] if larger else []) + (["against"] if any(one < -HAIR for one, _ in over) else [])


def routes_of(file, lines):
    standings, spoken_for = {}, set()
    for route in ROUTES:
        effects = reasons_of(file, lines, route)
        standings[route] = "ruled out" if "out" in effects else "against" if "against" in effects else "open"
        if "for" in effects:
            spoken_for.add(route)
    opened = [route for route in ROUTES if standings[route] == "open"]
    against = [route for route in ROUTES if standings[route] == "against"]
    chosen = [route for route in opened if route in spoken_for] or opened or against
    return standings, min(chosen, key=lambda route: ROUTES[route], default=None)


def next_of(file, lines, recommended):
    """The kind of the next step: each is tried on the figures."""
    study = file.get("purpose") == "study"
    if not study and not any(line["chances"] for line in lines):
        return "read"
    if not study and file.get("seam_allowance", {}).get("drawn") == "not known":
        return "allowance"

    def other(changed=None, told=lines):
        return routes_of(changed or file, told)[1] != recommended

    skill = SKILLS.get(recommended)
    if skill and skill not in file.get("skills", {}):
        changed = copy.deepcopy(file)
        changed.setdefault("skills", {})[skill] = "none"
        if other(changed):
            return "skill"
    if file.get("seams", {}).get("unknown") and other(file | {"seams": {}}):
        return "miniature"
    for at, line in enumerate(lines):
        if line["chances"]:
            finer = judge(dict(line, u_mm=largest_doubt(line)["u_mm_with_finer_rule"]))
            if other(told=[*lines[:at], finer, *lines[at + 1 :]]):
                return "finer rule"
    return "toile" if _would_a_toile_tell(lines, other) else "act"


def _would_a_toile_tell(lines, other):
    if any(line["verdict"] == "too small" and line["kind"] == "girth" for line in lines):
        return False
    unsettled = [
        at for at, line in enumerate(lines)
        if line in judged(lines) and line["verdict"] in ("within altering", "too close to call")
    ]  # fmt: skip
    all_fit = list(lines)
    for at in unsettled:
        all_fit[at] = settled(lines[at], "fits")
        for word, chance in lines[at]["chances"].items():
            if chance > 0.05 and other(told=[*lines[:at], settled(lines[at], word), *lines[at + 1 :]]):
                return True
    return other(told=all_fit)


def settled(line, word):
    """The line known to lie in a region, as near to where it was read as can be."""
    fits, add, off = line["limits"]
    at = WORDS[line["kind"]].index(word)
    least, most = ((-math.inf, -add), (-add, -fits), (-fits, fits), (fits, off), (off, math.inf))[at]
    difference = min(max(line["difference_mm"], least + 0.001), most - 0.001)
    certain = dict.fromkeys(line["chances"], 0.0) | {word: 1.0}
    settled_line = dict(line, difference_mm=difference, u_mm=0.0, chances=certain)
    return settled_line | {"verdict": verdict_of(settled_line)}


def assess(file):
    drawn = file.get("seam_allowance", {}).get("drawn", "none")
    lines = lines_of(file, 0.0 if drawn in ("none", "not known") else mm(drawn))
    standings, recommended = routes_of(file, lines)
    return {
        "lines": lines,
        "if_included": lines_of(file, INCH / 2) if drawn == "not known" else None,
        "plain_enlargement": plain_enlargement(lines),
        "standings": standings,
        "recommended": recommended,
        "next": next_of(file, lines, recommended),
    }
