"""Builds: from files to cards on disk. The only writer of files."""
