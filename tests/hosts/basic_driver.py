"""The driver of a throwaway LibreOffice, with one more order: to run a function of a Basic module.

LibreOffice's Basic understands VBA's language well enough to compile a module and run what needs no Excel.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "brinecalc" / "hosts" / "calc"))

import driver

MODULE = "Brine"


class Driver(driver.Driver):
    """The usual orders and one more."""

    def basic(self, source, function, arguments):
        """What a function of the module gives."""
        libraries = self.service("com.sun.star.script.ApplicationScriptLibraryContainer")
        library = libraries.getByName("Standard")
        if library.hasByName(MODULE):
            library.removeByName(MODULE)
        library.insertByName(MODULE, source)
        maker = self.service("com.sun.star.script.provider.MasterScriptProviderFactory")
        script = maker.createScriptProvider("").getScript(
            f"vnd.sun.star.script:Standard.{MODULE}.{function}?language=Basic&location=application"
        )
        given = tuple(tuple(map(tuple, argument)) if isinstance(argument, list) else argument for argument in arguments)
        return script.invoke(given, (), ())[0]


driver.Driver = Driver
driver.main()
