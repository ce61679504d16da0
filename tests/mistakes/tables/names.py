"""A name of the shop's own that looks like one that is looked for: it silences a check."""

from tests.mistakes.hand import becomes, dropped, group, swapped
from tests.mistakes.kind import Fix, Kind

_R = Fix.RESTORES
_SAYS = "name-near"


def _near(name: str, files: str, *wrong: str) -> tuple[Kind, ...]:
    return tuple(Kind(f"`{name}` as `{one}`", files, rf"(?:^ +|\{{|, )({name}):", becomes(one), _SAYS, _R) for one in wrong)


KINDS = (
    *_near("resolution", "gauge", "resolutoin", "resolutions", "Resolution"),
    *_near("range", "gauge", "rnage", "ranges"),
    *_near("liquidus", "material", "liquidas", "liqidus"),
    *_near("solidus", "material", "soliduss"),
    *_near("density", "material", "densitiy", "desnity"),
    *_near("pot life", "material", "potlife", "pot-life", "pot lfie"),
    *_near("shelf life", "material", "shelflife", "shelf live"),
    *_near("flash point", "material", "flashpoint", "flash-point"),
    *_near("casting temperature", "material", "casting temprature", "casting temp"),
    *_near("exposure limit", "material", "exposure limits"),
    *_near("volume solids", "material", "volume solid"),
    *_near("wheel size", "tooling", "wheelsize", "wheel-size"),
    *_near("rated speed", "tooling machine", "ratedspeed", "rated sped"),
    *_near("noise", "machine", "nosie", "Noise", "noises"),
    *_near("vibration", "machine", "vibraton"),
    *_near("power", "machine", "pwoer"),
    *_near("capacity", "machine", "capacty"),
    *_near("belt speed", "machine procedure", "belt sped", "beltspeed"),
    *_near("motor speed", "machine", "motorspeed"),
    *_near("room temperature", "procedure", "room temprature", "roomtemperature"),
    *_near("spindle speed", "procedure", "spindel speed"),
    *_near("grit", "procedure tooling", "grti"),
    *_near("humidity", "procedure", "humdity"),
    *_near("attenuation", "protection", "attenuaton"),
    *_near("painted area", "shop", "painted aera"),
    *_near("plated area", "shop", "plated are"),
    *_near("volume", "shop", "voulme"),
    *_near("mass", "shop machine", "mas"),
    Kind("the name of an element of the composition", "material", r"^  (copper|zinc|tin): ", group(swapped), known=False),
    Kind("a condition under which a value is given", "material", r"given: \{(room temperature):", group(dropped), "", _R),
)
