from django.urls import path

from fitting.comparing.views import (
    comparison_detail,
    comparison_make,
    quick_comparison,
    quick_keep,
    route_choose,
    route_outcome,
)
from fitting.dossier.views import (
    dossier_add,
    dossier_again,
    dossier_delete,
    dossier_detail,
    dossier_file,
    dossier_list,
)
from fitting.fittings.views.alterations import (
    alteration_add,
    alteration_change,
    alteration_delete,
    alteration_tick,
    inlay_list,
)
from fitting.fittings.views.fittings import (
    fitting_change,
    fitting_close,
    fitting_delete,
    fitting_detail,
    fitting_hold,
    fitting_hold_worker,
    fitting_list,
    fitting_plan,
    fitting_reopen,
    fitting_type_up,
)
from fitting.fittings.views.observations import (
    observation_change,
    observation_delete,
    observation_drop,
    observation_photo_add,
    observation_photo_delete,
    observation_photo_file,
)
from fitting.fittings.views.trials import trial_add, trial_change, trial_delete, trial_detail
from fitting.laying.views import lay_add, lay_buy, lay_delete, lay_detail, lay_stop
from fitting.outfits.views.garments import (
    garment_add,
    garment_again,
    garment_change,
    garment_delete,
    garment_move,
)
from fitting.outfits.views.log import (
    log_add,
    log_change,
    log_delete,
    log_list,
    log_photo_change,
    log_photo_delete,
    log_photo_file,
)
from fitting.outfits.views.outfits import (
    material_add,
    material_change,
    material_delete,
    material_list,
    outfit_add,
    outfit_change,
    outfit_delete,
    shopping_list,
)
from fitting.outfits.views.patterns import (
    pattern_add,
    pattern_alter,
    pattern_change,
    pattern_delete,
    pattern_detail,
    pattern_list,
)
from fitting.outfits.views.shares import share_add, share_end, share_list, shared_log, shared_photo
from fitting.pattern.views.sheets import garment_grade, garment_sheets, garment_sheets_file
from fitting.pattern.views.work import garment_work, work_note_delete, work_note_detail, work_sheet
from fitting.planning.views import (
    calendar_detail,
    calendar_feed,
    task_add,
    task_change,
    task_delete,
    task_done,
    task_list,
    task_start,
)
from fitting.views.dressing import outfit_dressing
from fitting.views.garments import garment_detail
from fitting.views.outfits import outfit_detail, outfit_list
from fitting.views.wearers import wearer_erase, wearer_export, wearer_photographs
from fitting.wearers.views.measures import (
    measures_add,
    measures_change,
    measures_confirm,
    measures_delete,
    measures_detail,
    stand_add,
    stand_change,
    stand_delete,
    stand_list,
)
from fitting.wearers.views.people import (
    maker_change,
    wearer_add,
    wearer_change,
    wearer_detail,
    wearer_list,
    wearer_sheet,
)

