"""Tests of the first job file."""
