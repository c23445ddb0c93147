from django.urls import path

from catalogue.references import views
from catalogue.references.models.garment import ReferenceGarment
from catalogue.references.models.question import Question
from catalogue.references.models.relation import Relation
from catalogue.workroom.views.deletion import row_delete

urlpatterns = [
    path("references/add/", views.reference_add, name="reference-add"),
    path("references/<int:pk>/change/", views.reference_change, name="reference-change"),
    path("references/<int:pk>/citations/", views.reference_citations, name="reference-citations"),
    path("references/<int:pk>/measures/", views.reference_measures, name="reference-measures"),
    path("references/<int:pk>/delete/", row_delete, {"model": ReferenceGarment}, name="reference-delete"),
    path("references/<int:pk>/questions/add/", views.question_add, name="question-add"),
    path("questions/<int:pk>/change/", views.question_change, name="question-change"),
    path("questions/<int:pk>/answer/", views.question_answer, name="question-answer"),
    path("questions/<int:pk>/delete/", row_delete, {"model": Question}, name="question-delete"),
    path("references/<int:pk>/relations/add/", views.relation_add, name="relation-add"),
    path("relations/<int:pk>/delete/", row_delete, {"model": Relation}, name="relation-delete"),
    path("references/<int:pk>/study/sheet/", views.study_sheet, name="study-sheet"),
    path("references/<int:pk>/study/add/", views.study_add, name="study-add"),
]
