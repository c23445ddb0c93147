from django.urls import path

from catalogue.views import people

urlpatterns = [
    # people
    path("sign-in/once/<str:uid>/<str:token>/", people.sign_in_once, name="sign-in-once"),
    # sources
    # reference garments
    # plates, pieces, readings, seams
    # photographs
]
