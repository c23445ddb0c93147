from django.urls import path  # noqa: F401

urlpatterns = [
    # quick comparison
    # wearers and measures
    # outfits and garments
    # comparisons and routes
    # makers, stands, patterns in hand
    # dossiers
]
