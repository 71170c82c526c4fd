"""Addresses of the alarm and of the timers."""

from django.urls import path

from throwbench.web.alarm import views

app_name = "alarm"
urlpatterns = [
    path("alarm/", views.alarm, name="alarm"),
    path("alarm/heard/", views.heard, name="heard"),
    path("alarm/rang/", views.rang, name="rang"),
    path("alarm/there/", views.there, name="there"),
    path("alarm/ring/", views.ring, name="ring"),
]
