package panelbook.cli.command;

import java.util.List;

/** The words of a session, for whoever types help, and for the help of the command. */
final class MatchHelp {

    static final List<String> LINES = List.of(
            "Steps (the beginning of a word is enough; a note may follow any step after --):",
            "  saw LOOK [PLACE] [on MATERIAL]    saw redder skin on \"beach, shot 3\"; saw more-cyan one-colour teal",
            "  CONTROL[@LEVEL] CLICKS            gain.red -1; gain.red@low +2; gain.red =0 for where it is to stand",
            "  better, worse, same               what the operator makes of the last trim",
            "  read FILE                         uploads a run and takes it in; options as run upload takes them",
            "  back [N]                          controls set back to step N, 0 for the beginning; alone: before the last trim",
            "  keep CONTROL because REASON       lets a trim stand that a guard refuses",
            "  note TEXT                         anything else worth keeping",
            "Looks: redder, greener, bluer, more-cyan, more-magenta, yellower, lighter, darker, more-saturated,",
            "  less-saturated, more-contrast, less-contrast, crushed",
            "Places: whole-image, skin, shadows, midtones, highlights, one-colour COLOUR",
            "Look around:",
            "  show                              the story so far, with the numbers of its steps",
            "  where                             how the controls stand",
            "  suggest                           trims that bring the follower nearest",
            "  restore N                         what to set to get back to step N",
            "When a step could not be sent, or was refused:",
            "  send                              sends now what waits",
            "  again, leave                      adds refused steps anew at the end, or leaves them out",
            "The end:",
            "  sign                              the operator accepts; asks for material, remarks and closing runs",
            "  give up REASON                    closes the match without",
            "  quit                              leaves it open; panelbook match session takes it up again");

    private MatchHelp() {}
}
