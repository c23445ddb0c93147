from fitting.planning.calculation.waiting import StagedTask, WornGarment, task_waits, waits_of

SHIFT = WornGarment(key=10, order=1, name="shift", stage="finished")
STAYS = WornGarment(key=20, order=2, name="stays", stage="toile", is_boned=True)
PETTICOAT = WornGarment(key=30, order=3, name="petticoat", stage="route chosen")
JACKET = WornGarment(key=40, order=4, name="jacket", stage="studied")


def told(waits):
    return [(wait.garment.name, wait.before, wait.on.name) for wait in waits]


def test_a_pattern_waits_for_stays_and_a_fitting_for_all_that_is_worn_beneath():
    assert told(waits_of([SHIFT, STAYS, PETTICOAT, JACKET])) == [
        ("petticoat", "patterned", "stays"),
        ("jacket", "patterned", "stays"),
        ("jacket", "fitted", "petticoat"),
    ]


def test_what_is_sewn_holds_nothing_up():
    sewn = WornGarment(key=20, order=2, name="stays", stage="sewn", is_boned=True)
    assert told(waits_of([sewn, JACKET])) == []


def test_what_was_fitted_waits_no_longer():
    fitted = WornGarment(key=40, order=4, name="jacket", stage="fitted")
    assert told(waits_of([STAYS, fitted])) == []


def test_stays_on_top_hold_up_nothing_beneath():
    over = WornGarment(key=50, order=9, name="corset", stage="studied", is_boned=True)
    assert told(waits_of([JACKET, over])) == [("corset", "fitted", "jacket")]


def test_tasks_of_a_garment_follow_its_stages():
    tasks = [
        StagedTask(key="sew", garment=40, leads_to="sewn"),
        StagedTask(key="front", garment=40, leads_to="patterned"),
        StagedTask(key="back", garment=40, leads_to="patterned"),
        StagedTask(key="cut", garment=40, leads_to="cut"),
    ]
    waits = task_waits(tasks, [JACKET])
    assert waits == {"front": [], "back": [], "cut": ["front", "back"], "sew": ["cut"]}


def test_the_jackets_pattern_waits_for_the_last_task_that_gets_the_stays_sewn():
    tasks = [
        StagedTask(key="stays toile", garment=20, leads_to="fitted"),
        StagedTask(key="stays sewn", garment=20, leads_to="sewn"),
        StagedTask(key="stays bound", garment=20, leads_to="finished"),
        StagedTask(key="jacket pattern", garment=40, leads_to="patterned"),
        StagedTask(key="jacket fitting", garment=40, leads_to="fitted"),
    ]
    waits = task_waits(tasks, [STAYS, JACKET])
    assert waits["jacket pattern"] == ["stays sewn"]
    assert waits["jacket fitting"] == ["jacket pattern", "stays sewn"]
    assert waits["stays bound"] == ["stays sewn"]


def test_a_garment_without_a_pattern_task_waits_with_the_first_task_it_has():
    tasks = [
        StagedTask(key="stays sewn", garment=20, leads_to="sewn"),
        StagedTask(key="jacket cut", garment=40, leads_to="cut"),
    ]
    assert task_waits(tasks, [STAYS, JACKET])["jacket cut"] == ["stays sewn"]


def test_a_task_that_leads_to_no_stage_waits_for_nothing_by_itself():
    assert task_waits([StagedTask(key="buy thread", garment=40, leads_to="")], [JACKET]) == {"buy thread": []}
