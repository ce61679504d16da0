"""What the shop wrote: YAML files in, one frozen, typed notebook out.

``tree`` and ``reader`` turn a file into texts that know their line and column;
``model`` says which keys may stand where; ``load`` walks the three folders and
always returns a :class:`~site_builder.notebook.notebook.Notebook` together with
what it found wrong; ``references``, ``route`` and ``gather`` answer questions
about the whole: what points where, what comes before, what to wear.
"""