urlpatterns = [
    # quick comparison
    path("quick/", quick_comparison, name="quick-comparison"),
    path("quick/keep/", quick_keep, name="quick-keep"),
    # wearers and measures
    path("wearers/", wearer_list, name="wearer-list"),
    path("wearers/add/", wearer_add, name="wearer-add"),
    path("wearers/<int:pk>/", wearer_detail, name="wearer-detail"),
    path("wearers/<int:pk>/change/", wearer_change, name="wearer-change"),
    path("wearers/<int:pk>/export/", wearer_export, name="wearer-export"),
    path("wearers/<int:pk>/photographs/", wearer_photographs, name="wearer-photographs"),
    path("wearers/<int:pk>/erase/", wearer_erase, name="wearer-erase"),
    path("wearers/<int:pk>/sheet/", wearer_sheet, name="wearer-sheet"),
    path("wearers/<int:pk>/measures/add/", measures_add, name="measures-add"),
    path("measures/<int:pk>/", measures_detail, name="measures-detail"),
    path("measures/<int:pk>/change/", measures_change, name="measures-change"),
    path("measures/<int:pk>/delete/", measures_delete, name="measures-delete"),
    path("measures/<int:pk>/confirm/", measures_confirm, name="measures-confirm"),
    # outfits and garments
    path("outfits/", outfit_list, name="outfit-list"),
    path("outfits/add/", outfit_add, name="outfit-add"),
    path("outfits/<int:pk>/", outfit_detail, name="outfit-detail"),
    path("outfits/<int:pk>/change/", outfit_change, name="outfit-change"),
    path("outfits/<int:pk>/delete/", outfit_delete, name="outfit-delete"),
    path("outfits/<int:pk>/garments/add/", garment_add, name="garment-add"),
    path("garments/<int:pk>/", garment_detail, name="garment-detail"),
    path("garments/<int:pk>/change/", garment_change, name="garment-change"),
    path("garments/<int:pk>/move/", garment_move, name="garment-move"),
    path("garments/<int:pk>/again/", garment_again, name="garment-again"),
    path("garments/<int:pk>/delete/", garment_delete, name="garment-delete"),
    # dressing order, log, tasks and plan, materials, calendar
    path("outfits/<int:pk>/dressing/", outfit_dressing, name="outfit-dressing"),
    path("outfits/<int:pk>/log/", log_list, name="log-list"),
    path("outfits/<int:pk>/log/add/", log_add, name="log-add"),
    path("log/<int:pk>/change/", log_change, name="log-change"),
    path("log/<int:pk>/delete/", log_delete, name="log-delete"),
    path("log/photos/<int:pk>/change/", log_photo_change, name="log-photo-change"),
    path("log/photos/<int:pk>/delete/", log_photo_delete, name="log-photo-delete"),
    path("log/photos/<int:pk>/<int:size>/", log_photo_file, name="log-photo-file"),
    path("outfits/<int:pk>/tasks/", task_list, name="task-list"),
    path("outfits/<int:pk>/tasks/start/", task_start, name="task-start"),
    path("outfits/<int:pk>/tasks/add/", task_add, name="task-add"),
    path("tasks/<int:pk>/change/", task_change, name="task-change"),
    path("tasks/<int:pk>/done/", task_done, name="task-done"),
    path("tasks/<int:pk>/delete/", task_delete, name="task-delete"),
    path("outfits/<int:pk>/materials/", material_list, name="material-list"),
    path("outfits/<int:pk>/materials/add/", material_add, name="material-add"),
    path("outfits/<int:pk>/shopping/", shopping_list, name="shopping-list"),
    path("materials/<int:pk>/change/", material_change, name="material-change"),
    path("materials/<int:pk>/delete/", material_delete, name="material-delete"),
    path("calendar/", calendar_detail, name="calendar-detail"),
    path("calendar/<str:secret>.ics", calendar_feed, name="calendar-feed"),
    # fittings, alterations, trials, shares
    path("fittings/", fitting_list, name="fitting-list"),
    path("outfits/<int:pk>/fitting/plan/", fitting_plan, name="fitting-plan"),
    path("fittings/<int:pk>/", fitting_detail, name="fitting-detail"),
    path("fittings/<int:pk>/change/", fitting_change, name="fitting-change"),
    path("fittings/<int:pk>/delete/", fitting_delete, name="fitting-delete"),
    path("fittings/<int:pk>/hold/", fitting_hold, name="fitting-hold"),
    path("fittings/hold-worker.js", fitting_hold_worker, name="fitting-hold-worker"),
    path("fittings/<int:pk>/type-up/", fitting_type_up, name="fitting-type-up"),
    path("fittings/<int:pk>/close/", fitting_close, name="fitting-close"),
    path("fittings/<int:pk>/reopen/", fitting_reopen, name="fitting-reopen"),
    path("observations/<int:pk>/change/", observation_change, name="observation-change"),
    path("observations/<int:pk>/delete/", observation_delete, name="observation-delete"),
    path("observations/<int:pk>/drop/", observation_drop, name="observation-drop"),
    path("observations/<int:pk>/photos/", observation_photo_add, name="observation-photo-add"),
    path(
        "observations/photos/<int:pk>/",
        observation_photo_delete,
        name="observation-photo-delete",
    ),
    path(
        "observations/photos/<int:pk>/<int:size>/",
        observation_photo_file,
        name="observation-photo-file",
    ),
    path("garments/<int:pk>/alterations/add/", alteration_add, name="alteration-add"),
    path("alterations/<int:pk>/change/", alteration_change, name="alteration-change"),
    path("alterations/<int:pk>/delete/", alteration_delete, name="alteration-delete"),
    path("alterations/<int:pk>/tick/", alteration_tick, name="alteration-tick"),
    path("garments/<int:pk>/inlays/", inlay_list, name="inlay-list"),
    path("garments/<int:pk>/trials/add/", trial_add, name="trial-add"),
    path("trials/<int:pk>/", trial_detail, name="trial-detail"),
    path("trials/<int:pk>/change/", trial_change, name="trial-change"),
    path("trials/<int:pk>/delete/", trial_delete, name="trial-delete"),
    path("outfits/<int:pk>/shares/", share_list, name="share-list"),
    path("outfits/<int:pk>/shares/add/", share_add, name="share-add"),
    path("shares/<int:pk>/end/", share_end, name="share-end"),
    path("shown/<str:secret>/", shared_log, name="shared-log"),
    path("shown/<str:secret>/<int:pk>/<int:size>/", shared_photo, name="shared-photo"),
    # comparisons and routes
    path("garments/<int:pk>/compare/", comparison_make, name="comparison-make"),
    path("comparisons/<int:pk>/", comparison_detail, name="comparison-detail"),
    path("garments/<int:pk>/route/", route_choose, name="route-choose"),
    path("routes/<int:pk>/outcome/", route_outcome, name="route-outcome"),
    # pattern work and the lay
    path("garments/<int:pk>/work/", garment_work, name="garment-work"),
    path("garments/<int:pk>/work/<slug:kind>/", work_sheet, name="work-sheet"),
    path("work/<int:pk>/", work_note_detail, name="work-note-detail"),
    path("work/<int:pk>/delete/", work_note_delete, name="work-note-delete"),
    path("garments/<int:pk>/lays/add/", lay_add, name="lay-add"),
    path("lays/<int:pk>/", lay_detail, name="lay-detail"),
    path("lays/<int:pk>/stop/", lay_stop, name="lay-stop"),
    path("lays/<int:pk>/buy/", lay_buy, name="lay-buy"),
    path("lays/<int:pk>/delete/", lay_delete, name="lay-delete"),
    # traced pieces graded and printed
    path("garments/<int:pk>/grade/", garment_grade, name="garment-grade"),
    path("garments/<int:pk>/sheets/", garment_sheets, name="garment-sheets"),
    path("garments/<int:pk>/sheets/file/", garment_sheets_file, name="garment-sheets-file"),
    # makers, stands, patterns in hand
    path("limits/", maker_change, name="maker-change"),
    path("stands/", stand_list, name="stand-list"),
    path("stands/add/", stand_add, name="stand-add"),
    path("stands/<int:pk>/change/", stand_change, name="stand-change"),
    path("stands/<int:pk>/delete/", stand_delete, name="stand-delete"),
    path("patterns/", pattern_list, name="pattern-list"),
    path("patterns/add/", pattern_add, name="pattern-add"),
    path("patterns/<int:pk>/", pattern_detail, name="pattern-detail"),
    path("patterns/<int:pk>/alter/", pattern_alter, name="pattern-alter"),
    path("patterns/<int:pk>/change/", pattern_change, name="pattern-change"),
    path("patterns/<int:pk>/delete/", pattern_delete, name="pattern-delete"),
    # dossiers
    path("outfits/<int:pk>/dossiers/", dossier_list, name="dossier-list"),
    path("outfits/<int:pk>/dossiers/add/", dossier_add, name="dossier-add"),
    path("dossiers/<int:pk>/", dossier_detail, name="dossier-detail"),
    path("dossiers/<int:pk>/file/", dossier_file, name="dossier-file"),
    path("dossiers/<int:pk>/again/", dossier_again, name="dossier-again"),
    path("dossiers/<int:pk>/delete/", dossier_delete, name="dossier-delete"),
]
