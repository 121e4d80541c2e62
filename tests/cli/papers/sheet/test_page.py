"""job-sheet.html in a browser: what it may run, where its contents lead, what is folded."""

from __future__ import annotations

import base64
import hashlib
import re

import pytest

from tests.cli.jobs import job_text, run, write_job

WARNS = {"job.wheels": "1", "finish.coating": '"galvanized"'}


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> str:
    folder = tmp_path_factory.mktemp("page")
    result = run("build", write_job(folder, job_text(WARNS)), "--effort", "quick", "--out", folder)
    assert result.exit_code in (0, 1), result.stderr
    (file,) = folder.glob("*/job-sheet.html")
    return file.read_text("utf-8")


def test_only_its_own_scripts_may_run(page: str) -> None:
    """W3C, Content Security Policy level 3: a script in the page runs by the hash of its text."""
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', page)
    assert policy
    rules = dict(rule.strip().split(" ", 1) for rule in policy[1].split(";"))
    assert rules.pop("default-src") == rules.pop("base-uri") == rules.pop("form-action") == "'none'"
    assert rules.pop("style-src") == "'unsafe-inline'"
    scripts = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    digests = [hashlib.sha256(text.encode()).digest() for text in scripts]
    hashes = {f"'sha256-{base64.b64encode(one).decode()}'" for one in digests}
    assert len(hashes) == 2
    assert set(rules.pop("script-src").split()) == hashes
    assert rules == {}
    assert not re.search(r"<[^>]+\son\w+=", page)  # no handler in a tag
    assert page.index("Content-Security-Policy") < page.index("<style>")


def test_its_contents_lead_somewhere(page: str) -> None:
    nav = page[page.index("<nav") : page.index("</nav>")]
    places = re.findall(r'href="#([a-z]+)"', nav)
    assert len(places) >= 10
    for place in places:
        assert page.count(f'id="{place}"') == 1, place
    assert page.index("</nav>") < page.index('id="summary"') < page.index('id="wheel"')


def test_what_warns_is_open_and_what_passes_is_folded(page: str) -> None:
    section = page[page.index('<h2 id="checks">') :]
    shown, folded = section.split("<details", 1)
    folded = folded.split("</details>", 1)[0]
    cells = '<td data-head="Verdict">'
    assert f"{cells}warn" in shown
    assert f"{cells}pass" not in shown
    assert f"{cells}pass" in folded
    assert f"{cells}warn" not in folded
    first = page[page.index('id="summary"') : page.index('id="wheel"')]
    assert "<strong>warns: " in first
    assert "<details" not in first
