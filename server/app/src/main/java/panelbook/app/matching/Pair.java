package panelbook.app.matching;

import panelbook.app.runs.PresetFacts;

/** A follower and its hero, both in use. */
record Pair(PresetFacts follower, PresetFacts hero) {}
