"""Words that VBA keeps for itself; none may name an argument.

One idea: the list is kept whole, so that an argument named in years to come is checked against it too.
"""

from __future__ import annotations

RESERVED = frozenset(
    (
        "addressof alias and any as attribute base boolean byref byte byval call case cbool cbyte ccur cdate cdbl "
        "cint clng close compare const csng cstr currency cvar cverr date debug decimal declare defbool defbyte "
        "defcur defdate defdbl defint deflng defobj defsng defstr defvar dim do double each else elseif empty end "
        "endif enum eqv erase error event exit explicit false fix for friend function get global gosub goto if imp "
        "implements in input integer is lbound len let lib like line local lock long loop lset me mid mod module name "
        "new next not nothing null object on open option optional or output paramarray preserve print private "
        "property public put raiseevent randomize redim rem reset resume return rset seek select set single spc "
        "static step stop str strcomp string sub tab then time to true type typeof ubound unlock until variant wend "
        "when while width with withevents write xor "
    ).split()
)
