"""Addresses of the plan."""

from django.urls import path

from throwbench.workshop.trials import views_plan, views_trials

plan_urls = [
    path("trials/", views_trials.index, name="index"),
    path("trials/new/", views_trials.new, name="new"),
    path("trials/<int:pk>/", views_plan.trial, name="trial"),
    path("trials/<int:pk>/change/", views_trials.change, name="change"),
    path("trials/<int:pk>/seal/", views_trials.seal, name="seal"),
    path("trials/<int:pk>/oils/", views_plan.add_oil, name="add_oil"),
    path("trials/<int:pk>/oils/<int:candidate>/out/", views_plan.take_out, name="take_out"),
    path("trials/<int:pk>/wicks/", views_plan.add_wick, name="add_wick"),
    path("trials/<int:pk>/wicks/<int:combination>/more/", views_plan.one_more, name="one_more"),
    path("trials/<int:pk>/bands/", views_plan.add_band, name="add_band"),
    path("trials/<int:pk>/fix/", views_plan.fix, name="fix"),
]
