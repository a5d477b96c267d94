"""Whether food is meat, poultry, fish or shellfish, or made of none of them, by its group or by its words.

One idea: what the table of products knows is what its group is; anything else is known by its words alone, and one
word of meat outdoes those of fish, as in turkey with oysters. The words are common practice, no source.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import Dict, FrozenSet, List, Tuple

from brinecalc.trade import called, groups, named
from brinecalc.trade.row import Row

FISHES: Dict[str, Tuple[str, ...]] = {
    "tuna": ("tuna", "tunafish", "albacore", "skipjack", "yellowfin", "bluefin"),
    "chub": ("chub", "cisco"),
    "sablefish": ("sablefish", "black cod", "butterfish"),
    "shad": ("shad",),
    "salmon": (
        "salmon", "lox", "chinook", "sockeye", "coho", "lachs", "saumon", "salmone", "salmón", "gravlax", "gravadlax",
        "gravlaks", "lax", "laks",
    ),
    "herring": ("herring", "sprat", "hering", "hareng", "matjes", "rollmop"),
}  # fmt: skip
"""The words of each fish that some rule speaks of by name; sprat goes with herring there."""
SHELLFISH = (
    "shellfish", "shrimp", "prawn", "crab", "lobster", "crayfish", "scallop", "mussel", "oyster", "clam", "squid",
    "octopus", "roe", "caviar", "barnacle", "krill", "langoustine", "scampi", "conch", "cockle", "whelk", "winkle",
    "periwinkle", "abalone", "geoduck", "percebe", "cuttlefish", "calamari", "sea urchin", "sea cucumber", "jellyfish",
    "tobiko", "ikura", "bottarga", "crawfish",
)  # fmt: skip
"""What carries no parasites that a rule asks about, though every other rule on fish holds for it; roe is with it."""
_OTHER_FISH = (
    "fish", "trout", "mackerel", "kipper", "eel", "sturgeon", "haddock", "cod", "whitefish", "mullet", "bluefish",
    "char", "halibut", "pollock", "monkfish", "flounder", "plaice", "snapper", "catfish", "tilapia", "carp", "pike",
    "perch", "anchovy", "sardine", "swordfish", "marlin", "hake", "turbot", "seafood", "bream", "bass", "seabass",
    "branzino", "grouper", "yellowtail", "hamachi", "kingfish", "amberjack", "mahi", "barramundi", "wahoo", "escolar",
    "john dory", "gurnard", "whiting", "ling", "brill", "hoki", "skate", "pilchard", "smelt", "zander", "sole",
    "garfish", "lumpfish", "boquerone", "bloater", "fisch", "poisson", "pesce", "pescado", "peixe", "fisk", "forelle",
    "truite", "trota", "trucha", "thunfisch", "thon", "tonno", "atún", "atun", "makrele", "maquereau", "kabeljau",
    "cabillaud", "dorsch", "aal", "anguille", "sgombro", "garnele", "crevette", "gamba", "bacalao", "bacalhau",
    "baccala", "baccalà", "merluza", "lubina", "dorade", "dorada", "huss", "shark", "coley", "saithe", "pout", "dab",
    "megrim", "tench", "roach", "rudd", "dace", "grayling", "sauger", "walleye", "crappie", "bluegill", "croaker",
    "porgy", "scup", "sheepshead", "tautog", "opah", "bowfin", "wels", "pangasius", "basa", "swai", "cobia", "pompano",
    "trevally", "lingcod", "lamprey", "elver", "stingray", "ray wing", "bonito", "saury", "unagi", "rouget", "surimi",
)  # fmt: skip
ALL_FISH = (*(word for words in FISHES.values() for word in words), *SHELLFISH, *_OTHER_FISH)
"""Every word for fish and shellfish."""
_MEAT = ("pork", "ham", "bacon", "beef", "veal", "lamb", "chicken", "turkey", "duck", "goose", "sausage", "meat",
         "deer", "char siu", "oyster blade", "head cheese", "brawn")  # fmt: skip
"""Words of what is no fish whatever else it says: a chub of sausage, turkey with oysters."""
_GAME_BIRDS = (
    "capon", "poussin", "duckling", "hen", "rooster", "cockerel", "gosling", "fowl", "wildfowl", "chook", "squab",
    "pigeon", "dove", "partridge", "grouse", "woodcock", "snipe", "teal", "mallard", "wigeon", "widgeon", "chukar",
    "ptarmigan",
)  # fmt: skip
GAME_THAT_HUNTS = (
    "bear", "boar", "walrus", "badger", "cougar", "sanglier", "cinghiale", "wildschwein", "jabalí", "bär", "fox",
    "wolf", "dog", "horse", "seal", "puma", "lynx", "raccoon", "peccary", "javelina", "warthog",
    "bobcat", "wildcat", "mountain lion",
)  # fmt: skip
"""Game that eats meat, now and then at least, as the source on parasites has it, from memory: horses too."""
_GAME = (
    *_GAME_BIRDS, *GAME_THAT_HUNTS, "mutton", "venison", "rabbit", "hare", "goat", "bison", "elk", "reindeer",
    "ostrich", "pheasant", "quail", "poultry", "tripe", "liver", "oxtail", "sweetbread", "offal", "emu", "foie gras",
    "moose", "caribou", "antelope", "kangaroo", "wallaby", "buffalo", "camel", "llama", "alpaca", "yak", "squirrel",
    "beaver", "chamois", "ibex", "stag", "roebuck", "muntjac", "pig", "piglet", "hog", "swine", "cow", "ox", "calf",
    "sheep", "trotter", "gammon", "haggis",
)  # fmt: skip
"""Animals and their parts, which are meat whatever vegetable goes with them."""
_POULTRY = ("chicken", "turkey", "duck", "goose", "poultry", "quail", "pheasant", "guinea fowl")
_BIRDS = _GAME_BIRDS
"""Other birds; none of them is heard in a misspelt word, for a roaster is no rooster."""
_CUTS = (
    "steak", "mince", "burger", "hamburger", "tartare", "chorizo", "salami", "biltong", "jerky", "kidney",
    "longaniza", "butifarra", "salsicha", "salchicha", "wurst", "boerewors", "bratwurst", "merguez", "frankfurter",
    "ribeye", "rib eye", "sirloin", "short rib", "tri tip", "brisket", "silverside", "topside", "picanha", "rump",
    "tenderloin", "blade", "flat iron", "meatball", "meatloaf", "kofta", "kefta", "köfte", "cevapcici", "frikadelle",
    "frikadellen", "keema", "forcemeat", "rissole", "polpette", "albondiga", "albóndiga", "hackfleisch",
)  # fmt: skip
"""Words of meat that stand beside other food too: tuna steaks, mushroom burgers, kidney beans."""
_VEGAN = ("vegan", "vegetarian", "veggie", "meatless", "plant based", "of the wood")
_NO_MEAT = (
    *_VEGAN, "tofu", "tempeh", "seitan", "soy", "soya", "mushroom", "cauliflower", "cabbage", "celeriac", "jackfruit",
    "aubergine", "bean", "lentil", "chickpea", "halloumi", "paneer", "cheese",
)  # fmt: skip
_MADE = (*_CUTS, "sausage")
_ANIMALS = tuple(word for word in (*_MEAT, *_GAME) if word not in _MADE)
_PARTS = re.compile(r"[,;/&+()]|\b(?:with|and|in|on|plus|wrapped|stuffed|filled)\b")
_MEMORY = 256  # names of products of which is known what they are


def is_fish(row: Row) -> bool:
    """Whether the product is fish or shellfish, by its group or, where no table knows it, by its words."""
    if row.product is not None or row.is_plant:
        return row.group in groups.FISH
    return _is_called_fish(row.text("product"))


@lru_cache(maxsize=_MEMORY)
def _is_called_fish(text: str) -> bool:
    said = called.heard(text)
    return not says(said, _MEAT) and _says_fish(said)


def is_meat(row: Row) -> bool:
    """Whether the product is meat or poultry, by its group or, where no table knows it, by its words."""
    if row.product is not None or row.is_plant:
        return row.group in groups.MEAT
    return _is_called_meat(row.text("product"))


@lru_cache(maxsize=_MEMORY)
def _is_called_meat(text: str) -> bool:
    is_vegan = says(named.words_in(text), _VEGAN)
    return any(_is_meat(part, is_vegan) for part in _parts(text))


def is_poultry(row: Row) -> bool:
    """Whether the product is poultry, by its group or, where no table knows it, by its words."""
    return row.group == "poultry" or (not row.group and _is_called_poultry(row.text("product")))


@lru_cache(maxsize=_MEMORY)
def _is_called_poultry(text: str) -> bool:
    said = called.heard(text)
    return named.says(said, _POULTRY) or says(said, _BIRDS)


def is_flesh(row: Row) -> bool:
    """Whether it is meat, poultry, fish or shellfish."""
    return is_meat(row) or is_fish(row)


def is_made_of_meat(row: Row) -> bool:
    """Whether a sausage or burger that no table knows is neither of fish nor without meat."""
    text = row.text("product")
    of_fish = any(_says_fish(part) and says(part, _MADE) and not says(part, _ANIMALS) for part in _parts(text))
    return is_meat(row) and not of_fish and not says(named.words_in(text), _VEGAN)


def _parts(text: str) -> List[str]:
    """The words of a name, of each thing that it is made of: a mushroom beside venison makes no mushroom of it."""
    return [called.heard(part) for part in _PARTS.split(text.casefold())]


def _is_meat(said: str, is_vegan: bool) -> bool:
    if says(said, _MEAT):
        return True
    if _says_fish(said) or says(said, _VEGAN):
        return False
    return says(said, _GAME) or (says(said, _CUTS) and not is_vegan and not says(said, _NO_MEAT))


def _says_fish(said: str) -> bool:
    return says(said, ALL_FISH) or any(word.endswith(("fish", "fisch")) for word in said.split())


def says(said: str, words: Tuple[str, ...]) -> bool:
    """Whether one of the words, or of the phrases among them, stands in a text that was read."""
    single, phrases = _forms(words)
    return not single.isdisjoint(said.split()) or any(phrase in said for phrase in phrases)


@cache
def _forms(words: Tuple[str, ...]) -> Tuple[FrozenSet[str], Tuple[str, ...]]:
    """The words as they stand in a text that was read, in the singular, and apart from them those of several words."""
    forms = [named.words_in(word) for word in words]
    single = frozenset(form.strip() for form in forms if len(form.split()) == 1)
    return single, tuple(form for form in forms if len(form.split()) != 1)
