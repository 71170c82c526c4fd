"""Addresses of a trial, in three parts: plan, pour and burn."""

from throwbench.workshop.trials.urls_burn import burn_urls
from throwbench.workshop.trials.urls_plan import plan_urls
from throwbench.workshop.trials.urls_pour import pour_urls

app_name = "trials"
urlpatterns = [*plan_urls, *pour_urls, *burn_urls]
