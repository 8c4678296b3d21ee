"""The JSON API below /api/v1: the same actions as the pages, one file per resource.

``endpoint`` declares operations, ``document`` describes them all as OpenAPI 3.1, ``problems`` words what goes
wrong as RFC 9457 asks, ``sending`` makes a repeated request one request, ``etags`` guards changes.
"""
