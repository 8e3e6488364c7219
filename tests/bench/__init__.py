"""Times the flow on many distinct recipes. Asserts nothing.

``python -m tests.bench check [COUNT ...]`` checks, each count in a process of its own;
``python -m tests.bench cards [COUNT ...]`` places and paints, beside what others take;
``python -m tests.bench build [COUNT ...]`` makes whole folders, and again when nothing has changed.
"""
