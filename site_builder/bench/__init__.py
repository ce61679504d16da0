"""The bench: the notebook in a browser, to be written in without YAML.

A face like the handbook and the command: it asks, shows and writes down, and owns no rule, no arithmetic and no law.
Writing into files is the amendments', writing into books is the skills'.
"""
