"""Languages: phrases, names and numbers, from files a translator can edit."""
