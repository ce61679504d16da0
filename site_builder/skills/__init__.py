"""Who can do what: accounts drawn from the book of sign-offs."""
