"""Everyday words that may be taken for damaged words of the craft: one list for all who mend (scans, slips)."""

from __future__ import annotations

EVERYDAY = frozenset(
    """
    a add am an and any are as at be big bo but by can co cot de did do due eh en far few fit for fro fur get go had has he her him his
    ho how i if in is it its let low lot mat may me mm my new no nor not now odd of off oh ok old on one or our out own per put re red
    run say see set sew she so tan ten the tie tip to too top try two up us use via was way we who why yd yds yes yet you b c ch cl d dc
    dk e eg g h ie k l lb lg lp lt m mc cc oz p pc r rd rs s sc sh sk sl sm sp ss st t tr v w ws x xl xs y yo z beach best book boot
    brim bring buff burn cake came cast chair coin cook corn cuff dance dine dive east fast file fine fire fist fork game give hive hoop
    hour kiss lace lake last least lift light like line list live lone look loose lost mass mine mist moss most muff name near neat nest
    night ounce past pace pilot pine pink pork pour reach right rind rose safe sale seam send ship sight sing size skin slit smell some
    sore sour spare spell stay stem stiff stay swell switch take tall teach tent test text there thing tide tile till torn tour tree
    tube tune turf vest vine wake weight west wine wing word worn your fill fold back band hand lid
    arms pivot caps cost cross court cuffs cutting deal fall fins flap found full height idea inch lead lean lobe looks loss mane mess might
    mount nice none nose plan save seen sell shall sound stick tell tight twine unit vast wide
    """.split()  # noqa: SIM905
)
"""Short words and short forms, which stand alone rightly; longer ones that lie one letter from a word of the craft and are no slip."""
