"""The ageing models by key, and how one is made from a casting."""

from __future__ import annotations

from soffit.materials.ageing.aashto import Aashto
from soffit.materials.ageing.aci209 import Aci209
from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.en1992 import En1992
from soffit.materials.ageing.mc2010 import Mc2010

Model = En1992 | Aci209 | Mc2010 | Aashto

MODELS: dict[str, type[En1992] | type[Aci209] | type[Mc2010] | type[Aashto]] = {
    kind.record.key: kind for kind in (En1992, Aci209, Mc2010, Aashto)
}


def model(name: str, cast: Casting) -> Model:
    """The model whose key begins ``name`` (an edition may follow: "EN 1992-1-1:2004"), for one casting.

    Raises ``ValueError`` that lists the known models, and for a casting that the model refuses.
    """
    for key, kind in MODELS.items():
        if name.strip().upper().startswith(key.upper()):
            return kind.of(cast)
    raise ValueError(f"there is no ageing model {name!r}: choose one of {', '.join(MODELS)}")


def all_models(cast: Casting) -> dict[str, Model]:
    """Every model for the same casting, by key."""
    return {key: kind.of(cast) for key, kind in MODELS.items()}
