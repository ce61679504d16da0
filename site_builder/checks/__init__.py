"""Findings: what is contradictory or impossible (errors), doubtful (warnings), untold (questions).

``survey`` works out once what rules and pages ask about a notebook; ``rule`` says what a rule is;
``rules`` holds one file a rule; ``engine`` runs them; ``report`` shows what they found.
"""
