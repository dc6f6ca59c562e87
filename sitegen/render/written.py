"""As written: every mixture at the size its author gave, for pages whose scripts do not run."""

from collections.abc import Callable, Mapping
from functools import lru_cache

from sitegen.compute.scale import ScaledMixture, as_written
from sitegen.compute.whole import Computed
from sitegen.model.archive import Archive
from sitegen.model.once import once

Written = Callable[[str], ScaledMixture]


def written_amounts(computed: Computed) -> Written:
    """A look-up of mixtures by id, each scaled on its own at factor one; one for all pages and sheets.

    Kept for the recipes used last only: a large archive never lies in memory at once.
    """
    return _written(computed, computed.archive)


@once
def _written(computed: Computed, archive: Archive) -> Written:
    measuring = archive.settings.measuring

    @lru_cache(maxsize=256)
    def of_recipe(slug: str) -> Mapping[str, ScaledMixture]:
        return {t.id: as_written(t, measuring).mixtures[-1] for t in computed.targets[slug]}

    def find(mixture: str) -> ScaledMixture:
        return of_recipe(mixture.partition("/")[0])[mixture]

    return find
