from django.urls import URLPattern

plan_urls: list[URLPattern] = []
