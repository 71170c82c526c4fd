from django.urls import URLPattern

pour_urls: list[URLPattern] = []
