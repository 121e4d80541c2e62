"""Papers of a job folder judged by Apache PDFBox's Preflight, a checker of PDF/A that is not ours.

Run by hand: python -m tests.bench.papers_by_preflight FOLDER. Needs java and Debian's packages
libpdfbox2-java, libactivation-java and libjaxb-api-java. It knows PDF/A-1b alone, so it is shown a
copy without what PDF/A-2 (ISO 19005-2, from memory) allows beyond that: its number, a colour
profile of version 4, and destinations in objects of their own, which any PDF may have and it does
not follow. What it says of fonts, colours, graphics, metadata, annotations and syntax is of the
papers as they are; of tags (level a) it knows nothing.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from pypdf import PdfReader, PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, NameObject, StreamObject

JARS = Path("/usr/share/java")
NEEDED = (
    *("preflight", "pdfbox2", "fontbox2", "xmpbox"),
    *("commons-logging", "javax.activation", "jaxb-api"),
)
MAIN = "org.apache.pdfbox.preflight.Validator_A1b"
SAYS_PART = b"pdfaid:part"
ICC_MAGIC, ICC_VERSION_AT = b"acsp", 8  # ISO 15076-1, table 17: signature at 36, version at 8


def as_first_part(path: Path, to: Path) -> bool:
    """The copy that is judged; False for a file that does not say it is PDF/A."""
    writer = PdfWriter(clone_from=PdfReader(path))
    writer.pdf_header = "%PDF-1.4"
    metadata = writer.root_object.get("/Metadata")
    if metadata is None or SAYS_PART not in metadata.get_object().get_data():
        return False
    stream = metadata.get_object()
    told = stream.get_data().replace(b":part>2<", b":part>1<")
    stream.set_data(told.replace(b"conformance>A", b"conformance>B"))
    for one in list(writer._objects):
        if isinstance(one, StreamObject) and "/N" in one:
            profile = bytearray(one.get_data())
            if profile[36:40] == ICC_MAGIC:
                profile[ICC_VERSION_AT] = 2
                one.set_data(bytes(profile))
        elif isinstance(one, DictionaryObject) and "/Dest" in one:
            one[NameObject("/Dest")] = ArrayObject(one["/Dest"].get_object())
    writer.write(to)
    return True


def judged(path: Path) -> str:
    """What the checker says."""
    jars = ":".join(str(JARS / f"{name}.jar") for name in NEEDED)
    command = ["java", "-cp", jars, MAIN, str(path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return (done.stdout + done.stderr).strip()


def main(folder: Path) -> int:
    """1 where a paper is faulted."""
    missing = [name for name in NEEDED if not (JARS / f"{name}.jar").exists()]
    if missing or not shutil.which("java"):
        print(f"not here: {', '.join(missing) or 'java'}")
        return 2
    bad = 0
    with tempfile.TemporaryDirectory() as aside:
        for path in sorted(folder.glob("*.pdf")):
            copy = Path(aside) / path.name
            if not as_first_part(path, copy):
                print(f"{path.name}: says nothing of PDF/A")
                continue
            said = judged(copy)
            bad += "is a valid PDF/A-1b file" not in said
            print(said)
    return int(bad > 0)


if __name__ == "__main__":
    raise SystemExit(main(Path(sys.argv[1])))
