from django.urls import path

from fitting.comparing import views

urlpatterns = [
    path("quick/", views.quick_comparison, name="quick-comparison"),
    path("quick/keep/", views.quick_keep, name="quick-keep"),
    path("garments/<int:pk>/compare/", views.comparison_make, name="comparison-make"),
    path("garments/<int:pk>/skill/", views.skill_say, name="skill-say"),
    path("comparisons/<int:pk>/", views.comparison_detail, name="comparison-detail"),
    path("garments/<int:pk>/route/", views.route_choose, name="route-choose"),
    path("routes/<int:pk>/outcome/", views.route_outcome, name="route-outcome"),
]
