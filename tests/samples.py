# SPDX-License-Identifier: GPL-2.0-or-later
"""Sample files of other people's libraries, which scripts/test fetches (need_samples in scripts/setup.sh)."""

from __future__ import annotations

from pathlib import Path

import pytest

SAMPLES = Path(__file__).parents[1] / "build" / "samples"


def sample_files(folder: str, ending: str, least: int) -> list[Path]:
    """The files of a folder of samples, by name. A test without them fails, and is skipped only where the package
    sources could not be reached."""
    if (SAMPLES / f"unreachable-{folder.partition('/')[0]}").exists():
        pytest.skip("the sample files could not be fetched: the package sources were not reached")
    found = sorted((SAMPLES / folder).glob(f"*{ending}"))
    if len(found) < least:
        pytest.fail(
            f"build/samples/{folder} has {len(found)} sample files *{ending} where {least} should be; "
            "scripts/test fetches them (need_samples in scripts/setup.sh)."
        )
    return found
