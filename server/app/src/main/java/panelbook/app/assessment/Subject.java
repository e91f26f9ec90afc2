package panelbook.app.assessment;

import panelbook.app.runs.PresetFacts;

/** A preset with the run that it is to be judged by. */
record Subject(PresetFacts preset, RunMeasured run) {}
