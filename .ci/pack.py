"""Builds as setuptools does; what a source archive holds besides is listed in packed.in, here."""

from setuptools.build_meta import *  # noqa: F403 - the hooks of PEP 517
from setuptools.command.egg_info import manifest_maker

manifest_maker.template = ".ci/packed.in"
