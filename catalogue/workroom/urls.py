from django.urls import path

from catalogue.workroom.views import deletion, invitations, members, sign_in, work

urlpatterns = [
    path("sign-in/once/<str:secret>/", sign_in.sign_in_once, name="sign-in-once"),
    path("password/", sign_in.password_set, name="password-set"),
    path("preferences/", sign_in.preferences, name="preferences"),
    path("workroom/", members.workroom_detail, name="workroom-detail"),
    path("workroom/change/", members.workroom_change, name="workroom-change"),
    path("workroom/choose/", members.workroom_choose, name="workroom-choose"),
    path("workroom/leave/", members.workroom_leave, name="workroom-leave"),
    path("invitations/add/", invitations.invitation_add, name="invitation-add"),
    path("invitations/<int:pk>/withdraw/", invitations.invitation_withdraw, name="invitation-withdraw"),
    path("invited/<str:secret>/", invitations.invitation_open, name="invitation-open"),
    path("invitation/", invitations.invitation_answer, name="invitation-answer"),
    path("invitation/join/", invitations.invitation_join, name="invitation-join"),
    path("members/<int:pk>/", members.member_change, name="member-change"),
    path("members/<int:pk>/remove/", members.member_remove, name="member-remove"),
    path("members/<int:pk>/sign-in-address/", members.member_sign_in_address, name="member-sign-in-address"),
    path("deleted/", deletion.deleted_list, name="deleted-list"),
    path("deleted/<int:pk>/restore/", deletion.deleted_restore, name="deleted-restore"),
    path("deleted/<int:pk>/forget/", deletion.deleted_forget, name="deleted-forget"),
    path("work/<int:pk>/stop/", work.work_stop, name="work-stop"),
    path("work/<int:pk>/again/", work.work_again, name="work-again"),
]
