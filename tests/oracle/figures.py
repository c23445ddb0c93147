"""The figures of an assessment reckoned a second time, from the written rules alone.

Nothing of the product is imported. Files are read as they stand; lengths are in inches and centimetres.
"""

import math
from fractions import Fraction

INCH = 25.4


def mm(text):
    """“−1 1/2 in”, “3.2 cm”."""
    number, unit = text.replace("−", "-").strip().rsplit(" ", 1)
    sign = -1 if number.startswith("-") else 1
    parts = number.lstrip("-").split()
    return sign * float(sum(map(Fraction, parts)) * Fraction({"in": "25.4", "cm": "10"}[unit]))


def phi(z):
    return math.erfc(-z / math.sqrt(2)) / 2


def scale_of(file):
    scale = file["scale"]
    return float(scale["ratio"][2:]) if "ratio" in scale else mm(scale["real"]) / mm(scale["page"])


def fastened(file, name, level):
    width = file.get("fastening", {}).get(name, "0 in")
    return mm(width if isinstance(width, str) else width.get(level, "0 in"))


def u2_of(parts):
    return sum(parts.values())


def girth(file, level, allowance_mm):
    """The girth, its drawn cloth, and each part of u² by the path of its input."""
    k, division = scale_of(file), mm(file.get("rule_division", "1/16 in"))
    drawing = mm(file.get("drawing_doubt", "1/16 in"))
    drawn = seams = 0.0
    parts = {"drawing_doubt": 0.0}
    for number, piece in enumerate(file["pieces"]):
        if level not in piece["readings"]:
            continue
        m = piece.get("cut", 2) * (2 if piece.get("on_fold") else 1)
        taken = mm(piece.get("take_up", {}).get(level, "0 in"))
        drawn += m * k * (mm(piece["readings"][level]) - taken)
        seams += m * piece.get("edges", 1 if piece.get("on_fold") else 2) * allowance_mm
        parts[f"pieces[{number}].readings.{level}"] = (m * k * division) ** 2 / 6 * (2 if taken else 1)
        parts["drawing_doubt"] += (m * drawing) ** 2
    parts["scale.relative_doubt"] = (file["scale"].get("relative_doubt", 0.005) * drawn) ** 2
    beside = fastened(file, "lacing_gap", level) - fastened(file, "overlap", level) - seams
    return drawn + beside, drawn, parts


def length(file, line, allowance_mm):
    k, of_line = scale_of(file), file["lengths"][line]
    drawn = k * mm(of_line["reading"])
    parts = {
        f"lengths.{line}.reading": (k * mm(file.get("rule_division", "1/16 in"))) ** 2 / 6,
        "drawing_doubt": mm(file.get("drawing_doubt", "1/16 in")) ** 2,
        "scale.relative_doubt": (file["scale"].get("relative_doubt", 0.005) * drawn) ** 2,
    }
    return drawn - of_line.get("crossed_ends", 0) * allowance_mm, drawn, parts


def doubts_of(measures):
    doubt, own = mm(measures.get("doubt", "3/8 in")), measures.get("length_doubt")
    if own is None:
        own = "1/4 in" if "doubt" not in measures or doubt > INCH / 4 else measures["doubt"]
    return {"girth": ("measures.doubt", doubt), "length": ("measures.length_doubt", mm(own))}


def limits_of(file):
    given = file.get("limits", {})
    add = mm(given.get("add", "3 in"))
    if "edges_that_may_take" in given:
        add = min(add, given["edges_that_may_take"] * mm(given.get("per_edge", "1/2 in")))
    alter = mm(given.get("length_alter", "1 1/2 in"))
    return {
        "girth": (mm(given.get("fits", "1/2 in")), add, mm(given.get("take_off", "3 in"))),
        "length": (mm(given.get("length_fits", "3/8 in")), alter, alter),
    }


