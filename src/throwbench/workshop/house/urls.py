from django.urls import path

from throwbench.workshop.house import views_sign_in

app_name = "house"
urlpatterns = [
    path("sign-in/", views_sign_in.how, name="sign_in"),
    path("sign-in/<str:token>/", views_sign_in.link, name="link"),
    path("sign-in-now/", views_sign_in.enter, name="enter"),
    path("sign-out/", views_sign_in.leave, name="sign_out"),
]
