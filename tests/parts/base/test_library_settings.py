"""A library's settings that lie about, of other work or not to be read, change nothing."""

from __future__ import annotations

import sys
from configparser import ConfigParser
from importlib.util import module_from_spec
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from platewheel.parts.base.library_settings import FONTS, SETTINGS, _Finder

FOREIGN = "[core]\nDISABLE_C_EXT = true\nLOAD_PROXY_GRAPHICS = false\n"


def loaded(name: str, path: Any) -> Any:
    """The library's module once more, beside the one that is loaded."""
    spec = _Finder.find_spec(name, path)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("text", [FOREIGN, "broken [[[", "\udcff"])
def test_a_file_of_settings_in_the_working_folder_or_named_is_not_read(
    text: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / SETTINGS
    file.write_text(text, encoding="utf-8", errors="surrogateescape")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("EZDXF_CONFIG_FILE", str(file))
    monkeypatch.setenv("EZDXF_DISABLE_C_EXT", "1")
    options = loaded("ezdxf._options", ezdxf.__path__).options
    assert options.loaded_config_files == ()
    assert (options.disable_c_ext, options.load_proxy_graphics) == (False, True)
    parser = ConfigParser()
    file.write_text(FOREIGN, encoding="utf-8")
    assert parser.read(file) == [str(file)]  # all others read as before
    assert file.exists()


def test_a_home_that_may_not_be_looked_into_is_no_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    """As who owns everything, a test cannot be kept out: what looks is told so in its place."""

    def kept_out(self: Path) -> bool:
        raise PermissionError(13, "Permission denied", str(self))

    monkeypatch.setattr(Path, "exists", kept_out)
    assert loaded("ezdxf._options", ezdxf.__path__).options.loaded_config_files == ()
    assert Path.exists is kept_out


def test_a_broken_list_of_fonts_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from ezdxf import fonts

    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr("ezdxf.fonts.font_manager.FontManager.build", lambda *_, **__: None)
    (tmp_path / "ezdxf").mkdir()
    file = tmp_path / "ezdxf" / FONTS
    file.write_text("{broken")
    loaded("ezdxf.fonts.fonts", fonts.__path__)
    assert file.read_text() != "{broken"


def test_whoever_loads_it_passes_there() -> None:
    assert _Finder in sys.meta_path
    assert type(ezdxf._options.__spec__.loader).__name__ == "_Loader"  # type: ignore[attr-defined]