WORDS = {
    "girth": ("too small", "add", "fits", "take off", "too large"),
    "length": ("too small", "lengthen", "fits", "shorten", "too large"),
}


def chances_of(line):
    fits, add, off = line["limits"]
    d, u = line["difference_mm"], line["u_mm"]
    small, tight = phi((-add - d) / u), phi((-fits - d) / u)
    easy, wide = (1.0, 1.0) if line["fit"] == "loose" else (phi((fits - d) / u), phi((off - d) / u))
    return dict(
        zip(WORDS[line["kind"]], (small, tight - small, easy - tight, wide - easy, 1 - wide), strict=True)
    )


def likeliest(line):
    chances = line["chances"]
    best = max(round(chance, 9) for chance in chances.values())
    return "fits" if round(chances["fits"], 9) == best else next(
        word for word, chance in chances.items() if round(chance, 9) == best
    )  # fmt: skip


def alterable(line):
    return sum(list(line["chances"].values())[1:4])


def verdict_of(line):
    for word, chance in line["chances"].items():
        if chance >= 0.75:
            return "fits as drawn" if word == "fits" else word
    return "within altering" if alterable(line) >= 0.75 else "too close to call"


def lines_of(file, allowance_mm):
    """Every level, then every length, that is read and measured and there."""
    found, measures = [], file["measures"]
    read = {level for piece in file["pieces"] for level in piece["readings"]}
    names = [("girth", name) for name in measures["girths"] if name in read]
    names += [("length", name) for name in measures.get("lengths", {}) if name in file.get("lengths", {})]
    for kind, name in names:
        fit = file.get("fit", {}).get(name, "fitted")
        if fit == "not there":
            continue
        garment, drawn, parts = (girth if kind == "girth" else length)(file, name, allowance_mm)
        path, doubt = doubts_of(measures)[kind]
        parts[path] = doubt**2
        body, ease = mm(measures[f"{kind}s"][name]), mm(file.get("ease", {}).get(name, "0 in"))
        line = {
            **{"kind": kind, "name": name, "fit": fit, "drawn": drawn, "parts": parts},
            **{"garment_mm": garment, "body_mm": body, "ease_mm": ease, "wanted_mm": body + ease},
            **{"difference_mm": garment - body - ease, "limits": limits_of(file)[kind]},
            "u_mm": math.sqrt(u2_of(parts)),
        }
        found.append(judge(line))
    return found


def judge(line):
    if line["fit"] == "gathered":
        return line | {
            "chances": None,
            "verdict": "gathered",
            "ratio": line["garment_mm"] / line["wanted_mm"],
        }
    line["chances"] = chances_of(line)
    return line | {"verdict": verdict_of(line)}


def judged(lines):
    compared = [line for line in lines if line["chances"]]
    return [line for line in compared if line["fit"] == "fitted"] or compared


def largest_doubt(line):
    """The first by its path of those that add most, its share, and u by a rule of half the division."""
    u2, parts = u2_of(line["parts"]), line["parts"]
    path = min(parts, key=lambda one: (-round(parts[one] / u2, 9), one))
    finer = sum(part / 4 if one.startswith(("pieces", "lengths")) else part for one, part in parts.items())
    return {"input": path, "share": parts[path] / u2, "u_mm_with_finer_rule": math.sqrt(finer)}


def plain_enlargement(lines):
    levels = [line for line in lines if line["kind"] == "girth"]
    compared = [line for line in levels if line["chances"]]
    if not compared:
        return None
    fitted = max(compared, key=lambda line: round(abs(line["difference_mm"]), 6))
    needed = fitted["wanted_mm"] - (fitted["garment_mm"] - fitted["drawn"])
    if needed <= 0:
        return None
    factor = needed / fitted["drawn"]
    grown = {line["name"]: line["garment_mm"] + (factor - 1) * line["drawn"] for line in lines}
    return {"factor": factor, "made_to_fit": fitted["name"], "grown": grown}
