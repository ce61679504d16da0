"""What an apprentice learns of a skill before doing it, and questions to ask oneself."""
