"""The grammar of the notebook as frozen types: which keys may stand where and what they hold.

``leaves`` are single texts (words, ids, values, cadences, dates); ``entry`` is what every
mapping shares (short and long form, reason, variant, source, note); the rest follows the
chapters of a notebook: ``judging`` (limits, checks, ends, remedies), ``harm``, ``small``,
``procedure``, ``things``, ``shop``, ``people``, ``records``.
"""
