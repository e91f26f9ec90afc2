package panelbook.cli.match;

import org.jspecify.annotations.Nullable;
import panelbook.wire.Observation;
import panelbook.wire.StepDraft;
import panelbook.wire.Trim;

/** Steps and trims in the words by which they are typed. */
public final class StepText {

    private static final String ALL = "all";

    private StepText() {}

    /**
     * A step.
     *
     * @param ofHero for a reading: whether it is of the hero
     */
    public static String of(StepDraft step, @Nullable Boolean ofHero) {
        var note = step.note();
        return switch (step.kind()) {
            case OBSERVATION -> noted("saw " + observation(step.observation()), note);
            case TRIM -> noted("trim " + change(step.trim()), note);
            case VERDICT -> noted(String.valueOf(step.verdict()), note);
            case READING -> noted("read of the " + (Boolean.TRUE.equals(ofHero) ? "hero" : "follower"), note);
            case RETURN -> noted("back " + step.returnTo(), note);
            case OVERRIDE -> "keep " + control(step.control(), step.level()) + " because " + note;
            case NOTE -> "note " + note;
        };
    }

    private static String noted(String text, @Nullable String note) {
        return note == null ? text : text + " -- " + note;
    }

    private static String observation(@Nullable Observation seen) {
        if (seen == null) {
            return "";
        }
        return seen.look() + " " + seen.place() + (seen.colour() == null ? "" : " " + seen.colour())
                + (seen.material() == null ? "" : " on " + seen.material());
    }

    private static String change(@Nullable Trim trim) {
        return trim == null ? "" : control(trim.control(), trim.level()) + " " + clicks(trim.clicks());
    }

    /** A control and its level, unless it has none. */
    public static String control(@Nullable String control, @Nullable String level) {
        return control + (level == null || level.equals(ALL) ? "" : "@" + level);
    }

    /** Clicks with their sign. */
    public static String clicks(int clicks) {
        return clicks > 0 ? "+" + clicks : Integer.toString(clicks);
    }

    /** How controls stand; "as calibrated" when none is off its calibrated setting. */
    public static String settings(java.util.List<Trim> settings) {
        return settings.isEmpty()
                ? "as calibrated"
                : settings.stream().map(StepText::change).collect(java.util.stream.Collectors.joining(", "));
    }
}
